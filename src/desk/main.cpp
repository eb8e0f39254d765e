// Opens the window of the Classroom and hands the program over to the page's event loop.
#include "desk/desk.h"

#include "platform/host.h"
#include "ui/language.h"

#include <memory>
#include <span>
#include <utility>

namespace {

std::unique_ptr<driftbench::platform::Window> g_window;
std::unique_ptr<driftbench::desk::Desk> g_desk;

}  // namespace

int main(int argc, char** argv) {
  using namespace driftbench;
  auto window = platform::Window::open("Driftbench Classroom");
  if (!window.has_value()) {
    platform::report_crash(window.error().message);
    return 1;
  }
  g_window = std::move(*window);
  ui::set_language(platform::language_texts());
  const std::span<const char* const> arguments(argv, static_cast<std::size_t>(argc));
  g_desk = std::make_unique<desk::Desk>(*g_window, arguments);
  desk::connect(g_desk.get());
  platform::set_looks({[] { return g_desk->items_json(); }, [] { return g_desk->state_json(); },
                       [](std::uint32_t item_id) { g_desk->activate_item(item_id); },
                       [](std::uint32_t item_id) { g_desk->focus_item(item_id); },
                       [](std::uint32_t, int) {}});
  platform::set_receiver([](platform::Message message) { g_desk->receive(message); });
  platform::run([] { return g_desk->tick(); });
  return 0;
}
