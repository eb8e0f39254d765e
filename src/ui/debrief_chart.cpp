#include "ui/debrief_chart.h"

#include "base/text.h"
#include "lesson/instruments.h"
#include "ui/hole_chart.h"
#include "ui/marks.h"
#include "ui/section_view.h"
#include "ui/stepper.h"
#include "ui/strings.h"
#include "ui/widgets.h"
#include "ui/words.h"

#include <algorithm>
#include <cmath>

namespace driftbench::ui {
namespace {

constexpr double kAcrossHalf_mm = 6.0;  // what the section shows to each side, at least
constexpr double kDepthStep_mm = 0.5;
constexpr double kFineStep_mm = 0.1;

/// The two ways of looking at the hole; gives the room below them.
void choices(Frame& frame, Rect& box, bool has_hole) {
  Rect row = cut_top(box, frame.px(30.0F));
  const auto option = [&](Str name, bool is_across) {
    const float width = text_size(frame.fonts.body, tr(name)).x + frame.px(24.0F);
    if (width > row.width) {
      cut_top(box, frame.px(6.0F));
      row = cut_top(box, frame.px(30.0F));
    }
    if (choice(frame, cut_left(row, width), tr(name), frame.state.debrief.across == is_across)) {
      frame.state.debrief.across = is_across;
    }
    cut_left(row, frame.px(6.0F));
  };
  if (has_hole) {
    option(Str::kHoleChart, false);
  }
  option(Str::kSectionAcross, true);
  cut_top(box, frame.px(6.0F));
}

void size_by_depth(Frame& frame, Rect box, const scoring::HoleMeasures& hole) {
  const lesson::AttemptSetup& setup = *frame.model.setup;
  const std::string size =
      say(Str::kHoleSize, base::fixed(hole.hole_diameter_mm, 2),
          base::fixed(last_drill_mm(setup), 1), base::fixed(hole.ovality_mm, 2));
  const TextStyle style = caption(frame);
  text(frame, cut_bottom(box, text_size(style.face, size, box.width).y), style, size);
  constexpr double kFloorMargin_mm = 0.3;  // the corner of the floor is rounded by the grid
  hole_chart_legend(frame, cut_top(box, frame.px(22.0F)));
  hole_chart(frame, box, hole, last_drill_mm(setup),
             setup.plan.depth_mm + hole.depth_error_mm - kFloorMargin_mm);
}

/// Where a place across the axis lies in the picture.
struct AcrossMap {
  Rect picture;
  double mm_per_px = 0.05;

  [[nodiscard]] ImVec2 at(double md_mm, double bl_mm) const {
    return {picture.x + 0.5F * picture.width + static_cast<float>(md_mm / mm_per_px),
            picture.y + 0.5F * picture.height - static_cast<float>(bl_mm / mm_per_px)};
  }

  [[nodiscard]] float px(double mm) const { return static_cast<float>(mm / mm_per_px); }
};

void edge_words(const Frame& frame, const Rect& p, const SiteWords& words) {
  const float pad = frame.px(10.0F);
  const float line = frame.fonts.caption.size_px;
  const float middle = p.y + 0.5F * (p.height - line);
  plate_text(frame, {p.x + pad, middle}, words.md_minus, Align::kLeft);
  plate_text(frame, {p.x + p.width - pad, middle}, words.md_plus, Align::kRight);
  plate_text(frame, {p.x + 0.5F * p.width, p.y + frame.px(6.0F)}, words.bl_plus, Align::kCentre);
  plate_text(frame, {p.x + 0.5F * p.width, p.y + p.height - line - frame.px(10.0F)}, words.bl_minus,
             Align::kCentre);
}

/// The slice of the measured hole nearest to a depth; null where there is none.
const scoring::HoleSlice* slice_at(const scoring::Results& results, double depth_mm) {
  if (!results.hole.has_value()) {
    return nullptr;
  }
  constexpr double kReach_mm = 0.3;
  const scoring::HoleSlice* nearest = nullptr;
  for (const scoring::HoleSlice& slice : results.hole->slices) {
    const double off = std::abs(slice.depth_mm - depth_mm);
    if (off < kReach_mm && (nearest == nullptr || off < std::abs(nearest->depth_mm - depth_mm))) {
      nearest = &slice;
    }
  }
  return nearest;
}

void across(Frame& frame, Rect box) {
  const lesson::AttemptSetup& setup = *frame.model.setup;
  const scoring::Results& results = *frame.model.results;
  double& depth_mm = frame.state.debrief.across_depth_mm;
  Stepper depth;
  depth.name = tr(Str::kAcrossDepth);
  depth.value = say(Str::kMmText, base::fixed(depth_mm, 1));
  depth.description = tr(Str::kAcrossDepthHelp);
  depth.step = kDepthStep_mm;
  depth.fine = kFineStep_mm;
  const double deepest_mm = specimen::reach_of(setup.specimen).depth_mm;
  depth_mm =
      std::clamp(depth_mm + stepper(frame, cut_top(box, frame.px(34.0F)), depth), 0.0, deepest_mm);
  const AcrossMap map{
      box,
      2.0 * kAcrossHalf_mm / static_cast<double>(std::max(1.0F, std::min(box.width, box.height)))};
  const scoring::HoleSlice* slice = slice_at(results, depth_mm);
  const SiteWords words = site_words(setup);
  frame.rects.section_across = box;
  frame.rects.across_mm_per_px = map.mm_per_px;
  frame.rects.across_depth_mm = depth_mm;
  const std::string found =
      slice != nullptr ? say(Str::kAcrossFound, off_centre(words, slice->md_mm, slice->bl_mm),
                             base::fixed(slice->diameter_mm, 2))
                       : std::string(tr(Str::kAcrossNone));
  picture(frame, box, frame.model.section_across, tr(Str::kSectionAcross), found);
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->PushClipRect({box.x, box.y}, {box.x + box.width, box.y + box.height}, true);
  if (depth_mm <= setup.plan.depth_mm) {
    const float radius = map.px(0.5 * last_drill_mm(setup));
    dashed_circle(frame, map.at(0.0, 0.0), radius, kBlack, frame.px(3.5F));
    dashed_circle(frame, map.at(0.0, 0.0), radius, kWhite, frame.px(1.5F));
  }
  plan_mark(frame, map.at(0.0, 0.0), 5.0F);
  if (slice != nullptr) {
    hole_mark(frame, map.at(slice->md_mm, slice->bl_mm), setup.approach, 5.5F, true);
  }
  edge_words(frame, box, words);
  list->PopClipRect();
}

}  // namespace

void debrief_chart(Frame& frame, Rect box) {
  const scoring::Results& results = *frame.model.results;
  const bool has_hole = results.hole.has_value();
  choices(frame, box, has_hole);
  if (has_hole && !frame.state.debrief.across) {
    size_by_depth(frame, box, *results.hole);
  } else {
    across(frame, box);
  }
}

}  // namespace driftbench::ui
