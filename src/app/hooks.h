// Looks into the running program for the page: what is on the screen, and the state.
#pragma once

namespace driftbench::app {

class App;

/// Lets the page look into this program; it must outlive the page.
void connect_hooks(App* app);

}  // namespace driftbench::app
