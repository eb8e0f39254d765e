#include "app/hooks.h"

#include "app/app.h"

#include <emscripten.h>

#include <string>

namespace driftbench::app {
namespace {

App* g_app = nullptr;

}  // namespace

void connect_hooks(App* app) {
  g_app = app;
}

}  // namespace driftbench::app

using driftbench::app::g_app;

extern "C" {

EMSCRIPTEN_KEEPALIVE const char* app_items() {
  static std::string text;
  text = g_app != nullptr ? g_app->items_json() : "[]";
  return text.c_str();
}

EMSCRIPTEN_KEEPALIVE const char* app_state() {
  static std::string text;
  text = g_app != nullptr ? g_app->state_json() : "{}";
  return text.c_str();
}

EMSCRIPTEN_KEEPALIVE void app_activate(unsigned item_id) {
  if (g_app != nullptr) {
    g_app->activate_item(item_id);
  }
}

EMSCRIPTEN_KEEPALIVE void app_focus(unsigned item_id) {
  if (g_app != nullptr) {
    g_app->focus_item(item_id);
  }
}

EMSCRIPTEN_KEEPALIVE void app_adjust(unsigned item_id, int steps) {
  if (g_app != nullptr) {
    g_app->adjust_item(item_id, steps);
  }
}
}
