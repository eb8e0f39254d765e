#include "app/hooks.h"

#include "app/app.h"
#include "platform/inbox.h"

namespace driftbench::app {
namespace {

App* g_app = nullptr;

}  // namespace

void connect_hooks(App* app) {
  g_app = app;
  platform::set_looks(
      {[] { return g_app->items_json(); }, [] { return g_app->state_json(); },
       [](std::uint32_t item_id) { g_app->activate_item(item_id); },
       [](std::uint32_t item_id) { g_app->focus_item(item_id); },
       [](std::uint32_t item_id, int steps) { g_app->adjust_item(item_id, steps); }});
}

}  // namespace driftbench::app
