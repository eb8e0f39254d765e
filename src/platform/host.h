// What the app asks of the machine around it: clock, storage, files, sound, spoken status, text
// input.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace driftbench::platform {

/// Seconds since some fixed moment; never goes back.
[[nodiscard]] double now_s();

/// Local date and time for people, "2026-03-31 14:05".
[[nodiscard]] std::string local_time();

/// Days since 1970, UTC, with their fraction.
[[nodiscard]] double now_days();

/// Fresh random bytes from the machine, as `2 * byte_count` hexadecimal digits.
[[nodiscard]] std::string random_hex(int byte_count);

/// True on a Mac, where Command takes the place of Control.
[[nodiscard]] bool is_mac();

/// True when pictures are made by the processor: pictures start small then.
[[nodiscard]] bool is_software_rendered();

/// True when pointers arrive through take_pointer() and not as SDL events.
[[nodiscard]] bool has_own_pointer_events();

/// Runs one tick of the program again soon; without it the page sleeps until something happens.
void request_tick();

// --- Words to people outside the picture
// ------------------------------------------------------------

/// A short sentence for the status line that screen readers speak.
void announce(std::string_view sentence);

/// Leaves for another page of the site, "classroom.html".
void open_page(const char* name);

/// Ends the program visibly: says what happened and offers to reload. Nothing runs after it.
void report_crash(std::string_view what);

// --- Language
// ------------------------------------------------------------------------------------------

/// The language file of the page's language; empty: English.
[[nodiscard]] std::string language_texts();

/// Asks for another language, "de"; LanguageChanged says that its texts are there.
void choose_language(std::string_view code);

// --- Text input and clipboard
// -----------------------------------------------------------------------

/// Shows or hides the text field behind the caret (logical pixels).
void set_text_input(bool is_wanted, float x, float y, float line_height);
void copy_to_clipboard(const char* text);
void keep_pasted(const char* text);  ///< text that the page was given to paste
[[nodiscard]] const std::string& clipboard();

// --- Files
// ------------------------------------------------------------------------------------------

/// Lets the person choose a file; it arrives as FileOpened. Call it while handling input.
void pick_file();

/// Offers `text` as a file to keep.
void save_file(const std::string& name, const std::string& text);

// --- Storage. All of it is asynchronous; failures arrive as StorageFailed
// ---------------------------

/// Keeps a small setting (`name`: letters only) until it is given again at the next start.
void remember(const char* name, const std::string& value);

/// Keeps a finished attempt and forgets the running one of the same id, in one go.
void store_attempt(const std::string& id, const std::string& summary_json, const std::string& text);
void delete_attempt(const std::string& id);
void delete_all_attempts();
void export_all_attempts();                   ///< as one file, offered like save_file()
void open_takeaway(const std::string& json);  ///< the page's dialog about the kept attempts
void load_attempt(const std::string& id);     ///< arrives as AttemptLoaded

/// Keeps an opened lesson, set, kit or piece of jaw: it arrives as FileKept at the next start.
void keep_file(const std::string& name, const std::string& text);

/// Forgets kept files (`names`: one a line), then starts the page anew.
void forget_files(const std::string& names);

/// Starts the journal of a running attempt: `head` is its attempt file with an empty trace.
void begin_journal(const std::string& id, const std::string& title, const std::string& head);

/// Adds to the journal: rows of kJournalRow integers (step, op, arguments), all inputs before
/// `step`.
void append_journal(const std::string& id, std::int64_t step, std::span<const std::int32_t> rows);
void drop_journal(const std::string& id);
void load_journal(const std::string& id);  ///< arrives as JournalLoaded

inline constexpr std::size_t kJournalRow = 7;

// --- Sound
// ------------------------------------------------------------------------------------------

/// A few numbers a frame; the sound follows them smoothly.
struct Sound {
  bool muted = false;
  double motor_share = 0.0;      ///< speed of the motor over the usual one, 0: still
  double load_share = 0.0;       ///< how much the motor is held back, 0..1
  double roughness_share = 0.0;  ///< how hard the touched material is, 0..1
  bool irrigation = false;
};

void play_sound(const Sound& sound);

}  // namespace driftbench::platform
