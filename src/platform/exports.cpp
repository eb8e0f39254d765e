// The page's calls into the program; every one of them catches what third-party code may throw.
#include "platform/exports.h"

#include "platform/host.h"
#include "platform/inbox.h"
#include "platform/input.h"

#include <emscripten.h>
#include <imgui.h>

#include <exception>
#include <string>
#include <utility>

namespace driftbench::platform {
namespace {

Receiver g_receiver = nullptr;
Tick g_tick = nullptr;
Looks g_looks;
bool g_crashed = false;

template <class Work>
void guarded(Work work) {
  if (g_crashed) {
    return;
  }
  try {
    work();
  } catch (const std::exception& failure) {
    g_crashed = true;
    report_crash(failure.what());
  }
}

}  // namespace

void set_receiver(Receiver receiver) {
  g_receiver = receiver;
}

void deliver(Message message) {
  if (g_receiver != nullptr) {
    g_receiver(std::move(message));
  }
  request_tick();
}

void set_looks(const Looks& looks) {
  g_looks = looks;
}

void run(Tick tick) {
  g_tick = tick;
  request_tick();
}

}  // namespace driftbench::platform

using namespace driftbench::platform;  // NOLINT: this file only forwards

extern "C" {

EMSCRIPTEN_KEEPALIVE int app_tick() {
  bool again = false;
  guarded([&again] { again = g_tick != nullptr && g_tick(); });
  return again ? 1 : 0;
}

EMSCRIPTEN_KEEPALIVE void app_pointer(int phase, int device, int pointer_id, int button, double x,
                                      double y, double pressure, double tilt_x_deg,
                                      double tilt_y_deg) {
  guarded([&] {
    PointerSample sample;
    sample.phase = static_cast<PointerPhase>(phase);
    sample.device = static_cast<PointerDevice>(device);
    sample.pointer_id = pointer_id;
    sample.button = button;
    sample.x = static_cast<float>(x);
    sample.y = static_cast<float>(y);
    sample.pressure = static_cast<float>(pressure);
    sample.tilt_x_deg = static_cast<float>(tilt_x_deg);
    sample.tilt_y_deg = static_cast<float>(tilt_y_deg);
    take_pointer(sample);
  });
}

EMSCRIPTEN_KEEPALIVE void app_pad(double move_right_s, double move_away_s, double lean_right_s,
                                  double lean_away_s, double trigger) {
  guarded([&] {
    take_pad({static_cast<float>(move_right_s), static_cast<float>(move_away_s),
              static_cast<float>(lean_right_s), static_cast<float>(lean_away_s),
              static_cast<float>(trigger)});
  });
}

EMSCRIPTEN_KEEPALIVE void app_text(const char* text) {
  guarded([&] { ImGui::GetIO().AddInputCharactersUTF8(text); });
}

EMSCRIPTEN_KEEPALIVE void app_paste(const char* text) {
  guarded([&] {
    keep_pasted(text);
    ImGuiIO& io = ImGui::GetIO();
    const ImGuiKey chord = io.ConfigMacOSXBehaviors ? ImGuiMod_Super : ImGuiMod_Ctrl;
    io.AddKeyEvent(chord, true);
    io.AddKeyEvent(ImGuiKey_V, true);
    io.AddKeyEvent(ImGuiKey_V, false);
    io.AddKeyEvent(chord, false);
  });
}

EMSCRIPTEN_KEEPALIVE void app_edit_key(int key, int is_down) {
  guarded([&] {
    ImGui::GetIO().AddKeyEvent(key == 0 ? ImGuiKey_Backspace : ImGuiKey_Enter, is_down != 0);
  });
}

EMSCRIPTEN_KEEPALIVE void app_file(const char* name, const char* bytes, int size) {
  guarded([&] { deliver(FileOpened{name, std::string(bytes, static_cast<std::size_t>(size))}); });
}

EMSCRIPTEN_KEEPALIVE void app_file_kept(const char* name, const char* bytes, int size, int is_new) {
  guarded([&] {
    deliver(FileKept{name, std::string(bytes, static_cast<std::size_t>(size)), is_new != 0});
  });
}

EMSCRIPTEN_KEEPALIVE void app_storage_failed(const char* sentence) {
  guarded([&] { deliver(StorageFailed{sentence}); });
}

EMSCRIPTEN_KEEPALIVE void app_stored_index(const char* json) {
  guarded([&] { deliver(StoredIndex{json}); });
}

EMSCRIPTEN_KEEPALIVE void app_attempt_loaded(const char* id, const char* bytes, int size) {
  guarded([&] { deliver(AttemptLoaded{id, std::string(bytes, static_cast<std::size_t>(size))}); });
}

EMSCRIPTEN_KEEPALIVE void app_journal_found(const char* id, const char* title, const char* when,
                                            double step) {
  guarded([&] { deliver(JournalFound{id, title, when, static_cast<std::int64_t>(step)}); });
}

EMSCRIPTEN_KEEPALIVE void app_journal_loaded(const char* id, const char* head, double step,
                                             const std::int32_t* rows, int row_integers) {
  guarded([&] {
    deliver(JournalLoaded{id, head, static_cast<std::int64_t>(step),
                          std::vector<std::int32_t>(rows, rows + row_integers)});
  });
}

EMSCRIPTEN_KEEPALIVE void app_language() {
  guarded([] { deliver(LanguageChanged{}); });
}

EMSCRIPTEN_KEEPALIVE void app_visibility(int is_hidden) {
  guarded([&] { deliver(VisibilityChanged{is_hidden != 0}); });
}

EMSCRIPTEN_KEEPALIVE void app_focus_lost() {
  guarded([] { deliver(FocusLost{}); });
}

EMSCRIPTEN_KEEPALIVE void app_keep_now() {
  guarded([] { deliver(KeepNow{}); });
}

EMSCRIPTEN_KEEPALIVE void app_whole() {
  guarded([] { deliver(ProgramWhole{}); });
}

EMSCRIPTEN_KEEPALIVE void app_graphics(int is_there) {
  guarded([&] {
    if (is_there != 0) {
      deliver(GraphicsRestored{});
    } else {
      deliver(GraphicsLost{});
    }
  });
}

EMSCRIPTEN_KEEPALIVE const char* app_items() {
  static std::string text;
  text = g_looks.items != nullptr ? g_looks.items() : "[]";
  return text.c_str();
}

EMSCRIPTEN_KEEPALIVE const char* app_state() {
  static std::string text;
  text = g_looks.state != nullptr ? g_looks.state() : "{}";
  return text.c_str();
}

EMSCRIPTEN_KEEPALIVE void app_activate(unsigned item_id) {
  if (g_looks.activate != nullptr) {
    g_looks.activate(item_id);
  }
}

EMSCRIPTEN_KEEPALIVE void app_focus(unsigned item_id) {
  if (g_looks.focus != nullptr) {
    g_looks.focus(item_id);
  }
}

EMSCRIPTEN_KEEPALIVE void app_adjust(unsigned item_id, int steps) {
  if (g_looks.adjust != nullptr) {
    g_looks.adjust(item_id, steps);
  }
}
}
