#include "ui/plan_figure.h"

#include "base/text.h"
#include "lesson/instruments.h"
#include "ui/marks.h"
#include "ui/strings.h"
#include "ui/words.h"

#include <algorithm>
#include <optional>

namespace driftbench::ui {

namespace {

constexpr double kBelow_mm = 3.5;     // of a block shown below the planned floor
constexpr double kJawBelow_mm = 8.0;  // of a jaw: what lies below is what matters
constexpr double kAbove_mm = 2.5;     // and above the highest part
constexpr double kHalf_mm = 9.0;      // half the width of block shown
constexpr Rgb kSoftFoam{0xD9, 0xCC, 0xB0};
constexpr Rgb kDenseFoam{0xB3, 0x9C, 0x76};
constexpr Rgb kSleeveSteel{0x8A, 0x99, 0xA6};
constexpr Rgb kKeySteel{0x5F, 0x71, 0x80};

/// Millimetres of the section to the screen.
struct Scale {
  float axis_x = 0.0F;
  float platform_y = 0.0F;
  float per_mm = 1.0F;

  [[nodiscard]] ImVec2 at(double right_mm, double up_mm) const {
    return {axis_x + per_mm * static_cast<float>(right_mm),
            platform_y - per_mm * static_cast<float>(up_mm)};
  }
};

void filled(const Scale& scale, double from_mm, double to_mm, double low_mm, double high_mm,
            Rgb color) {
  const ImVec2 a = scale.at(from_mm, high_mm);
  const ImVec2 b = scale.at(to_mm, low_mm);
  ImGui::GetWindowDrawList()->AddRectFilled(a, b, color_of(color));
  ImGui::GetWindowDrawList()->AddRect(a, b, color_of(kBlack, 0.6F));
}

// A measure at the side: a line with two ends and its words.
void measure(const Frame& frame, const Scale& scale, double right_mm, double low_mm, double high_mm,
             std::string_view words) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const ImU32 ink = color_of(frame.colors.text);
  const ImVec2 a = scale.at(right_mm, high_mm);
  const ImVec2 b = scale.at(right_mm, low_mm);
  const float end = frame.px(4.0F);
  list->AddLine(a, b, ink, frame.px(1.5F));
  list->AddLine({a.x - end, a.y}, {a.x + end, a.y}, ink, frame.px(1.5F));
  list->AddLine({b.x - end, b.y}, {b.x + end, b.y}, ink, frame.px(1.5F));
  const ImVec2 size = text_size(frame.fonts.caption, words);
  const float x = right_mm < 0.0 ? a.x - frame.px(9.0F) - size.x : a.x + frame.px(9.0F);
  draw_wrapped(*list, frame.fonts.caption, frame.colors.text, {x, 0.5F * (a.y + b.y - size.y)},
               0.0F, words);
}

Rgb foam_color(specimen::DensityClass density) {
  return static_cast<int>(density) <= static_cast<int>(specimen::DensityClass::kD2) ? kDenseFoam
                                                                                    : kSoftFoam;
}

/// Two names at the lower edge, in the middle of each half.
void name_halves(const Frame& frame, const Scale& scale, double floor_mm, std::string_view left,
                 std::string_view right) {
  const auto name = [&](std::string_view content, double right_mm) {
    const ImVec2 size = text_size(frame.fonts.caption, content);
    const ImVec2 at = scale.at(right_mm, floor_mm);
    draw_text(frame.fonts.caption, kBlack, {at.x - 0.5F * size.x, at.y - size.y - frame.px(3.0F)},
              content);
  };
  name(left, -0.5 * kHalf_mm);
  name(right, 0.5 * kHalf_mm);
}

/// Colour of a tissue in the drawing; nothing where it is open.
std::optional<Rgb> tissue_color(specimen::Tissue tissue) {
  using specimen::Tissue;
  switch (tissue) {
    case Tissue::kCortical:
    case Tissue::kCanalWall:
      return Rgb{0xE9, 0xDF, 0xC6};
    case Tissue::kCancellous:
      return Rgb{0xC2, 0xA9, 0x7D};
    case Tissue::kNerve:
      return Rgb{0xE3, 0xB6, 0x2F};
    case Tissue::kEnamel:
    case Tissue::kDentine:
      return Rgb{0xF5, 0xF3, 0xEA};
    case Tissue::kTitanium:
      return Rgb{0x7F, 0x88, 0x92};
    case Tissue::kGum:
    case Tissue::kMembrane:
    case Tissue::kLigament:
    case Tissue::kPulp:
      return Rgb{0xC9, 0x82, 0x7E};
    case Tissue::kAir:
    case Tissue::kSinusLumen:
    case Tissue::kNasalLumen:
    case Tissue::kSocket:
    case Tissue::kCount:
      break;
  }
  return std::nullopt;
}

/// Cells of one row that look alike are one rectangle.
void jaw_part(const Scale& scale, const specimen::SiteSketch& sketch) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  for (int row = 0; row < sketch.rows; ++row) {
    const double high_mm = sketch.top_mm - row * sketch.cell_mm;
    int begin = 0;
    for (int column = 1; column <= sketch.columns; ++column) {
      if (column < sketch.columns && sketch.at(row, column) == sketch.at(row, begin)) {
        continue;
      }
      if (const std::optional<Rgb> color = tissue_color(sketch.at(row, begin))) {
        list->AddRectFilled(
            scale.at(sketch.left_mm + begin * sketch.cell_mm, high_mm),
            scale.at(sketch.left_mm + column * sketch.cell_mm, high_mm - sketch.cell_mm),
            color_of(*color));
      }
      begin = column;
    }
  }
}

