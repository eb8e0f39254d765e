// The machine around the app is a web page: every request goes to the page's `host` object
// (web/boot.js).
#include "platform/host.h"

#include <emscripten.h>

#include <array>
#include <cstdlib>
#include <string>

// EM_JS keeps JavaScript as text in the program; its macros are not written for -Wpedantic.
#pragma clang diagnostic push
#pragma clang diagnostic ignored "-Wpedantic"
#pragma clang diagnostic ignored "-Wmissing-declarations"
// clang-format off
EM_JS(double, host_now, (), { return performance.now() / 1000; });
EM_JS(void, host_local_time, (char* text, int size), {
  stringToUTF8(Module['host'].localTime(), text, size);
});
EM_JS(void, host_random, (unsigned char* bytes, int count), {
  crypto.getRandomValues(HEAPU8.subarray(bytes, bytes + count));
});
EM_JS(int, host_is_mac, (), { return Module['host'].isMac ? 1 : 0; });
EM_JS(int, host_is_software, (), { return Module['host'].isSoftware ? 1 : 0; });
EM_JS(void, host_wake, (), { Module['host'].wake(); });
EM_JS(void, host_announce, (const char* text), { Module['host'].announce(UTF8ToString(text)); });
EM_JS(char*, host_language_texts, (), {
  const text = Module['host'].texts();
  const size = lengthBytesUTF8(text) + 1;
  const address = _malloc(size);
  stringToUTF8(text, address, size);
  return address;
});
EM_JS(void, host_choose_language, (const char* code), {
  Module['host'].chooseLanguage(UTF8ToString(code));
});
EM_JS(void, host_open_page, (const char* name), { Module['host'].openPage(UTF8ToString(name)); });
EM_JS(void, host_crash, (const char* text), { Module['host'].crash(UTF8ToString(text)); });
EM_JS(void, host_text_input, (int wanted, double x, double y, double height), {
  Module['host'].textInput(wanted !== 0, x, y, height);
});
EM_JS(void, host_copy, (const char* text), { Module['host'].copy(UTF8ToString(text)); });
EM_JS(void, host_pick_file, (), { Module['host'].pickFile(); });
EM_JS(void, host_save_file, (const char* name, const char* text), {
  Module['host'].saveFile(UTF8ToString(name), UTF8ToString(text));
});
EM_JS(void, host_remember, (const char* name, const char* text), {
  Module['host'].remember(UTF8ToString(name), UTF8ToString(text));
});
EM_JS(void, host_store_attempt, (const char* id, const char* summary, const char* text), {
  Module['host'].storage.storeAttempt(UTF8ToString(id), UTF8ToString(summary), UTF8ToString(text));
});
EM_JS(void, host_delete_attempt, (const char* id), {
  Module['host'].storage.deleteAttempt(UTF8ToString(id));
});
EM_JS(void, host_keep_file, (const char* name, const char* text), {
  Module['host'].storage.keepFile(UTF8ToString(name), UTF8ToString(text));
});
EM_JS(void, host_forget_files, (const char* names), { Module['host'].forgetFiles(UTF8ToString(names)); });
EM_JS(double, host_now_days, (), { return Date.now() / 86400000; });
EM_JS(void, host_delete_all, (), { Module['host'].storage.deleteAll(); });
EM_JS(void, host_takeaway, (const char* json), { Module['host'].takeaway(JSON.parse(UTF8ToString(json))); });
EM_JS(void, host_export_all, (), { Module['host'].exportAll(); });
EM_JS(void, host_load_attempt, (const char* id), {
  Module['host'].storage.loadAttempt(UTF8ToString(id));
});
EM_JS(void, host_begin_journal, (const char* id, const char* title, const char* head), {
  Module['host'].storage.beginJournal(UTF8ToString(id), UTF8ToString(title), UTF8ToString(head));
});
EM_JS(void, host_append_journal, (const char* id, double step, const int* rows, int count), {
  Module['host'].storage.appendJournal(UTF8ToString(id), step, HEAP32.slice(rows >> 2, (rows >> 2) + count));
});
EM_JS(void, host_drop_journal, (const char* id), { Module['host'].storage.dropJournal(UTF8ToString(id)); });
EM_JS(void, host_load_journal, (const char* id), { Module['host'].storage.loadJournal(UTF8ToString(id)); });
EM_JS(void, host_sound, (int muted, double motor, double load, double roughness, int irrigation), {
  Module['host'].sound(muted !== 0, motor, load, roughness, irrigation !== 0);
});
// clang-format on
#pragma clang diagnostic pop

