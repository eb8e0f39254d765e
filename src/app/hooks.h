// Looks into the running program for the page: what is on the screen, and the state.
#pragma once

namespace driftbench::app {

class App;

/// The program that the functions below look into.
void connect_hooks(App* app);

}  // namespace driftbench::app

extern "C" {

/// JSON texts; valid until the next call of the same function.
const char* app_items();
const char* app_state();

/// From the page's mirror of the items; `item_id` as in app_items().
void app_activate(unsigned item_id);
void app_focus(unsigned item_id);
void app_adjust(unsigned item_id, int steps);
}
