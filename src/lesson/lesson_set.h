// A set: lessons in order, how far apart they lie, and what comes back later.
#pragma once

#include "lesson/lesson.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::lesson {

/// What must be true of the lesson before, for an entry to open.
enum class Opens {
  kAfterFinished,  ///< it was worked through
  kAfterPassed,    ///< its criterion was met
  kAlways,
};

/// Attempts that come back when some of the skill has had time to fade.
struct Retention {
  int after_days = 7;    ///< after the lesson was finished
  std::string block_id;  ///< block of the lesson that is done again; "": its first one
  int attempts = 4;

  friend bool operator==(const Retention&, const Retention&) = default;
};

/// One lesson of a set.
struct SetEntry {
  std::string lesson_id;  ///< the file beside the set is <id>.lesson.json
  std::string sha256;     ///< of that file's exact bytes; "": any revision
  Opens opens = Opens::kAfterFinished;
  int after_days = 0;  ///< from the end of the lesson before
  std::optional<Retention> retention;

  friend bool operator==(const SetEntry&, const SetEntry&) = default;
};

struct LessonSet {
  std::string id;
  std::string revision;
  LocalText title;
  LocalText introduction;
  LocalText teacher_notes;
  std::string class_code;             ///< "": none
  std::optional<std::uint64_t> seed;  ///< none: each lesson keeps its own
  std::vector<SetEntry> lessons;
  std::string sha256;  ///< of the exact bytes read
};

/// Reads a set file; same rules as read_lesson().
[[nodiscard]] ReadOutcome<LessonSet> read_set(std::string_view text, std::string_view file_name);

/// Text of a set file, version 1; read_set() of it gives the same set (but for `sha256`).
[[nodiscard]] std::string write_set(const LessonSet& set);

/// File name of an entry's lesson.
[[nodiscard]] std::string lesson_file(const SetEntry& entry);

/// What does not fit between an entry and the lesson it names, a sentence each; empty when it fits.
[[nodiscard]] std::vector<std::string> misfits(const SetEntry& entry, const Lesson& lesson);

/// Seed of a lesson within a set: the same for everybody who works on the set, another one for
/// every lesson, and not touched by lessons that are added or moved. Without a seed of the set it
/// is the lesson's own.
///
/// Unit: 0 to kMaxSeed
/// Source: own construction from FNV-1a and splitmix64
[[nodiscard]] std::uint64_t seed_in_set(const LessonSet& set, const Lesson& lesson);

}  // namespace driftbench::lesson