void block_part(const Frame& frame, const Scale& scale, const lesson::AttemptSetup& setup) {
  const double floor_mm = -setup.plan.depth_mm - kBelow_mm;
  const specimen::BlockSpec* block = specimen::block_in(setup.specimen);
  const SiteWords words = site_words(setup);
  const bool has_halves = words.md_plus == tr(Str::kSoftHalf);
  if (!has_halves) {
    filled(scale, -kHalf_mm, kHalf_mm, floor_mm, 0.0,
           block == nullptr ? kDenseFoam : foam_color(block->first));
    return;
  }
  filled(scale, -kHalf_mm, 0.0, floor_mm, 0.0, kDenseFoam);
  filled(scale, 0.0, kHalf_mm, floor_mm, 0.0, kSoftFoam);
  name_halves(frame, scale, floor_mm, words.md_minus, words.md_plus);
}

void planned_hole(const Frame& frame, const Scale& scale, double depth_mm, double half_mm) {
  cased_dashes(frame, scale.at(-half_mm, 0.0), scale.at(-half_mm, -depth_mm), 5.0F);
  cased_dashes(frame, scale.at(half_mm, 0.0), scale.at(half_mm, -depth_mm), 5.0F);
  cased_dashes(frame, scale.at(-half_mm, -depth_mm), scale.at(half_mm, -depth_mm), 5.0F);
}

/// Heights of the parts of a guided site above the planned platform.
struct GuidedParts {
  double gap_mm = 0.0;
  double sleeve_mm = 0.0;
  double collar_mm = 0.0;  ///< of the first guided drill's key

  [[nodiscard]] double top_mm() const { return gap_mm + sleeve_mm + collar_mm; }
};

GuidedParts guided_parts(const lesson::AttemptSetup& setup) {
  const specimen::Sleeve* sleeve = lesson::sleeve_of(setup);
  if (sleeve == nullptr || !setup.guide.has_value()) {
    return {};
  }
  GuidedParts parts{setup.guide->gap_mm, sleeve->height_mm, 0.0};
  for (const std::string& id : setup.plan.drill_ids) {
    const std::int32_t key = lesson::key_index_of(setup, lesson::drill_index_of(setup, id));
    if (key >= 0) {
      parts.collar_mm = setup.kit.keys[static_cast<std::size_t>(key)].collar_mm;
      break;
    }
  }
  return parts;
}

