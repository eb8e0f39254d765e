#include "ui/section_view.h"

#include "base/text.h"
#include "lesson/instruments.h"
#include "ui/strings.h"

#include <cmath>

namespace driftbench::ui {

namespace {

constexpr float kRuler_px = 30.0F;
constexpr double kAbove_mm = 3.0;  // shown above the platform
constexpr double kBelow_mm = 5.0;  // and below the planned apex

struct Mapping {
  Rect picture;
  SectionFrame scale;

  [[nodiscard]] ImVec2 at(double u_mm, double v_mm) const {
    const double x = static_cast<double>(picture.x) + 0.5 * static_cast<double>(picture.width) +
                     (u_mm - scale.centre_u_mm) / scale.mm_per_px;
    const double y = static_cast<double>(picture.y) + 0.5 * static_cast<double>(picture.height) -
                     (v_mm - scale.centre_v_mm) / scale.mm_per_px;
    return {static_cast<float>(x), static_cast<float>(y)};
  }

  [[nodiscard]] double left_mm() const {
    return scale.centre_u_mm - 0.5 * static_cast<double>(picture.width) * scale.mm_per_px;
  }

  [[nodiscard]] double bottom_mm() const {
    return scale.centre_v_mm - 0.5 * static_cast<double>(picture.height) * scale.mm_per_px;
  }
};

// Depth below the platform on the left edge, distance from the axis on the lower edge.
void rulers(const Frame& frame, const Mapping& map) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const Palette& c = frame.colors;
  const Face& face = frame.fonts.caption;
  const Rect& p = map.picture;
  const auto tick_length = [&](int mm) { return frame.px(mm % 5 == 0 ? 9.0F : 4.0F); };

  const double top_mm = map.bottom_mm() + static_cast<double>(p.height) * map.scale.mm_per_px;
  for (int mm = static_cast<int>(std::ceil(map.bottom_mm())); mm <= static_cast<int>(top_mm);
       ++mm) {
    const float y = map.at(0.0, mm).y;
    list->AddLine({p.x - tick_length(mm), y}, {p.x, y}, color_of(c.muted), frame.px(1.0F));
    if (mm % 5 == 0) {
      const std::string label = std::to_string(std::abs(mm));
      const ImVec2 size = text_size(face, label);
      const float text_y = std::clamp(y - 0.5F * size.y, p.y, p.y + p.height - size.y);
      draw_text(face, c.muted, {p.x - frame.px(11.0F) - size.x, text_y}, label);
    }
  }
  const double right_mm = map.left_mm() + static_cast<double>(p.width) * map.scale.mm_per_px;
  const float base = p.y + p.height;
  for (int mm = static_cast<int>(std::ceil(map.left_mm())); mm <= static_cast<int>(right_mm);
       ++mm) {
    const float x = map.at(mm, 0.0).x;
    list->AddLine({x, base}, {x, base + tick_length(mm)}, color_of(c.muted), frame.px(1.0F));
    if (mm % 5 == 0) {
      const std::string label = mm == 0 ? say(Str::kMm, 0) : std::to_string(std::abs(mm));
      const ImVec2 size = text_size(face, label);
      const float text_x = std::clamp(x - 0.5F * size.x, p.x, p.x + p.width - size.x);
      draw_text(face, c.muted, {text_x, base + frame.px(9.0F)}, label);
    }
  }
}

void planned_hole(const Frame& frame, const Mapping& map, const lesson::AttemptSetup& setup) {
  const double depth = setup.plan.depth_mm;
  const double half = 0.5 * last_drill_mm(setup);
  cased_dashes(frame, map.at(0.0, 2.0), map.at(0.0, -depth - 1.5), 8.0F);
  if (half > 0.0) {
    cased_dashes(frame, map.at(-half, 0.0), map.at(-half, -depth), 5.0F);
    cased_dashes(frame, map.at(half, 0.0), map.at(half, -depth), 5.0F);
    cased_dashes(frame, map.at(-half, -depth), map.at(half, -depth), 5.0F);
  }
}

void measured_axis(const Frame& frame, const Mapping& map, const lesson::AttemptSetup& setup,
                   const scoring::HoleMeasures& hole, bool is_md) {
  const scoring::Deviation& d = hole.deviation;
  const ImVec2 entry = map.at(is_md ? d.entry_md_mm : d.entry_bl_mm, 0.0);
  const ImVec2 apex =
      map.at(is_md ? d.apex_md_mm : d.apex_bl_mm, -setup.plan.depth_mm - hole.depth_error_mm);
  cased_line(frame, entry, apex, mark_color(setup.approach));
  hole_mark(frame, entry, setup.approach, 5.0F, true);
  hole_mark(frame, apex, setup.approach, 5.0F, true);
}

// The implant where it sits: outline over the threads, platform to end.
void placed_implant(const Frame& frame, const Mapping& map, const lesson::AttemptSetup& setup,
                    const scoring::ImplantMeasures& placed, bool is_md) {
  const scoring::Deviation& d = placed.deviation;
  const specimen::Implant* implant = lesson::implant_of(setup);
  if (implant == nullptr) {
    return;
  }
  const ImVec2 platform = map.at(is_md ? d.entry_md_mm : d.entry_bl_mm, -d.depth_mm);
  const ImVec2 end =
      map.at(is_md ? d.apex_md_mm : d.apex_bl_mm, -implant->length_mm - d.apex_depth_mm);
  const ImVec2 along{end.x - platform.x, end.y - platform.y};
  const float length = std::sqrt(along.x * along.x + along.y * along.y);
  if (length <= 0.0F) {
    return;
  }
  const auto side = [&](const ImVec2& at, double radius_mm) {
    const float px = static_cast<float>(radius_mm / map.scale.mm_per_px) / length;
    return ImVec2{at.x - along.y * px, at.y + along.x * px};
  };
  const double wide_mm = 0.5 * implant->diameter_mm;
  const double slim_mm = 0.5 * specimen::thread_of(*implant).apex_diameter_mm;
  const Rgb color = mark_color(setup.approach);
  cased_line(frame, side(platform, wide_mm), side(platform, -wide_mm), color);
  cased_line(frame, side(platform, wide_mm), side(end, slim_mm), color);
  cased_line(frame, side(platform, -wide_mm), side(end, -slim_mm), color);
  cased_line(frame, side(end, slim_mm), side(end, -slim_mm), color);
  hole_mark(frame, platform, setup.approach, 5.0F, true);
  hole_mark(frame, end, setup.approach, 5.0F, true);
}

void scale_bar(const Frame& frame, const Mapping& map) {
  constexpr double kBar_mm = 5.0;
  const Rect& p = map.picture;
  const float length = static_cast<float>(kBar_mm / map.scale.mm_per_px);
  const float x = p.x + p.width - length - frame.px(12.0F);
  const float y = p.y + p.height - frame.px(12.0F);
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddLine({x - 1.0F, y}, {x + length + 1.0F, y}, color_of(kBlack), frame.px(6.0F));
  list->AddLine({x, y}, {x + length, y}, color_of(kWhite), frame.px(3.0F));
  plate_text(frame, {x + 0.5F * length, y - frame.px(26.0F)}, say(Str::kMm, 5), Align::kCentre);
}

/// Scale and centre that show the whole planned depth; both sections share them.
SectionFrame section_frame(const lesson::AttemptSetup& setup, const Rect& picture) {
  const double height_mm = setup.plan.depth_mm + kAbove_mm + kBelow_mm;
  SectionFrame scale;
  scale.centre_v_mm = kAbove_mm - 0.5 * height_mm;
  if (picture.height > 0.0F) {
    scale.mm_per_px = height_mm / static_cast<double>(picture.height);
  }
  return scale;
}

/// The part of the box that the picture fills (the rest is rulers).
Rect section_picture(const Frame& frame, const Rect& box, const SectionSpec& spec) {
  Rect picture = box;
  if (spec.show_rulers) {
    cut_left(picture, frame.px(kRuler_px));
    cut_bottom(picture, frame.px(kRuler_px));
  }
  return picture;
}

}  // namespace

