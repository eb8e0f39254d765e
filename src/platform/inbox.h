// What reached the app from outside since the last tick: files, stored attempts, page events.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace driftbench::platform {

/// A file that the person chose or dropped.
struct FileOpened {
  std::string name;
  std::string text;
};

/// Before the first frame: a file that was opened on an earlier visit, or that the address brings
/// (`is_new`). They come kits first, then pieces of jaw, lessons, sets; one without a name ends
/// them.
struct FileKept {
  std::string name;
  std::string text;
  bool is_new = false;
};

/// Storage could not do what was asked; the sentence says what.
struct StorageFailed {
  std::string sentence;
};

/// Summaries of all stored attempts, oldest first: a JSON array.
struct StoredIndex {
  std::string json;
};

struct AttemptLoaded {
  std::string id;
  std::string text;
};

/// An attempt that broke off and can be resumed; without an id: there is none any more.
struct JournalFound {
  std::string id;
  std::string title;
  std::string when;
  std::int64_t step = 0;
};

struct JournalLoaded {
  std::string id;
  std::string head;
  std::int64_t step = 0;
  std::vector<std::int32_t> rows;
};

/// The page is hidden (nothing is drawn, time stands still) or seen again.
struct VisibilityChanged {
  bool is_hidden = false;
};

/// The page has the texts of another language ready, host.h's language_texts().
struct LanguageChanged {};

/// The second part of the program has come (src/app/later.txt): everything can be done now.
struct ProgramWhole {};

/// Keys and pointers go elsewhere now.
struct FocusLost {};

/// The page may be closed at any moment: keep what is not yet kept.
struct KeepNow {};

struct GraphicsLost {};

struct GraphicsRestored {};

using Message = std::variant<FileOpened, FileKept, StorageFailed, StoredIndex, AttemptLoaded,
                             JournalFound, JournalLoaded, VisibilityChanged, ProgramWhole,
                             FocusLost, KeepNow, GraphicsLost, GraphicsRestored, LanguageChanged>;

/// Called for every message as it comes; set once at start.
using Receiver = void (*)(Message message);
void set_receiver(Receiver receiver);
void deliver(Message message);

/// Set once at start: one turn of the program. Returns whether another should follow at once.
using Tick = bool (*)();

/// What the page may look at and touch: for tests, and for its mirror that assistive tools read.
struct Looks {
  std::string (*items)() = nullptr;  ///< JSON
  std::string (*state)() = nullptr;  ///< JSON
  void (*activate)(std::uint32_t item_id) = nullptr;
  void (*focus)(std::uint32_t item_id) = nullptr;
  void (*adjust)(std::uint32_t item_id, int steps) = nullptr;
};

void set_looks(const Looks& looks);

/// Hands the program over to the machine's event loop.
void run(Tick tick);

}  // namespace driftbench::platform
