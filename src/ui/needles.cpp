#include "ui/needles.h"

#include "base/text.h"
#include "math/angle.h"
#include "ui/strings.h"

#include <cmath>
#include <numbers>

namespace driftbench::ui {

namespace {

constexpr double kRange_mm = 3.0;
constexpr double kMostLean_deg = 15.0;
constexpr double kLeanSwing = 4.0;  // degrees on the dial for one degree of lean

int outside_steps(Frame& frame, std::uint32_t id) {
  if (!frame.state.adjust.has_value() || frame.state.adjust->id != id) {
    return 0;
  }
  const int steps = frame.state.adjust->steps;
  frame.state.adjust.reset();
  return steps;
}

double rounded(double value, double step) {
  return std::round(value / step) * step;
}

bool dragged(const Touch& touch) {
  return touch.held && ImGui::IsMouseDown(ImGuiMouseButton_Left);
}

}  // namespace

void target_input(Frame& frame, const Rect& box, const SiteWords& words, double& md_mm,
                  double& bl_mm) {
  const Rect plot = target_plot(frame, box);
  ScreenItem about;
  about.role = Role::kSlider;
  about.value = off_centre(words, md_mm, bl_mm);
  about.description = tr(Str::kEntryTargetHelp);
  const Touch touch = item(frame, plot, tr(Str::kYourEntry), about);
  if (dragged(touch)) {
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const double half = 0.5 * static_cast<double>(plot.width);
    const double u = (static_cast<double>(mouse.x - plot.x) / half - 1.0) * kRange_mm;
    const double v = (1.0 - static_cast<double>(mouse.y - plot.y) / half) * kRange_mm;
    md_mm = rounded(std::clamp(u, -kRange_mm, kRange_mm), 0.05);
    bl_mm = rounded(std::clamp(v, -kRange_mm, kRange_mm), 0.05);
  }
  const ArrowKeys keys = arrow_keys(touch);
  const double step = keys.fine ? 0.02 : 0.1;
  md_mm = std::clamp(md_mm + step * (keys.right + outside_steps(frame, touch.id)), -kRange_mm,
                     kRange_mm);
  bl_mm = std::clamp(bl_mm + step * keys.up, -kRange_mm, kRange_mm);

  target_ground(frame, plot, words, kRange_mm, 0.0);
  plan_mark(frame, on_target(plot, kRange_mm, 0.0, 0.0), 7.0F);
  estimate_mark(frame, on_target(plot, kRange_mm, md_mm, bl_mm), touch.held ? 12.0F : 10.0F);
  if (touch.focused) {
    focus_ring(frame, plot, kRadiusSmall_px);
  }
}

void depth_slider(Frame& frame, const Rect& box, double& depth_error_mm) {
  const Palette& c = frame.colors;
  ImDrawList* list = ImGui::GetWindowDrawList();
  Rect area = box;
  const Rect top = cut_top(area, frame.px(26.0F));
  const Rect bottom = cut_bottom(area, frame.px(26.0F));
  TextStyle style{frame.fonts.caption_strong, c.text, Align::kCentre};
  text(frame, top, style, tr(Str::kTooShallowEdge));
  text_middle(frame, bottom, style, tr(Str::kTooDeepEdge));

  ScreenItem about;
  about.role = Role::kSlider;
  about.value = depth_words(depth_error_mm);
  about.description = tr(Str::kDepthSliderHelp);
  const Rect track = inset(area, 0.5F * (area.width - frame.px(64.0F)), frame.px(6.0F));
  const Touch touch = item(frame, track, tr(Str::kYourDepth), about);
  if (dragged(touch)) {
    const double share = static_cast<double>((ImGui::GetIO().MousePos.y - track.y) / track.height);
    depth_error_mm =
        rounded(std::clamp((2.0 * share - 1.0) * kRange_mm, -kRange_mm, kRange_mm), 0.1);
  }
  const ArrowKeys keys = arrow_keys(touch);
  const int steps = keys.right - keys.up + outside_steps(frame, touch.id);
  depth_error_mm =
      std::clamp(depth_error_mm + steps * (keys.fine ? 0.05 : 0.1), -kRange_mm, kRange_mm);

  const float x = track.x + 0.5F * track.width;
  const auto y_of = [&track](double mm) {
    return track.y + track.height * static_cast<float>(0.5 * (1.0 + mm / kRange_mm));
  };
  list->AddRectFilled({x - frame.px(5.0F), track.y}, {x + frame.px(5.0F), track.y + track.height},
                      color_of(c.raised), frame.px(5.0F));
  list->AddRect({x - frame.px(5.0F), track.y}, {x + frame.px(5.0F), track.y + track.height},
                color_of(c.outline), frame.px(5.0F));
  for (int mm = -3; mm <= 3; ++mm) {
    const float reach = frame.px(mm == 0 ? 18.0F : 10.0F);
    list->AddLine({x + frame.px(7.0F), y_of(mm)}, {x + frame.px(7.0F) + reach, y_of(mm)},
                  color_of(mm == 0 ? c.text : c.muted), frame.px(mm == 0 ? 2.0F : 1.0F));
    const bool is_end = std::abs(mm) == 3;
    const std::string label = is_end ? say(Str::kMm, 3) : std::to_string(std::abs(mm));
    const ImVec2 size = text_size(frame.fonts.caption, label);
    draw_text(frame.fonts.caption, c.muted,
              {x - frame.px(24.0F) - size.x, y_of(mm) - 0.5F * size.y}, label);
  }
  const float y = y_of(depth_error_mm);
  const float half = frame.px(9.0F);
  list->AddRectFilled({x - 1.9F * half, y - half}, {x + 1.9F * half, y + half}, color_of(c.accent),
                      frame.px(4.0F));
  list->AddLine({x - half, y}, {x + half, y}, color_of(c.on_accent), frame.px(2.0F));
  if (touch.focused) {
    focus_ring(frame, track, kRadiusSmall_px);
  }
}

void lean_needle(Frame& frame, const Rect& box, const NeedleSpec& spec, double& tilt_deg) {
  const Palette& c = frame.colors;
  ImDrawList* list = ImGui::GetWindowDrawList();
  Rect area = box;
  const Rect words = cut_bottom(area, frame.px(22.0F));
  ScreenItem about;
  about.role = Role::kSlider;
  about.value = spec.value;
  about.description = tr(Str::kNeedleHelp);
  const Touch touch = item(frame, area, spec.name, about);

  // The pivot is the entry; the needle's end is the apex below it.
  const ImVec2 pivot{area.x + 0.5F * area.width, area.y + frame.px(10.0F)};
  const float reach = std::min(area.height - frame.px(30.0F), 0.46F * area.width);
  if (dragged(touch)) {
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const double dx = static_cast<double>(mouse.x - pivot.x);
    const double dy = static_cast<double>(mouse.y - pivot.y);
    if (dy > 4.0) {
      const double swing = math::to_degrees(math::Radians(std::atan2(dx, dy))).value;
      tilt_deg = rounded(std::clamp(swing / kLeanSwing, -kMostLean_deg, kMostLean_deg), 0.5);
    }
  }
  const ArrowKeys keys = arrow_keys(touch);
  const int steps = keys.right + keys.up + outside_steps(frame, touch.id);
  tilt_deg = std::clamp(tilt_deg + steps * (keys.fine ? 0.1 : 0.5), -kMostLean_deg, kMostLean_deg);

  const auto end_of = [&](double deg, float length) {
    const double swing = math::Radians(math::Degrees(kLeanSwing * deg)).value;
    return ImVec2{pivot.x + length * static_cast<float>(std::sin(swing)),
                  pivot.y + length * static_cast<float>(std::cos(swing))};
  };
  constexpr float kDown = 0.5F * std::numbers::pi_v<float>;
  const float most =
      static_cast<float>(math::Radians(math::Degrees(kLeanSwing * kMostLean_deg)).value);
  list->PathArcTo(pivot, reach, kDown - most, kDown + most, 40);
  list->PathStroke(color_of(c.outline), ImDrawFlags_None, frame.px(1.5F));
  for (int deg = -15; deg <= 15; deg += 5) {
    list->AddLine(end_of(deg, reach), end_of(deg, reach - frame.px(deg == 0 ? 14.0F : 8.0F)),
                  color_of(deg == 0 ? c.text : c.muted), frame.px(deg == 0 ? 2.0F : 1.0F));
    const std::string label = say(Str::kDegrees, std::abs(deg));
    const ImVec2 size = text_size(frame.fonts.caption, label);
    const ImVec2 at = end_of(deg, reach + frame.px(13.0F));
    draw_text(frame.fonts.caption, c.muted, {at.x - 0.5F * size.x, at.y - 0.5F * size.y}, label);
  }
  dashes(frame, pivot, end_of(0.0, reach), c.muted, 1.5F);
  list->AddLine(pivot, end_of(tilt_deg, reach), color_of(c.accent), frame.px(4.0F));
  list->AddCircleFilled(end_of(tilt_deg, reach), frame.px(9.0F), color_of(c.page));
  list->AddCircleFilled(end_of(tilt_deg, reach), frame.px(7.5F), color_of(c.accent));
  list->AddCircleFilled(pivot, frame.px(5.0F), color_of(c.text));

  TextStyle left{frame.fonts.caption_strong, c.text, Align::kLeft};
  text_middle(frame, words, left, spec.minus);
  TextStyle right = left;
  right.align = Align::kRight;
  text_middle(frame, words, right, spec.plus);
  if (touch.focused) {
    focus_ring(frame, area, kRadiusSmall_px);
  }
}

}  // namespace driftbench::ui
