#include "ui/logbook_charts.h"

#include "base/text.h"
#include "ui/marks.h"
#include "ui/strings.h"
#include "ui/widgets.h"

#include <algorithm>

namespace driftbench::ui {

namespace {

// A named chart: its title above, its plot below.
Rect chart_ground(Frame& frame, Rect box, Str title, const std::string& value, Str help) {
  const TextStyle name = strong(frame);
  const float height = text_size(name.face, tr(title), box.width).y;
  text(frame, cut_top(box, height), name, tr(title));
  cut_top(box, frame.px(6.0F));
  ScreenItem about;
  about.role = Role::kImage;
  about.value = value;
  about.description = tr(help);
  const Touch touch = item(frame, box, tr(title), about);
  fill(frame, box, frame.colors.raised, kRadiusSmall_px);
  if (touch.focused) {
    focus_ring(frame, box, kRadiusSmall_px);
  }
  tooltip(frame, touch, tr(help));
  return inset(box, frame.px(12.0F), frame.px(10.0F));
}

}  // namespace

void learning_curve(Frame& frame, const Rect& box, const std::vector<CurvePoint>& points,
                    const std::vector<double>& evidence) {
  constexpr double kTop = 2.5;  // tolerances; what lies above stands at the edge
  const double last = points.empty() ? 0.0 : points.back().share;
  Rect plot = chart_ground(
      frame, box, Str::kCurve,
      say(Str::kCurveValue, std::to_string(points.size()), base::fixed(last, 1)), Str::kCurveHelp);
  ImDrawList* list = ImGui::GetWindowDrawList();
  if (!evidence.empty()) {
    const float strip = frame.px(26.0F);
    Rect bars = cut_bottom(plot, strip);
    const Rect words = cut_top(bars, frame.px(18.0F));
    text(frame, words, caption(frame), tr(Str::kEvidence));
    const float width = bars.width / static_cast<float>(evidence.size());
    for (std::size_t i = 0; i < evidence.size(); ++i) {
      const float x = bars.x + static_cast<float>(i) * width;
      const float filled = bars.height * static_cast<float>(std::clamp(evidence[i], 0.0, 1.0));
      const Rgb color = evidence[i] >= 1.0 ? frame.colors.good : frame.colors.accent;
      list->AddRectFilled({x, bars.y + bars.height - filled},
                          {x + width - frame.px(2.0F), bars.y + bars.height}, color_of(color));
      list->AddLine({x, bars.y + bars.height}, {x + width - frame.px(2.0F), bars.y + bars.height},
                    color_of(frame.colors.outline));
    }
    cut_bottom(plot, frame.px(6.0F));
  }
  const auto height_of = [&](double share) {
    return plot.y + plot.height * (1.0F - static_cast<float>(std::min(share, kTop) / kTop));
  };
  const float limit = height_of(1.0);
  dashes(frame, {plot.x, limit}, {plot.x + plot.width, limit}, frame.colors.good, 1.6F);
  draw_text(frame.fonts.caption, frame.colors.text,
            {plot.x + frame.px(2.0F), limit - frame.px(20.0F)}, tr(Str::kCurveLimit));
  const float step = plot.width / static_cast<float>(std::max<std::size_t>(points.size(), 1));
  ImVec2 before{};
  for (std::size_t i = 0; i < points.size(); ++i) {
    const ImVec2 at{plot.x + (static_cast<float>(i) + 0.5F) * step, height_of(points[i].share)};
    if (i > 0) {
      list->AddLine(before, at, color_of(frame.colors.outline), frame.px(1.5F));
    }
    before = at;
  }
  for (std::size_t i = 0; i < points.size(); ++i) {
    hole_mark(frame, {plot.x + (static_cast<float>(i) + 0.5F) * step, height_of(points[i].share)},
              points[i].approach, 5.0F, true);
  }
}

void estimate_chart(Frame& frame, const Rect& box, const std::vector<EstimatePoint>& points) {
  constexpr double kLeast_mm = 2.0;
  double range_mm = kLeast_mm;
  double gap_mm = 0.0;
  for (const EstimatePoint& point : points) {
    range_mm = std::max({range_mm, point.measured_mm, point.estimated_mm});
    gap_mm += std::abs(point.estimated_mm - point.measured_mm);
  }
  const std::string value =
      points.empty()
          ? std::string(tr(Str::kEstimateNone))
          : say(Str::kEstimateGap, base::fixed(gap_mm / static_cast<double>(points.size()), 1));
  Rect room = box;
  const TextStyle words = caption(frame);
  text(frame, cut_bottom(room, text_size(words.face, value, room.width).y), words, value);
  cut_bottom(room, frame.px(4.0F));
  Rect plot = chart_ground(frame, room, Str::kEstimateChart, value, Str::kEstimateChartHelp);
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float line = frame.fonts.caption.size_px;
  const Rect under = cut_bottom(plot, line);
  const Rect beside = cut_left(plot, line);
  const float measured = text_size(frame.fonts.caption, tr(Str::kMeasuredAxis)).x;
  draw_text(frame.fonts.caption, frame.colors.text,
            {plot.x + 0.5F * (plot.width - measured), under.y}, tr(Str::kMeasuredAxis));
  turned_text(frame.fonts.caption, frame.colors.text,
              {beside.x + 0.3F * line, plot.y + 0.5F * plot.height}, tr(Str::kEstimatedAxis), true);
  const auto on_plot = [&](double x_mm, double y_mm) {
    return ImVec2{plot.x + plot.width * static_cast<float>(x_mm / range_mm),
                  plot.y + plot.height * (1.0F - static_cast<float>(y_mm / range_mm))};
  };
  list->AddLine({plot.x, plot.y}, {plot.x, plot.y + plot.height}, color_of(frame.colors.outline));
  list->AddLine({plot.x, plot.y + plot.height}, {plot.x + plot.width, plot.y + plot.height},
                color_of(frame.colors.outline));
  for (int mm = 1; mm < static_cast<int>(range_mm) + 1; ++mm) {
    const ImVec2 right = on_plot(mm, 0.0);
    const ImVec2 up = on_plot(0.0, mm);
    list->AddLine(right, {right.x, plot.y}, color_of(frame.colors.outline, 0.3F));
    list->AddLine(up, {plot.x + plot.width, up.y}, color_of(frame.colors.outline, 0.3F));
    const std::string label = std::to_string(mm);
    const ImVec2 size = text_size(frame.fonts.caption, label);
    draw_text(frame.fonts.caption, frame.colors.muted,
              {right.x - size.x - frame.px(4.0F), right.y - size.y}, label);
    draw_text(frame.fonts.caption, frame.colors.muted, {up.x + frame.px(4.0F), up.y}, label);
  }
  dashes(frame, on_plot(0.0, 0.0), on_plot(range_mm, range_mm), frame.colors.muted, 1.5F);
  for (const EstimatePoint& point : points) {
    hole_mark(frame, on_plot(point.measured_mm, point.estimated_mm), point.approach, 5.0F, true);
  }
}

}  // namespace driftbench::ui