namespace driftbench::platform {
namespace {

std::string g_clipboard;

}  // namespace

double now_s() {
  return host_now();
}

std::string local_time() {
  std::array<char, 64> text{};
  host_local_time(text.data(), static_cast<int>(text.size()));
  return text.data();
}

std::string random_hex(int byte_count) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string bytes(static_cast<std::size_t>(byte_count), '\0');
  host_random(reinterpret_cast<unsigned char*>(bytes.data()), byte_count);
  std::string text;
  for (const char byte : bytes) {
    const auto value = static_cast<unsigned char>(byte);
    text += kDigits[value >> 4U];
    text += kDigits[value & 15U];
  }
  return text;
}

bool is_mac() {
  return host_is_mac() != 0;
}

bool is_software_rendered() {
  return host_is_software() != 0;
}

bool has_own_pointer_events() {
  return true;
}

void request_tick() {
  host_wake();
}

void announce(std::string_view sentence) {
  host_announce(std::string(sentence).c_str());
}

std::string language_texts() {
  char* const text = host_language_texts();
  std::string copy(text);
  std::free(text);
  return copy;
}

void choose_language(std::string_view code) {
  host_choose_language(std::string(code).c_str());
}

void open_page(const char* name) {
  host_open_page(name);
}

void report_crash(std::string_view what) {
  host_crash(std::string(what).c_str());
}

void set_text_input(bool is_wanted, float x, float y, float line_height) {
  host_text_input(is_wanted ? 1 : 0, static_cast<double>(x), static_cast<double>(y),
                  static_cast<double>(line_height));
}

void copy_to_clipboard(const char* text) {
  g_clipboard = text;
  host_copy(text);
}

void keep_pasted(const char* text) {
  g_clipboard = text;
}

const std::string& clipboard() {
  return g_clipboard;
}

void pick_file() {
  host_pick_file();
}

void save_file(const std::string& name, const std::string& text) {
  host_save_file(name.c_str(), text.c_str());
}

void remember(const char* name, const std::string& value) {
  host_remember(name, value.c_str());
}

void store_attempt(const std::string& id, const std::string& summary_json,
                   const std::string& text) {
  host_store_attempt(id.c_str(), summary_json.c_str(), text.c_str());
}

void delete_attempt(const std::string& id) {
  host_delete_attempt(id.c_str());
}

double now_days() {
  return host_now_days();
}

void delete_all_attempts() {
  host_delete_all();
}

void open_takeaway(const std::string& json) {
  host_takeaway(json.c_str());
}

void export_all_attempts() {
  host_export_all();
}

void load_attempt(const std::string& id) {
  host_load_attempt(id.c_str());
}

void keep_file(const std::string& name, const std::string& text) {
  host_keep_file(name.c_str(), text.c_str());
}

void forget_files(const std::string& names) {
  host_forget_files(names.c_str());
}

void begin_journal(const std::string& id, const std::string& title, const std::string& head) {
  host_begin_journal(id.c_str(), title.c_str(), head.c_str());
}

void append_journal(const std::string& id, std::int64_t step, std::span<const std::int32_t> rows) {
  host_append_journal(id.c_str(), static_cast<double>(step), rows.data(),
                      static_cast<int>(rows.size()));
}

void drop_journal(const std::string& id) {
  host_drop_journal(id.c_str());
}

void load_journal(const std::string& id) {
  host_load_journal(id.c_str());
}

void play_sound(const Sound& sound) {
  host_sound(sound.muted ? 1 : 0, sound.motor_share, sound.load_share, sound.roughness_share,
             sound.irrigation ? 1 : 0);
}

}  // namespace driftbench::platform