std::string section_name(const SiteWords& words, bool is_md) {
  return is_md ? say(Str::kSectionTitle, words.md_minus, words.md_plus)
               : say(Str::kSectionTitle, words.bl_minus, words.bl_plus);
}

namespace {

void section_view(Frame& frame, const Rect& box, const Image& image, const SectionFrame& scale,
                  const SectionSpec& spec) {
  const lesson::AttemptSetup& setup = *frame.model.setup;
  const Mapping map{section_picture(frame, box, spec), scale};
  const Rect& p = map.picture;
  const SiteWords words = site_words(setup);
  picture(frame, p, image, section_name(words, spec.is_md), tr(Str::kSectionHelp));
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->PushClipRect({p.x, p.y}, {p.x + p.width, p.y + p.height}, true);
  if (spec.show_plan) {
    planned_hole(frame, map, setup);
  }
  if (spec.results != nullptr && spec.results->implant.has_value()) {
    placed_implant(frame, map, setup, *spec.results->implant, spec.is_md);
  } else if (spec.results != nullptr && spec.results->hole.has_value()) {
    measured_axis(frame, map, setup, *spec.results->hole, spec.is_md);
  }
  const float pad = frame.px(10.0F);
  const float top = p.y + frame.px(6.0F);
  const std::string& minus = spec.is_md ? words.md_minus : words.bl_minus;
  const std::string& plus = spec.is_md ? words.md_plus : words.bl_plus;
  const Face& face = frame.fonts.caption;
  const bool has_room =
      text_size(face, minus).x + text_size(face, plus).x + frame.px(40.0F) < p.width;
  plate_text(frame, {p.x + pad, top}, minus, Align::kLeft);
  plate_text(frame, {p.x + p.width - pad, has_room ? top : top + frame.px(24.0F)}, plus,
             Align::kRight);
  scale_bar(frame, map);
  list->PopClipRect();
  if (spec.show_rulers) {
    rulers(frame, map);
  }
}

}  // namespace

void both_sections(Frame& frame, const Rect& md, const Rect& bl, SectionSpec spec) {
  frame.rects.section_md = section_picture(frame, md, spec);
  frame.rects.section_bl = section_picture(frame, bl, spec);
  frame.rects.section = section_frame(*frame.model.setup, frame.rects.section_md);
  spec.is_md = true;
  section_view(frame, md, frame.model.section_md, frame.rects.section, spec);
  spec.is_md = false;
  section_view(frame, bl, frame.model.section_bl, frame.rects.section, spec);
}

}  // namespace driftbench::ui
