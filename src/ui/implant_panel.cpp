#include "ui/implant_panel.h"

#include "base/text.h"
#include "lesson/instruments.h"
#include "ui/hint_words.h"
#include "ui/panels.h"
#include "ui/rack_slot.h"
#include "ui/strings.h"
#include "ui/widgets.h"

#include <array>
#include <cmath>

namespace driftbench::ui {

namespace {

constexpr double kDriver_mm = 14.0;  // part of the driver that is drawn
constexpr double kDriverRadius_mm = 1.1;

void take(Frame& frame) {
  frame.send(record::Op::kTakeImplant, {lesson::implant_index_of(*frame.model.setup)});
}

void back_out(Frame& frame) {
  const bool runs = frame.model.view->motor_rpm < 0.0;
  frame.send(record::Op::kMotor, {runs ? 0 : -implant_speed_rpm(frame)});
}

void release(Frame& frame) {
  frame.send(record::Op::kReleaseImplant);
}

std::int32_t other_limit_nmm(const Frame& frame) {
  const bool is_usual =
      frame.model.view->implant.torque_limit_nmm < session::kLargestTorqueLimit_nmm;
  return is_usual ? session::kLargestTorqueLimit_nmm : session::kUsualTorqueLimit_nmm;
}

void change_limit(Frame& frame) {
  frame.send(record::Op::kTorqueLimit, {other_limit_nmm(frame)});
}

// Upside as in the block: end below, platform above, the driver on it.
void draw_implant(const Frame& frame, const specimen::Implant& implant, float x, float end_y,
                  float per_mm) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const Palette& c = frame.colors;
  const specimen::ImplantThread thread = specimen::thread_of(implant);
  const auto px = [per_mm](double mm) { return static_cast<float>(mm) * per_mm; };
  const float platform_y = end_y - px(implant.length_mm);
  list->AddRectFilled({x - px(kDriverRadius_mm), platform_y - px(kDriver_mm)},
                      {x + px(kDriverRadius_mm), platform_y}, color_of(c.steel_dark));
  const double depth_mm = 0.5 * (implant.diameter_mm - thread.core_diameter_mm);
  const auto radius_mm = [&](double at_mm) {
    const double share = std::min(1.0, at_mm / thread.taper_mm);
    return 0.5 *
           (thread.apex_diameter_mm + share * (implant.diameter_mm - thread.apex_diameter_mm));
  };
  for (double at_mm = 0.0; at_mm < implant.length_mm; at_mm += thread.pitch_mm) {
    const double to_mm = std::min(at_mm + thread.pitch_mm, implant.length_mm);
    const float low = end_y - px(at_mm);
    const float high = end_y - px(to_mm);
    const float core = px(radius_mm(at_mm) - depth_mm);
    const float crest = px(radius_mm(at_mm));
    list->AddRectFilled({x - core, high}, {x + core, low}, color_of(c.steel));
    list->AddTriangleFilled({x - core, low}, {x - crest, 0.5F * (low + high)}, {x - core, high},
                            color_of(c.steel));
    list->AddTriangleFilled({x + core, low}, {x + core, high}, {x + crest, 0.5F * (low + high)},
                            color_of(c.steel));
  }
}

}  // namespace

bool wants_implant(const Frame& frame) {
  return frame.model.setup->place_implant && lesson::implant_of(*frame.model.setup) != nullptr;
}

double implant_slot_mm(const Frame& frame) {
  const specimen::Implant* implant = lesson::implant_of(*frame.model.setup);
  return implant == nullptr ? 0.0 : implant->length_mm + kDriver_mm;
}

void implant_slot(Frame& frame, const Rect& slot, float px_per_mm) {
  const specimen::Implant& implant = *lesson::implant_of(*frame.model.setup);
  const session::ImplantView& view = frame.model.view->implant;
  ScreenItem about;
  about.role = Role::kRadio;
  about.checked = view.index >= 0;
  about.value = view.is_seated ? std::string(tr(Str::kSeated)) : std::string();
  about.description = say(Str::kImplantHelp, torque_ncm(view.torque_limit_nmm));
  const std::string name = say(Str::kImplantName, base::fixed(implant.diameter_mm, 1),
                               base::fixed(implant.length_mm, 0));
  const Touch touch = item(frame, slot, name + "##implant", about);
  const SlotParts parts = slot_parts(frame, slot, view.index >= 0, touch);
  if (!view.is_seated) {
    const float end_y = parts.picture.y + parts.picture.height - frame.px(2.0F);
    draw_implant(frame, implant, parts.axis_x, end_y, px_per_mm);
  }
  slot_figures(frame, parts, figure(implant.diameter_mm, 1),
               "\xC3\x97 " + base::fixed(implant.length_mm, 0));
  slot_key(frame, slot, "0");
  if (touch.focused) {
    focus_ring(frame, slot, kRadiusSmall_px);
  }
  if (touch.pressed) {
    take(frame);
  }
  tooltip(frame, touch, name + ". " + about.description);
}

void implant_buttons(Frame& frame, Rect& rest) {
  const session::SessionView& view = *frame.model.view;
  Button off{std::string(tr(Str::kDriverOff)), "D"};
  off.enabled = view.implant.has_bitten;
  off.description = tr(Str::kDriverOffHelp);
  off.kind =
      view.hint == session::Hint::kReleaseImplant ? ButtonKind::kPrimary : ButtonKind::kNormal;
  if (bar_button(frame, rest, off)) {
    release(frame);
  }
  Button back{std::string(tr(Str::kBackOut)), "B"};
  back.is_switch = true;
  back.on = view.motor_rpm < 0.0;
  if (bar_button(frame, rest, back)) {
    back_out(frame);
  }
  Button limit{say(Str::kLimitTo, torque_ncm(other_limit_nmm(frame))), "L"};
  limit.id = "torque-limit";
  limit.description = tr(Str::kLimitHelp);
  if (bar_button(frame, rest, limit)) {
    change_limit(frame);
  }
}

void implant_keys(Frame& frame) {
  if (!wants_implant(frame)) {
    return;
  }
  if (key_hit(ImGuiKey_0)) {
    take(frame);
  }
  if (frame.model.view->implant.index < 0) {
    return;
  }
  if (key_hit(ImGuiKey_B)) {
    back_out(frame);
  }
  if (key_hit(ImGuiKey_D)) {
    release(frame);
  }
  if (key_hit(ImGuiKey_L)) {
    change_limit(frame);
  }
}

std::int32_t implant_speed_rpm(const Frame& frame) {
  const std::int32_t index = frame.model.view->implant.index;
  if (index < 0) {
    return 0;
  }
  const auto& implants = frame.model.setup->kit.implants;
  const specimen::ImplantThread thread =
      specimen::thread_of(implants[static_cast<std::size_t>(index)]);
  return static_cast<std::int32_t>(std::lround(thread.speed_rpm));
}

}  // namespace driftbench::ui
