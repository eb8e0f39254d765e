#include "ui/hole_chart.h"

#include "base/text.h"
#include "ui/marks.h"
#include "ui/strings.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <span>
#include <vector>

namespace driftbench::ui {

namespace {

struct Axes {
  Rect plot;
  double deepest_mm = 1.0;
  double low_mm = 0.0;
  double high_mm = 1.0;

  [[nodiscard]] ImVec2 at(double depth_mm, double diameter_mm) const {
    const double x = depth_mm / deepest_mm;
    const double y = (diameter_mm - low_mm) / (high_mm - low_mm);
    return {plot.x + plot.width * static_cast<float>(x),
            plot.y + plot.height * (1.0F - static_cast<float>(y))};
  }
};

Axes axes_of(const Rect& plot, std::span<const scoring::HoleSlice> slices, double last_drill_mm) {
  Axes axes{plot};
  axes.low_mm = last_drill_mm;
  axes.high_mm = last_drill_mm;
  for (const scoring::HoleSlice& slice : slices) {
    axes.deepest_mm = std::max(axes.deepest_mm, slice.depth_mm);
    axes.low_mm = std::min(axes.low_mm, slice.minor_mm);
    axes.high_mm = std::max(axes.high_mm, slice.major_mm);
  }
  axes.low_mm = std::max(0.0, std::floor(2.0 * (axes.low_mm - 0.2)) / 2.0);
  axes.high_mm = std::ceil(2.0 * (axes.high_mm + 0.2)) / 2.0;
  return axes;
}

void grid(const Frame& frame, const Axes& axes) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const Palette& c = frame.colors;
  const Face& face = frame.fonts.caption;
  double step = 0.5;
  while (step < axes.high_mm - axes.low_mm &&
         axes.at(0.0, 0.0).y - axes.at(0.0, step).y < face.size_px) {
    step *= 2.0;
  }
  for (double mm = axes.low_mm; mm <= axes.high_mm + 1e-6; mm += step) {
    const ImVec2 at = axes.at(0.0, mm);
    list->AddLine(at, {axes.plot.x + axes.plot.width, at.y}, color_of(c.line), frame.px(1.0F));
    const std::string label = figure(mm, 1);
    const ImVec2 size = text_size(face, label);
    draw_text(face, c.muted, {at.x - size.x - frame.px(6.0F), at.y - 0.5F * size.y}, label);
  }
  const float widest = text_size(face, say(Str::kMm, 0)).x + text_size(face, "00").x;
  int apart = 2;
  while (axes.at(apart, axes.low_mm).x - axes.plot.x < widest && apart < 100) {
    apart *= 2;
  }
  for (int mm = 0; mm <= static_cast<int>(axes.deepest_mm); mm += apart) {
    const ImVec2 at = axes.at(mm, axes.low_mm);
    list->AddLine(at, {at.x, at.y + frame.px(5.0F)}, color_of(c.muted), frame.px(1.0F));
    const std::string label = mm == 0 ? say(Str::kMm, 0) : std::to_string(mm);
    const ImVec2 size = text_size(face, label);
    draw_text(face, c.muted, {at.x - (mm == 0 ? 0.0F : 0.5F * size.x), at.y + frame.px(5.0F)},
              label);
  }
}

}  // namespace

void hole_chart_legend(Frame& frame, Rect row) {
  const auto entry = [&](Str name, auto draw) {
    const float sample = frame.px(26.0F);
    const float width = sample + text_size(frame.fonts.caption, tr(name)).x + frame.px(22.0F);
    const Rect slot = cut_left(row, width);
    const float y = slot.y + 0.5F * slot.height;
    draw(ImVec2{slot.x, y}, ImVec2{slot.x + frame.px(20.0F), y});
    text_middle(frame, {slot.x + sample, slot.y, slot.width - sample, slot.height}, caption(frame),
                tr(name));
  };
  ImDrawList* list = ImGui::GetWindowDrawList();
  entry(Str::kLegendLargest, [&](ImVec2 from, ImVec2 to) {
    list->AddLine(from, to, color_of(frame.colors.press), frame.px(3.0F));
  });
  entry(Str::kLegendSmallest, [&](ImVec2 from, ImVec2 to) {
    list->AddLine(from, to, color_of(frame.colors.side), frame.px(1.5F));
  });
  entry(Str::kLegendLastDrill,
        [&](ImVec2 from, ImVec2 to) { dashes(frame, from, to, frame.colors.text, 1.5F); });
}

void hole_chart(Frame& frame, const Rect& box, const scoring::HoleMeasures& hole,
                double last_drill_mm, double floor_mm) {
  Rect plot = box;
  cut_left(plot, frame.px(38.0F));
  plot.height = std::min(plot.height, frame.px(220.0F));
  cut_bottom(plot, frame.px(26.0F));
  cut_top(plot, frame.px(6.0F));
  cut_right(plot, frame.px(6.0F));
  ScreenItem about;
  about.role = Role::kImage;
  about.value = say(Str::kHoleChartValue, base::fixed(hole.hole_diameter_mm, 2),
                    base::fixed(hole.ovality_mm, 2));
  const Touch touch = item(frame, plot, tr(Str::kHoleChart), about);
  std::vector<scoring::HoleSlice> slices;
  std::copy_if(hole.slices.begin(), hole.slices.end(), std::back_inserter(slices),
               [floor_mm](const scoring::HoleSlice& slice) { return slice.depth_mm <= floor_mm; });
  const Axes axes = axes_of(plot, slices, last_drill_mm);
  grid(frame, axes);

  // Last drill: dashed. Largest diameter: solid; smallest: thin.
  dashes(frame, axes.at(0.0, last_drill_mm), axes.at(axes.deepest_mm, last_drill_mm),
         frame.colors.text, 1.5F);
  std::vector<ImVec2> major;
  std::vector<ImVec2> minor;
  for (const scoring::HoleSlice& slice : slices) {
    major.push_back(axes.at(slice.depth_mm, slice.major_mm));
    minor.push_back(axes.at(slice.depth_mm, slice.minor_mm));
  }
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddPolyline(major.data(), static_cast<int>(major.size()), color_of(frame.colors.press),
                    ImDrawFlags_None, frame.px(3.0F));
  list->AddPolyline(minor.data(), static_cast<int>(minor.size()), color_of(frame.colors.side),
                    ImDrawFlags_None, frame.px(1.5F));
  if (touch.focused) {
    focus_ring(frame, plot, kRadiusSmall_px);
  }
  tooltip(frame, touch, tr(Str::kHoleChartHelp));
}

}  // namespace driftbench::ui