void guided_part(const Frame& frame, const Scale& scale, const lesson::AttemptSetup& setup,
                 const GuidedParts& parts, double half_mm) {
  const specimen::Sleeve& sleeve = *lesson::sleeve_of(setup);
  const double inner = 0.5 * sleeve.bore_mm;
  const double outer = std::max(inner + 0.6, 0.5 * sleeve.outer_diameter_mm);
  const double sleeve_top = parts.gap_mm + parts.sleeve_mm;
  filled(scale, -outer, -inner, parts.gap_mm, sleeve_top, kSleeveSteel);
  filled(scale, inner, outer, parts.gap_mm, sleeve_top, kSleeveSteel);
  // The key fills the sleeve and its collar rests on it; the drill runs in between.
  constexpr double kPilotHalf_mm = 1.0;
  filled(scale, -inner, -kPilotHalf_mm, parts.gap_mm, sleeve_top, kKeySteel);
  filled(scale, kPilotHalf_mm, inner, parts.gap_mm, sleeve_top, kKeySteel);
  filled(scale, -outer, -kPilotHalf_mm, sleeve_top, parts.top_mm(), kKeySteel);
  filled(scale, kPilotHalf_mm, outer, sleeve_top, parts.top_mm(), kKeySteel);
  const double right = std::max(outer, half_mm) + 1.2;
  measure(frame, scale, right, 0.0, parts.gap_mm, tr(Str::kFigureGap));
  measure(frame, scale, right, parts.gap_mm, sleeve_top, tr(Str::kFigureSleeve));
  measure(frame, scale, right, sleeve_top, parts.top_mm(), tr(Str::kFigureCollar));
  measure(frame, scale, -kHalf_mm - 1.0, -setup.plan.depth_mm, parts.top_mm(),
          tr(Str::kFigureLength));
}

}  // namespace

specimen::SketchWindow plan_window(const lesson::AttemptSetup& setup) {
  return {kHalf_mm, guided_parts(setup).top_mm() + kAbove_mm, setup.plan.depth_mm + kJawBelow_mm};
}

void plan_figure(Frame& frame, const Rect& box, const lesson::AttemptSetup& setup) {
  const double depth_mm = setup.plan.depth_mm;
  const double half_mm = std::max(0.5, 0.5 * lesson::last_drill_mm(setup));
  const GuidedParts parts = guided_parts(setup);
  const double below_mm = frame.model.sketch.has_value() ? kJawBelow_mm : kBelow_mm;
  const double height_mm = depth_mm + below_mm + parts.top_mm() + kAbove_mm;
  ScreenItem about;
  about.role = Role::kImage;
  about.description = tr(Str::kPlanFigureHelp);
  const Touch touch = item(frame, box, tr(Str::kPlanFigure), about);
  Scale scale;
  scale.per_mm = std::min(box.height / static_cast<float>(height_mm),
                          box.width / static_cast<float>(4.0 * kHalf_mm));
  scale.axis_x = box.x + 0.5F * box.width;
  scale.platform_y = box.y + scale.per_mm * static_cast<float>(parts.top_mm() + kAbove_mm);
  if (frame.model.sketch.has_value()) {
    const SiteWords words = site_words(setup);
    jaw_part(scale, *frame.model.sketch);
    const double floor_mm = -depth_mm - kJawBelow_mm + 1.5;
    plate_text(frame, scale.at(-0.75 * kHalf_mm, floor_mm), words.bl_minus, Align::kCentre);
    plate_text(frame, scale.at(0.75 * kHalf_mm, floor_mm), words.bl_plus, Align::kCentre);
  } else {
    block_part(frame, scale, setup);
  }
  planned_hole(frame, scale, depth_mm, half_mm);
  const bool is_guided = parts.sleeve_mm > 0.0;
  measure(
      frame, scale, kHalf_mm + 1.0, -depth_mm, 0.0,
      say(is_guided ? Str::kFigureImplantLength : Str::kFigureHoleDepth, base::fixed(depth_mm, 1)));
  if (is_guided) {
    guided_part(frame, scale, setup, parts, half_mm);
  }
  // The axis last, over everything.
  cased_dashes(frame, scale.at(0.0, parts.top_mm() + 0.8 * kAbove_mm),
               scale.at(0.0, -depth_mm - 1.5), 8.0F);
  if (touch.focused) {
    focus_ring(frame, box, kRadiusSmall_px);
  }
}

}  // namespace driftbench::ui
