// The study screen: three linked sections and a look at a piece of jaw, with its plan.
#include "specimen/tooth_number.h"
#include "ui/panels.h"
#include "ui/slice_view.h"
#include "ui/strings.h"
#include "ui/study_panel.h"
#include "ui/study_words.h"

#include <array>
#include <cmath>

namespace driftbench::ui {
namespace {

constexpr float kPanel_px = 372.0F;
constexpr int kMostZoom = 4;
constexpr double kZoomStep = 1.35;
constexpr int kLeastZoom = -1;      // the whole specimen
constexpr double kMargin_mm = 1.0;  // round the specimen in the whole view
// Round the site in the usual view, across the arch, along it and up.
const math::Vec3 kSite_mm{30.0, 22.0, 34.0};

struct Extent {
  math::Vec3 middle_mm;
  math::Vec3 size_mm;
};

Extent extent_of(const volume::Volume& volume) {
  const volume::Grid& grid = volume.grid;
  return {grid.middle_mm(),
          grid.spacing_mm * math::Vec3(grid.nx, grid.ny, grid.nz) + 2.0 * kMargin_mm};
}

/// The views look along the planned implant, through its middle.
void look_along_plan(StudyState& state, const StudyView& study) {
  const lesson::CasePlan& plan = study.plan->now();
  const math::Vec3 axis = lesson::axis_out_of(plan);
  state.cross.axis_out_unit = study.pose->direction_to_core(axis);
  state.cross.point_mm = study.pose->to_core(plan.entry_mm - 0.5 * plan.length_mm * axis);
  state.cross.turn_deg = 0.0;
}

void keep_inside(StudyState& state, const Extent& extent) {
  for (int i = 0; i < 3; ++i) {
    const double half = 0.5 * extent.size_mm[i] - kMargin_mm;
    state.cross.point_mm[i] =
        std::clamp(state.cross.point_mm[i], extent.middle_mm[i] - half, extent.middle_mm[i] + half);
  }
}

void start_afresh(StudyState& state, const StudyView& study) {
  const bool tissue_colours = state.tissue_colours;
  state = StudyState{};
  state.tissue_colours = tissue_colours;
  state.shown = study.serial;
  look_along_plan(state, study);
  state.centre_mm = state.cross.point_mm;
}

// One millimetre is as long in all three sections.
void set_scale(Frame& frame, const std::array<Rect, kSliceCount>& boxes, const Extent& extent) {
  const StudyState& state = frame.state.study;
  double mm_per_px = 0.0;
  for (std::size_t i = 0; i < kSliceCount; ++i) {
    const Rect p = slice_picture(frame, boxes[i]);
    const auto kind = static_cast<SliceKind>(i);
    math::Vec3 size = extent.size_mm;
    if (state.zoom >= 0) {
      size = {std::min(size.x, kSite_mm.x), std::min(size.y, kSite_mm.y),
              std::min(size.z, kSite_mm.z)};
    }
    const double across = kind == SliceKind::kBuccoLingual ? size.y : size.x;
    const double up = kind == SliceKind::kAxial ? size.y : size.z;
    mm_per_px = std::max(
        {mm_per_px, across / static_cast<double>(p.width), up / static_cast<double>(p.height)});
  }
  mm_per_px /= std::pow(kZoomStep, std::max(state.zoom, 0));
  for (std::size_t i = 0; i < kSliceCount; ++i) {
    frame.rects.study.slices[i] = {
        slice_plane(state.cross, static_cast<SliceKind>(i), state.centre_mm), mm_per_px};
  }
}

bool small_button(Frame& frame, Rect& strip, const Button& spec) {
  const Rect slot = cut_left(strip, button_width(frame, spec));
  cut_left(strip, frame.px(6.0F));
  return button(frame, slot, spec);
}

template <class T, std::size_t N>
void choices(Frame& frame, Rect& strip, const std::array<std::pair<T, Str>, N>& all, T& value,
             std::string_view id) {
  for (const auto& [one, words] : all) {
    const float width = text_size(frame.fonts.strong, tr(words)).x + frame.px(22.0F);
    if (choice(frame, cut_left(strip, width), tr(words), value == one, id)) {
      value = one;
    }
    cut_left(strip, frame.px(4.0F));
  }
  cut_left(strip, frame.px(14.0F));
}

void tool_strip(Frame& frame, Rect strip, const Extent& extent) {
  StudyState& state = frame.state.study;
  constexpr std::array<std::pair<StudyTool, Str>, 3> kTools{
      {{StudyTool::kLook, Str::kToolLook},
       {StudyTool::kDistance, Str::kToolDistance},
       {StudyTool::kAngle, Str::kToolAngle}}};
  constexpr std::array<std::pair<DensityWindow, Str>, 3> kWindows{
      {{DensityWindow::kBone, Str::kWindowBone},
       {DensityWindow::kSoftTissue, Str::kWindowSoft},
       {DensityWindow::kWholeRange, Str::kWindowWhole}}};
  choices(frame, strip, kTools, state.tool, "tool");
  choices(frame, strip, kWindows, state.window, "window");
  Button out{"\u2212"};
  out.name = tr(Str::kZoomOut);
  out.enabled = state.zoom > kLeastZoom;
  Button in{"+"};
  in.name = tr(Str::kZoomIn);
  in.enabled = state.zoom < kMostZoom;
  int zoom = state.zoom;
  zoom -= small_button(frame, strip, out) ? 1 : 0;
  zoom += small_button(frame, strip, in) ? 1 : 0;
  if (zoom != state.zoom) {
    state.zoom = zoom;
    state.centre_mm = zoom < 0 ? extent.middle_mm : state.cross.point_mm;
  }
}

void look(Frame& frame, const Rect& box) {
  StudyState& state = frame.state.study;
  frame.rects.front = box;
  const Touch touch =
      picture(frame, box, frame.model.front, tr(Str::kStudyLook), tr(Str::kStudyLookHelp));
  if (touch.held && ImGui::IsMouseDown(ImGuiMouseButton_Left)) {
    const ImVec2 by = ImGui::GetIO().MouseDelta;
    state.heading_deg -= 0.5 * static_cast<double>(by.x);
    state.elevation_deg += 0.5 * static_cast<double>(by.y);
  }
  const ArrowKeys keys = arrow_keys(touch);
  const double step = keys.fine ? 2.0 : 10.0;
  state.heading_deg += step * keys.right;
  state.elevation_deg = std::clamp(state.elevation_deg + step * keys.up, -30.0, 85.0);
}

void building(Frame& frame, const Rect& rest, double share) {
  const Rect box = centred_column(rest, frame.px(420.0F));
  Rect line{box.x, rest.y + 0.45F * rest.height, box.width, frame.px(28.0F)};
  TextStyle style = strong(frame);
  style.align = Align::kCentre;
  style.role = Role::kStatus;
  text_middle(frame, line, style, tr(Str::kBuildingJaw));
  const Rect bar{line.x, line.y + frame.px(40.0F), line.width, frame.px(10.0F)};
  fill(frame, bar, frame.colors.raised, 5.0F);
  fill(frame, {bar.x, bar.y, bar.width * static_cast<float>(share), bar.height},
       frame.colors.accent, 5.0F);
}

void study_bar(Frame& frame, const Rect& bar) {
  Rect rest = top_bar(frame, bar);
  Button to_shelf{std::string(tr(Str::kToShelf))};
  if (bar_button(frame, rest, to_shelf)) {
    frame.emit(GoToShelf{});
  }
  theme_switch(frame, rest);
  const lesson::SpecimenCase& shown = *frame.model.study->specimen;
  const int fdi = shown.jaw.site_fdi;
  text_middle(frame, rest, strong(frame),
              say(Str::kStudyPlace, in_language(shown.title), fdi, specimen::us_tooth_number(fdi)));
}

}  // namespace

void study(Frame& frame, const Rect& page) {
  if (!frame.model.study.has_value()) {
    nothing_to_show(frame, page);
    return;
  }
  const StudyView& shown = *frame.model.study;
  StudyState& state = frame.state.study;
  Rect rest = page;
  study_bar(frame, cut_top(rest, frame.px(kTopBar_px)));
  if (shown.volume == nullptr) {
    building(frame, rest, shown.built_share);
    return;
  }
  if (state.shown != shown.serial) {
    start_afresh(state, shown);
  }
  const Extent extent = extent_of(*shown.volume);
  keep_inside(state, extent);
  const float gap = frame.px(10.0F);
  rest = inset(rest, frame.px(12.0F), gap);
  const Rect panel = cut_right(
      rest, std::max(frame.px(320.0F), std::min(frame.px(kPanel_px), 0.32F * page.width)));
  cut_right(rest, gap);
  tool_strip(frame, cut_top(rest, frame.px(kButtonSmall_px)), extent);
  cut_top(rest, gap);
  const Rect words_line = cut_bottom(rest, frame.px(24.0F));
  cut_bottom(rest, frame.px(4.0F));

  Rect lower = cut_bottom(rest, 0.40F * rest.height);
  cut_bottom(rest, gap);
  const float half = 0.5F * (rest.width - gap);
  std::array<Rect, kSliceCount> boxes;
  boxes[0] = cut_left(rest, half);
  cut_left(rest, gap);
  boxes[1] = rest;
  const Rect look_box = cut_left(lower, half);
  cut_left(lower, gap);
  boxes[2] = lower;

  set_scale(frame, boxes, extent);
  StudyPictures& pictures = frame.rects.study;
  slice_view(frame, boxes[0], SliceKind::kBuccoLingual);
  slice_view(frame, boxes[1], SliceKind::kMesioDistal);
  slice_view(frame, boxes[2], SliceKind::kAxial);
  look(frame, look_box);
  TextStyle place = caption(frame);
  place.role = Role::kStatus;
  text_middle(frame, words_line, place, cross_words(shown, state));
  if (study_panel(frame, panel)) {
    look_along_plan(state, shown);
  }
  pictures.levels = levels_of(state.window);
  pictures.tissue_colours = state.tissue_colours;
  pictures.single_voxels = state.single_voxels;
  pictures.show_gum = state.show_gum;
  pictures.cut = state.cut;
  pictures.clear = state.clear ? 0.8 : 0.0;
  pictures.look_at_mm = extent.middle_mm;
  pictures.cut_at_mm = state.cross.point_mm;
  pictures.heading_deg = state.heading_deg;
  pictures.elevation_deg = state.elevation_deg;
}

}  // namespace driftbench::ui
