#include "ui/ask_twice.h"

namespace driftbench::ui {

Button twice_button(const Frame& frame, Str label, Str question, const std::string& what) {
  const bool is_asked = frame.state.delete_armed == what;
  Button spec{std::string(tr(is_asked ? question : label))};
  spec.kind = is_asked ? ButtonKind::kDanger : ButtonKind::kQuiet;
  return spec;
}

bool pressed_twice(Frame& frame, bool is_pressed, const std::string& what) {
  std::string& armed = frame.state.delete_armed;
  const bool is_asked = armed == what;
  if (is_pressed) {
    armed = is_asked ? std::string() : what;
    return is_asked;
  }
  if (is_asked && !ImGui::IsItemHovered() && ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
    armed.clear();
  }
  return false;
}

}  // namespace driftbench::ui
