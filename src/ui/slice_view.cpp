#include "ui/slice_view.h"

#include "base/text.h"
#include "lesson/case_plan_review.h"
#include "specimen/tooth_number.h"
#include "ui/crown.h"
#include "ui/marks.h"
#include "ui/slice_grip.h"
#include "ui/strings.h"
#include "ui/study_words.h"
#include "ui/words.h"

#include <cmath>

namespace driftbench::ui {
namespace {

constexpr float kRuler_px = 28.0F;
constexpr double kNearPlane_mm = 2.0;  // what is farther from the plane is not drawn over it

void rulers(const Frame& frame, const SliceMap& map) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const Face& face = frame.fonts.caption;
  const Rect& p = map.picture;
  const ImU32 ink = color_of(frame.colors.muted);
  const double half_mm = 0.5 * static_cast<double>(p.width) * map.mm_per_px;
  const double half_up_mm = 0.5 * static_cast<double>(p.height) * map.mm_per_px;
  const auto tick = [&](int mm) { return frame.px(mm % 5 == 0 ? 8.0F : 4.0F); };
  // Counted from the cross-hair, so that the rulers measure from what is looked at.
  const math::Vec3 cross = map.plane.in_plane(frame.state.study.cross.point_mm);
  const int low = static_cast<int>(std::ceil(-half_up_mm - cross.y));
  for (int mm = low; mm + cross.y < half_up_mm; ++mm) {
    const float y = map.at(0.0, mm + cross.y).y;
    list->AddLine({p.x - tick(mm), y}, {p.x, y}, ink);
    if (mm % 10 == 0) {
      const std::string label = std::to_string(std::abs(mm));
      const ImVec2 size = text_size(face, label);
      draw_text(face, frame.colors.muted,
                {p.x - frame.px(9.0F) - size.x,
                 std::clamp(y - 0.5F * size.y, p.y, p.y + p.height - size.y)},
                label);
    }
  }
  const int left = static_cast<int>(std::ceil(-half_mm - cross.x));
  const float base = p.y + p.height;
  for (int mm = left; mm + cross.x < half_mm; ++mm) {
    const float x = map.at(mm + cross.x, 0.0).x;
    list->AddLine({x, base}, {x, base + tick(mm)}, ink);
    if (mm % 10 == 0) {
      const std::string label = mm == 0 ? say(Str::kMm, 0) : std::to_string(std::abs(mm));
      const ImVec2 size = text_size(face, label);
      draw_text(face, frame.colors.muted,
                {std::clamp(x - 0.5F * size.x, p.x, p.x + p.width - size.x), base + frame.px(7.0F)},
                label);
    }
  }
}

void scale_bar(const Frame& frame, const SliceMap& map) {
  constexpr double kBar_mm = 5.0;
  const Rect& p = map.picture;
  const float length = static_cast<float>(kBar_mm / map.mm_per_px);
  const ImVec2 to{p.x + p.width - frame.px(12.0F), p.y + p.height - frame.px(12.0F)};
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddLine({to.x - length - 1.0F, to.y}, {to.x + 1.0F, to.y}, color_of(kBlack),
                frame.px(6.0F));
  list->AddLine({to.x - length, to.y}, to, color_of(kWhite), frame.px(3.0F));
  plate_text(frame, {to.x - 0.5F * length, to.y - frame.px(26.0F)}, say(Str::kMm, 5),
             Align::kCentre);
}

void cross_hair(const Frame& frame, const SliceMap& map) {
  const Rect& p = map.picture;
  const ImVec2 at = map.of(frame.state.study.cross.point_mm);
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float gap = frame.px(9.0F);
  const auto line = [&](ImVec2 a, ImVec2 b) {
    list->AddLine(a, b, color_of(kBlack, 0.55F), frame.px(3.0F));
    list->AddLine(a, b, color_of(frame.colors.accent), frame.px(1.2F));
  };
  line({p.x, at.y}, {at.x - gap, at.y});
  line({at.x + gap, at.y}, {p.x + p.width, at.y});
  line({at.x, p.y}, {at.x, at.y - gap});
  line({at.x, at.y + gap}, {at.x, p.y + p.height});
}

// The implant's axis and its two handles, where they are near the plane.
void plan_handles(const Frame& frame, const SliceMap& map, SliceKind kind) {
  const StudyView& study = *frame.model.study;
  const lesson::CasePlan& plan = study.plan->now();
  const math::Vec3 platform = study.pose->to_core(plan.entry_mm);
  const math::Vec3 apex = study.pose->to_core(lesson::apex_of(plan));
  ImDrawList* list = ImGui::GetWindowDrawList();
  const auto handle = [&](const math::Vec3& p, bool is_round) {
    const ImVec2 at = map.of(p);
    const float r = frame.px(6.0F);
    if (is_round) {
      list->AddCircleFilled(at, r + frame.px(1.5F), color_of(kBlack));
      list->AddCircleFilled(at, r, color_of(kWhite));
    } else {
      list->AddRectFilled({at.x - r - 1.5F, at.y - r - 1.5F}, {at.x + r + 1.5F, at.y + r + 1.5F},
                          color_of(kBlack));
      list->AddRectFilled({at.x - r, at.y - r}, {at.x + r, at.y + r}, color_of(kWhite));
    }
  };
  if (kind == SliceKind::kAxial) {
    return;
  }
  const bool near_platform = std::abs(map.plane.in_plane(platform).z) < kNearPlane_mm;
  const bool near_apex = std::abs(map.plane.in_plane(apex).z) < kNearPlane_mm;
  if (near_platform && near_apex) {
    dashes(frame, map.of(platform), map.of(apex), kWhite, 1.0F);
  }
  if (near_platform) {
    handle(platform, false);
  }
  if (near_apex) {
    handle(apex, true);
  }
}

// The crown to come and the way of its screw, in the upright sections near the site.
void crown_to_come(const Frame& frame, const SliceMap& map, SliceKind kind) {
  if (kind == SliceKind::kAxial || !frame.state.study.show_crown) {
    return;
  }
  const StudyView& study = *frame.model.study;
  const GhostCrown crown = ghost_crown(*study.specimen);
  const bool along_arch = kind == SliceKind::kMesioDistal;
  const auto outline = crown.outline(along_arch);
  const auto place = [&](const std::array<double, 2>& corner) {
    const math::Vec3 jaw(along_arch ? corner[0] : 0.0, along_arch ? 0.0 : corner[0], corner[1]);
    return map.of(study.pose->to_core(jaw));
  };
  for (std::size_t i = 0; i < outline.size(); ++i) {
    dashes(frame, place(outline[i]), place(outline[(i + 1) % outline.size()]), kWhite, 1.2F);
  }
  const lesson::CasePlan& plan = study.plan->now();
  const math::Vec3 exit = screw_exit_mm(crown, plan);
  const math::Vec3 beyond = exit + 2.0 * lesson::axis_out_of(plan);
  dashes(frame, map.of(study.pose->to_core(plan.entry_mm)), map.of(study.pose->to_core(beyond)),
         frame.colors.accent, 1.6F);
}

// The least distances, where both ends lie near the plane.
void clearance_lines(const Frame& frame, const SliceMap& map) {
  const StudyView& study = *frame.model.study;
  std::vector<Rect> taken;
  for (const lesson::PlanClearance& row : study.review->clearances) {
    const math::Vec3 from = study.pose->to_core(row.worse.on_body_mm);
    const math::Vec3 to = study.pose->to_core(row.worse.on_structure_mm);
    if (std::abs(map.plane.in_plane(from).z) > kNearPlane_mm ||
        std::abs(map.plane.in_plane(to).z) > kNearPlane_mm) {
      continue;
    }
    const ImVec2 a = map.of(from);
    const ImVec2 b = map.of(to);
    cased_line(frame, a, b, row.is_kept() ? frame.colors.good : frame.colors.warn);
    const std::string label = clearance_amount(row.least_mm());
    const ImVec2 size = text_size(frame.fonts.caption, label);
    // Beyond the structure, seen from the implant; below labels that are there already.
    const float gap = frame.px(9.0F);
    Rect place{b.x - 0.5F * size.x, b.y + gap, size.x, size.y};
    if (std::abs(b.x - a.x) > std::abs(b.y - a.y)) {
      place.x = b.x > a.x ? b.x + gap : b.x - gap - size.x;
      place.y = b.y - 0.5F * size.y;
    }
    for (const Rect& other : taken) {
      if (place.x < other.x + other.width + gap && other.x < place.x + place.width + gap &&
          place.y < other.y + other.height && other.y < place.y + place.height) {
        place.y = other.y + other.height + 1.0F;
      }
    }
    place.y = std::min(place.y, map.picture.y + map.picture.height - 2.0F * size.y - gap);
    taken.push_back(place);
    plate_text(frame, {place.x, place.y}, label, Align::kLeft);
  }
}

void measurements(Frame& frame, const SliceMap& map, SliceKind kind) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  for (const Measurement& measured : frame.state.study.measurements) {
    if (measured.slice != kind) {
      continue;
    }
    for (std::size_t i = 0; i < measured.points_mm.size(); ++i) {
      const ImVec2 at = map.of(measured.points_mm[i]);
      if (i > 0) {
        cased_line(frame, map.of(measured.points_mm[i - 1]), at, frame.colors.press);
      }
    }
    for (const math::Vec3& point : measured.points_mm) {
      const ImVec2 at = map.of(point);
      list->AddCircleFilled(at, frame.px(5.5F), color_of(kBlack));
      list->AddCircleFilled(at, frame.px(4.0F), color_of(frame.colors.press));
    }
    if (measured.is_complete()) {
      const std::string words = measured_words(measured);
      const ImVec2 last = map.of(measured.points_mm[measured.wanted() / 2]);
      plate_text(frame, {last.x + frame.px(10.0F), last.y + frame.px(6.0F)}, words, Align::kLeft);
      frame.items.add_text(Role::kText, words, {last.x, last.y, frame.px(60.0F), frame.px(20.0F)});
    }
  }
}

