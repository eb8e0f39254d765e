// Opens the window and hands the program over to the machine's event loop.
#include "app/app.h"
#include "app/hooks.h"
#include "platform/host.h"
#include "ui/language.h"

#include <memory>
#include <span>
#include <utility>

namespace {

std::unique_ptr<driftbench::platform::Window> g_window;
std::unique_ptr<driftbench::app::App> g_app;

}  // namespace

int main(int argc, char** argv) {
  using namespace driftbench;
  auto window = platform::Window::open("Driftbench");
  if (!window.has_value()) {
    platform::report_crash(window.error().message);
    return 1;
  }
  g_window = std::move(*window);
  ui::set_language(platform::language_texts());
  const std::span<const char* const> arguments(argv, static_cast<std::size_t>(argc));
  g_app = std::make_unique<app::App>(*g_window, app::read_launch(arguments));
  app::connect_hooks(g_app.get());
  platform::set_receiver([](platform::Message message) { g_app->receive(std::move(message)); });
  platform::run([] { return g_app->tick(); });
  return 0;
}
