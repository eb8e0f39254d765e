#include "ui/stepper.h"

#include "ui/strings.h"

namespace driftbench::ui {

double stepper(Frame& frame, const Rect& box, const Stepper& spec) {
  Rect row = box;
  const float side = row.height - frame.px(4.0F);
  const Rect plus_box = cut_right(row, side);
  const Rect value_box = cut_right(row, frame.px(92.0F));
  const Rect minus_box = cut_right(row, side);
  double change = 0.0;

  ScreenItem about;
  about.role = Role::kSlider;
  about.is_dragged = false;  // its name takes keys; a finger on it moves the page
  about.value = spec.value;
  about.description = spec.description;
  const Rect body{row.x, row.y, row.width - frame.px(4.0F), row.height};
  const Touch touch = item(frame, body, spec.name, about);
  const ArrowKeys keys = arrow_keys(touch);
  change += (keys.fine ? spec.fine : spec.step) * (keys.right + keys.up);
  if (frame.state.adjust.has_value() && frame.state.adjust->id == touch.id) {
    change += spec.step * frame.state.adjust->steps;
    frame.state.adjust.reset();
  }
  // A long name takes two lines of small type.
  const bool is_long = text_size(frame.fonts.body, spec.name).x > body.width;
  const Face& face = is_long ? frame.fonts.caption : frame.fonts.body;
  const float wrap_px = is_long ? body.width : 0.0F;
  const float name_height = text_size(face, spec.name, wrap_px).y;
  draw_wrapped(*ImGui::GetWindowDrawList(), face, frame.colors.text,
               {row.x, row.y + 0.5F * (row.height - name_height)}, wrap_px, spec.name);
  if (touch.focused) {
    focus_ring(frame, body, kRadiusSmall_px);
  }
  tooltip(frame, touch, spec.description);

  const auto press = [&](const Rect& at, const char* label, Str name, double by) {
    Button button_spec{label};
    button_spec.name = say(name, spec.name);
    if (button(frame, inset(at, frame.px(2.0F)), button_spec)) {
      change += by * (ImGui::GetIO().KeyShift ? spec.fine : spec.step);
    }
  };
  press(minus_box, "\u2212", Str::kLessOf, -1.0);
  const ImVec2 size = text_size(frame.fonts.strong, spec.value);
  draw_text(frame.fonts.strong, frame.colors.text,
            {value_box.x + 0.5F * (value_box.width - size.x),
             value_box.y + 0.5F * (value_box.height - size.y)},
            spec.value);
  press(plus_box, "+", Str::kMoreOf, 1.0);
  return change;
}

}  // namespace driftbench::ui
