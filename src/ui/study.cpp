// The study screen: three linked sections and a look at a piece of jaw, with its plan.
#include "specimen/tooth_number.h"
#include "ui/panels.h"
#include "ui/slice_view.h"
#include "ui/strings.h"
#include "ui/study_panel.h"
#include "ui/study_rows.h"
#include "ui/study_words.h"

#include <array>
#include <cmath>

namespace driftbench::ui {
namespace {

constexpr float kPanel_px = 372.0F;
constexpr int kMostZoom = 4;
constexpr double kZoomStep = 1.35;
constexpr int kLeastZoom = -1;         // the whole specimen
constexpr double kMargin_mm = 1.0;     // round the specimen in the whole view
constexpr float kBeside_px = 1000.0F;  // narrower, the panel lies below the pictures
constexpr float kLowBeside_px = 640.0F;
constexpr float kFour_px = 700.0F;  // narrower or lower than the next, one picture at a time
constexpr float kFourHigh_px = 600.0F;
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

/// Where the pictures and the panel lie; what has no width is not shown.
struct Places {
  std::array<Rect, kSliceCount> slices;
  Rect look;
  Rect panel;
};

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

// One millimetre is as long in all sections that are shown.
void set_scale(Frame& frame, const Places& places, const Extent& extent) {
  const StudyState& state = frame.state.study;
  double mm_per_px = 0.0;
  for (std::size_t i = 0; i < kSliceCount; ++i) {
    if (places.slices[i].width <= 0.0F) {
      continue;
    }
    const Rect p = slice_picture(frame, places.slices[i]);
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

void zoom_buttons(Frame& frame, Rows& rows, const Extent& extent) {
  StudyState& state = frame.state.study;
  Button out{"\u2212"};
  out.name = tr(Str::kZoomOut);
  out.enabled = state.zoom > kLeastZoom;
  Button in{"+"};
  in.name = tr(Str::kZoomIn);
  in.enabled = state.zoom < kMostZoom;
  const float gap = frame.px(6.0F);
  Rect strip = rows.next(button_width(frame, out) + gap + button_width(frame, in));
  int zoom = state.zoom;
  zoom -= button(frame, cut_left(strip, button_width(frame, out)), out) ? 1 : 0;
  cut_left(strip, gap);
  zoom += button(frame, strip, in) ? 1 : 0;
  if (zoom != state.zoom) {
    state.zoom = zoom;
    state.centre_mm = zoom < 0 ? extent.middle_mm : state.cross.point_mm;
  }
}

void tool_rows(Frame& frame, Rect& column, bool one_picture, const Extent& extent) {
  StudyState& state = frame.state.study;
  constexpr std::array<std::pair<StudyTool, Str>, 3> kTools{
      {{StudyTool::kLook, Str::kToolLook},
       {StudyTool::kDistance, Str::kToolDistance},
       {StudyTool::kAngle, Str::kToolAngle}}};
  constexpr std::array<std::pair<std::optional<SliceKind>, Str>, 4> kPictures{
      {{SliceKind::kBuccoLingual, Str::kPictureBl},
       {SliceKind::kMesioDistal, Str::kPictureMd},
       {SliceKind::kAxial, Str::kPictureAxial},
       {std::nullopt, Str::kPictureLook}}};
  Rows rows(column, frame.px(kButtonSmall_px), frame.px(14.0F), frame.px(6.0F));
  if (one_picture) {
    choices(frame, rows, kPictures, state.picture, "picture");
  }
  choices(frame, rows, kTools, state.tool, "tool");
  if (!one_picture) {
    window_choices(frame, rows);
  }
  zoom_buttons(frame, rows, extent);
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

void study_bar(Frame& frame, Rect& page) {
  const lesson::SpecimenCase& shown = *frame.model.study->specimen;
  const int fdi = shown.jaw.site_fdi;
  const std::string where =
      say(Str::kStudyPlace, in_language(shown.title), fdi, specimen::us_tooth_number(fdi));
  const std::array ways{Button{std::string(tr(Str::kToShelf))}};
  const PageBar bar = page_bar(frame, page, where, ways);
  if (bar.pressed == 0) {
    frame.emit(GoToShelf{});
  }
  text_middle(frame, bar.title, strong(frame), where);
}

/// Cuts the panel off `rest`, beside or below the pictures.
Rect cut_panel(Frame& frame, Rect& rest, bool is_beside) {
  const float gap = frame.px(10.0F);
  if (!is_beside) {
    const Rect panel = cut_bottom(rest, 0.36F * rest.height);
    cut_bottom(rest, gap);
    return panel;
  }
  const Rect panel =
      cut_right(rest, std::clamp(0.32F * rest.width, frame.px(320.0F), frame.px(kPanel_px)));
  cut_right(rest, gap);
  return panel;
}

void place_pictures(Frame& frame, Rect rest, bool one_picture, Places& places) {
  if (one_picture) {
    const std::optional<SliceKind> shown = frame.state.study.picture;
    (shown.has_value() ? places.slices[static_cast<std::size_t>(*shown)] : places.look) = rest;
    return;
  }
  const float gap = frame.px(10.0F);
  Rect lower = cut_bottom(rest, 0.40F * rest.height);
  cut_bottom(rest, gap);
  const float half = 0.5F * (rest.width - gap);
  places.slices[0] = cut_left(rest, half);
  cut_left(rest, gap);
  places.slices[1] = rest;
  places.look = cut_left(lower, half);
  cut_left(lower, gap);
  places.slices[2] = lower;
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
  study_bar(frame, rest);
  if (shown.volume == nullptr) {
    building(frame, rest, shown.built_share);
    return;
  }
  if (state.shown != shown.serial) {
    start_afresh(state, shown);
  }
  const Extent extent = extent_of(*shown.volume);
  keep_inside(state, extent);
  const bool is_low = page.height < frame.px(kFourHigh_px);
  const bool one_picture = is_low || page.width < frame.px(kFour_px);
  rest = inset(rest, frame.px(12.0F), frame.px(10.0F));
  Places places;
  const float beside_px = is_low ? kLowBeside_px : kBeside_px;
  places.panel = cut_panel(frame, rest, page.width >= frame.px(beside_px));
  tool_rows(frame, rest, one_picture, extent);
  cut_top(rest, frame.px(10.0F));
  TextStyle place = caption(frame);
  place.role = Role::kStatus;
  const std::string words = cross_words(shown, state);
  const Rect words_line = cut_bottom(
      rest, std::max(frame.px(24.0F), text_size(frame.fonts.caption, words, rest.width).y));
  cut_bottom(rest, frame.px(4.0F));
  place_pictures(frame, rest, one_picture, places);

  set_scale(frame, places, extent);
  StudyPictures& pictures = frame.rects.study;
  for (std::size_t i = 0; i < kSliceCount; ++i) {
    if (places.slices[i].width > 0.0F) {
      slice_view(frame, places.slices[i], static_cast<SliceKind>(i));
    }
  }
  if (places.look.width > 0.0F) {
    look(frame, places.look);
  }
  text(frame, words_line, place, words);
  if (study_panel(frame, places.panel, one_picture)) {
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