void edge_words(const Frame& frame, const Rect& p, const SliceWords& words) {
  const float pad = frame.px(12.0F);
  const float middle = p.y + 0.5F * p.height - frame.px(34.0F);
  const float line = frame.px(kCaption_px);
  plate_text(frame, {p.x + pad, middle}, words.left, Align::kLeft);
  plate_text(frame, {p.x + p.width - pad, middle}, words.right, Align::kRight);
  plate_text(frame, {p.x + 0.5F * p.width, p.y + p.height - line - frame.px(6.0F)}, words.bottom,
             Align::kCentre);
  // The section's name stands at the top left; in a narrow picture the word goes below it.
  const bool is_narrow = p.width < frame.px(440.0F);
  plate_text(
      frame,
      {p.x + 0.5F * p.width, p.y + frame.px(6.0F) + (is_narrow ? line + frame.px(6.0F) : 0.0F)},
      words.top, Align::kCentre);
}

}  // namespace

SliceWords slice_words(SliceKind kind, int site_fdi, bool x_is_mesial) {
  const bool is_front = specimen::position_of(site_fdi) <= 3;
  const std::string facial(tr(is_front ? Str::kFacial : Str::kBuccal));
  const std::string lingual(tr(specimen::is_upper(site_fdi) ? Str::kPalatal : Str::kLingual));
  const std::string mesial(tr(Str::kMesial));
  const std::string distal(tr(Str::kDistal));
  const std::string crestal(tr(Str::kCrestal));
  const std::string apical(tr(Str::kApical));
  const std::string& left = x_is_mesial ? distal : mesial;
  const std::string& right = x_is_mesial ? mesial : distal;
  switch (kind) {
    case SliceKind::kBuccoLingual:
      return {std::string(tr(Str::kSliceBl)), facial, lingual, crestal, apical};
    case SliceKind::kMesioDistal:
      return {std::string(tr(Str::kSliceMd)), left, right, crestal, apical};
    case SliceKind::kAxial:
      break;
  }
  return {std::string(tr(Str::kSliceAxial)), left, right, lingual, facial};
}

