#include "ui/target_chart.h"

#include "base/text.h"
#include "ui/strings.h"

#include <cmath>

namespace driftbench::ui {

namespace {

constexpr float kMargin_px = 22.0F;  // room for edge words

}  // namespace

Rect target_plot(const Frame& frame, const Rect& box) {
  return centred_square(inset(box, frame.px(kMargin_px)));
}

ImVec2 on_target(const Rect& plot, double range_mm, double md_mm, double bl_mm) {
  const double half = 0.5 * static_cast<double>(plot.width);
  return {plot.x + static_cast<float>(half * (1.0 + md_mm / range_mm)),
          plot.y + static_cast<float>(half * (1.0 - bl_mm / range_mm))};
}

void target_ground(Frame& frame, const Rect& plot, const SiteWords& words, double range_mm,
                   double tolerance_mm) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const Palette& c = frame.colors;
  const ImVec2 centre = on_target(plot, range_mm, 0.0, 0.0);
  const float per_mm = 0.5F * plot.width / static_cast<float>(range_mm);
  fill(frame, plot, c.raised, kRadiusSmall_px);

  // Inside the lesson's tolerance, then a ring for every millimetre.
  if (tolerance_mm > 0.0) {
    const float radius = static_cast<float>(tolerance_mm) * per_mm;
    list->AddCircleFilled(centre, radius, color_of(c.good, 0.16F));
    list->AddCircle(centre, radius, color_of(c.good), 0, frame.px(2.0F));
  }
  for (int ring = 1; ring <= static_cast<int>(range_mm); ++ring) {
    list->AddCircle(centre, static_cast<float>(ring) * per_mm, color_of(c.outline, 0.55F), 0,
                    frame.px(1.0F));
    const bool is_last = ring == static_cast<int>(range_mm);
    if (is_last || per_mm > frame.px(24.0F)) {
      const std::string label = is_last ? say(Str::kMm, ring) : std::to_string(ring);
      draw_text(frame.fonts.caption, c.muted,
                {centre.x + frame.px(4.0F), centre.y + static_cast<float>(ring) * per_mm -
                                                frame.fonts.caption.size_px -
                                                frame.px(is_last ? 5.0F : 0.0F)},
                label);
    }
  }
  list->AddLine({plot.x, centre.y}, {plot.x + plot.width, centre.y}, color_of(c.outline, 0.55F));
  list->AddLine({centre.x, plot.y}, {centre.x, plot.y + plot.height}, color_of(c.outline, 0.55F));

  // Whole words at the edges.
  const Face& face = frame.fonts.caption_strong;
  const float away = 0.5F * frame.px(kMargin_px);
  const float middle_y = plot.y + 0.5F * plot.height;
  turned_text(face, c.text, {plot.x - away, middle_y}, words.md_minus, true);
  turned_text(face, c.text, {plot.x + plot.width + away, middle_y}, words.md_plus, false);
  const float top = text_size(face, words.bl_plus).x;
  const float bottom = text_size(face, words.bl_minus).x;
  draw_text(face, c.text, {centre.x - 0.5F * top, plot.y - away - 0.5F * face.size_px},
            words.bl_plus);
  draw_text(face, c.text,
            {centre.x - 0.5F * bottom, plot.y + plot.height + away - 0.5F * face.size_px},
            words.bl_minus);
}

namespace {

// A mark that lies outside the chart: at the edge, with an arrow head and its distance.
ImVec2 kept_inside(Frame& frame, const Rect& plot, const TargetSpec& spec, const TargetMark& mark) {
  const double distance = std::sqrt(mark.md_mm * mark.md_mm + mark.bl_mm * mark.bl_mm);
  const double largest = std::max(std::abs(mark.md_mm), std::abs(mark.bl_mm));
  const double limit = 0.92 * spec.range_mm;
  if (largest <= limit) {
    return on_target(plot, spec.range_mm, mark.md_mm, mark.bl_mm);
  }
  const double share = limit / largest;
  const ImVec2 at = on_target(plot, spec.range_mm, share * mark.md_mm, share * mark.bl_mm);
  const std::string label = say(Str::kBeyond, base::fixed(distance, 1));
  const bool right_half = mark.md_mm > 0.0;
  plate_text(frame, {at.x + (right_half ? -frame.px(14.0F) : frame.px(14.0F)), at.y}, label,
             right_half ? Align::kRight : Align::kLeft);
  return at;
}

}  // namespace

void target_chart(Frame& frame, const Rect& box, const SiteWords& words, const TargetSpec& spec) {
  const Rect plot = target_plot(frame, box);
  ScreenItem about;
  about.role = Role::kImage;
  about.value = spec.value;
  const Touch touch = item(frame, plot, spec.name, about);
  target_ground(frame, plot, words, spec.range_mm, spec.tolerance_mm);
  plan_mark(frame, on_target(plot, spec.range_mm, 0.0, 0.0), 7.0F);
  ImGui::GetWindowDrawList()->PushClipRect({plot.x, plot.y},
                                           {plot.x + plot.width, plot.y + plot.height}, true);
  for (const bool current : {false, true}) {
    for (const TargetMark& mark : spec.marks) {
      if (mark.is_current != current) {
        continue;
      }
      const ImVec2 at = kept_inside(frame, plot, spec, mark);
      if (mark.is_estimate) {
        estimate_mark(frame, at, 7.0F);
      } else {
        hole_mark(frame, at, mark.approach, 7.0F, mark.is_current);
      }
    }
  }
  ImGui::GetWindowDrawList()->PopClipRect();
  if (touch.focused) {
    focus_ring(frame, plot, kRadiusSmall_px);
  }
  if (!spec.value.empty()) {
    tooltip(frame, touch, spec.value);
  }
}

}  // namespace driftbench::ui