Rect slice_picture(const Frame& frame, const Rect& box) {
  Rect picture = box;
  cut_left(picture, frame.px(kRuler_px));
  cut_bottom(picture, frame.px(kRuler_px));
  return picture;
}

void slice_view(Frame& frame, const Rect& box, SliceKind kind) {
  const StudyView& study = *frame.model.study;
  const auto index = static_cast<std::size_t>(kind);
  const SlicePicture& shown = frame.rects.study.slices[index];
  const Rect p = slice_picture(frame, box);
  const SliceMap map{p, shown.plane, shown.mm_per_px};
  const SliceWords words = slice_words(kind, study.specimen->jaw.site_fdi, study.pose->is_mirrored);
  frame.rects.slices[index] = p;
  const Touch touch = picture(frame, p, frame.model.slices[index], words.name, tr(Str::kSliceHelp));
  slice_grip(frame, map, kind, touch);

  ImDrawList* list = ImGui::GetWindowDrawList();
  list->PushClipRect({p.x, p.y}, {p.x + p.width, p.y + p.height}, true);
  cross_hair(frame, map);
  crown_to_come(frame, map, kind);
  clearance_lines(frame, map);
  plan_handles(frame, map, kind);
  measurements(frame, map, kind);
  edge_words(frame, p, words);
  plate_text(frame, {p.x + frame.px(12.0F), p.y + frame.px(6.0F)}, words.name, Align::kLeft);
  scale_bar(frame, map);
  list->PopClipRect();
  rulers(frame, map);
}

}  // namespace driftbench::ui
