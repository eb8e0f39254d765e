#include "classroom_ui/picture_style.h"

#include <array>

namespace driftbench::classroom_ui {
namespace {

using ui::Palette;
using ui::Rgb;

constexpr Rgb kPilotMark{0x56, 0xB4, 0xE9};
constexpr Rgb kSleeveOnDark{0xC9, 0x8F, 0xE0};

/// Which colour, by what it is for.
enum class Ink {
  kNone,
  kText,
  kMuted,
  kLine,
  kSurface,
  kPage,
  kWhite,
  kBlack,
  kFree,
  kSleeve,
  kSleeveLine,  ///< a line alone: the mark's purple is too dark for a dark page
  kPilot
};

struct Style {
  std::string_view name;
  Ink fill = Ink::kNone;
  float fill_alpha = 1.0F;
  Ink stroke = Ink::kNone;
  float stroke_alpha = 1.0F;
  float width = 0.0F;
  float dash = 0.0F;
  float gap = 0.0F;
};

constexpr std::array kStyles{
    Style{"axis", Ink::kNone, 1.0F, Ink::kText, 1.0F, 2.0F},
    Style{"grid", Ink::kNone, 1.0F, Ink::kLine, 1.0F, 1.0F},
    Style{"field", Ink::kSurface, 1.0F, Ink::kText, 1.0F, 1.5F},
    Style{"ring", Ink::kNone, 1.0F, Ink::kLine, 1.0F, 1.5F},
    Style{"limit", Ink::kNone, 1.0F, Ink::kText, 1.0F, 2.0F, 3.0F, 5.0F},
    Style{"zero", Ink::kNone, 1.0F, Ink::kText, 1.0F, 2.0F, 8.0F, 5.0F},
    Style{"freehand", Ink::kFree, 1.0F, Ink::kBlack, 1.0F, 2.0F},
    Style{"sleeve", Ink::kSleeve, 1.0F, Ink::kBlack, 1.0F, 2.0F},
    Style{"pilot", Ink::kPilot, 1.0F, Ink::kBlack, 1.0F, 2.0F},
    Style{"hollow", Ink::kPage, 1.0F, Ink::kText, 1.0F, 2.0F},
    Style{"dot", Ink::kWhite},
    Style{"estimate", Ink::kNone, 1.0F, Ink::kText, 1.0F, 2.0F},
    Style{"plan-casing", Ink::kNone, 1.0F, Ink::kBlack, 1.0F, 5.0F, 7.0F, 5.0F},
    Style{"plan-core", Ink::kNone, 1.0F, Ink::kWhite, 1.0F, 2.0F, 7.0F, 5.0F},
    Style{"link", Ink::kNone, 1.0F, Ink::kMuted, 0.7F, 2.0F},
    Style{"arrow", Ink::kNone, 1.0F, Ink::kText, 1.0F, 2.5F},
    Style{"head", Ink::kText},
    Style{"ellipse-freehand", Ink::kFree, 0.14F, Ink::kFree, 1.0F, 4.0F},
    Style{"ellipse-sleeve", Ink::kSleeve, 0.22F, Ink::kSleeveLine, 1.0F, 4.0F},
    Style{"ellipse-pilot", Ink::kPilot, 0.14F, Ink::kPilot, 1.0F, 4.0F},
    Style{"curve-freehand", Ink::kNone, 1.0F, Ink::kFree, 0.65F, 1.5F},
    Style{"curve-sleeve", Ink::kNone, 1.0F, Ink::kSleeveLine, 0.8F, 1.5F},
    Style{"curve-pilot", Ink::kNone, 1.0F, Ink::kPilot, 0.65F, 1.5F},
    Style{"median", Ink::kNone, 1.0F, Ink::kText, 1.0F, 4.0F},
    Style{"difference", Ink::kSurface, 1.0F, Ink::kText, 1.0F, 2.5F},
    Style{"interval", Ink::kNone, 1.0F, Ink::kText, 1.0F, 5.0F},
    Style{"mean", Ink::kText},
};

Rgb color_of(Ink ink, const Palette& colors) {
  switch (ink) {
    case Ink::kText:
      return colors.text;
    case Ink::kMuted:
      return colors.muted;
    case Ink::kLine:
      return colors.line;
    case Ink::kSurface:
      return colors.surface;
    case Ink::kPage:
      return colors.page;
    case Ink::kWhite:
      return ui::kWhite;
    case Ink::kFree:
      return ui::kFreehandMark;
    case Ink::kSleeve:
      return ui::kSleeveMark;
    case Ink::kSleeveLine:
      return colors.ink == ui::kWhite ? kSleeveOnDark : ui::kSleeveMark;
    case Ink::kPilot:
      return kPilotMark;
    case Ink::kBlack:
    case Ink::kNone:
      break;
  }
  return ui::kBlack;
}

bool is_mark(Ink ink) {
  return ink == Ink::kFree || ink == Ink::kSleeve || ink == Ink::kPilot;
}

}  // namespace

Paint paint_of(std::string_view styles, const Palette& colors) {
  Paint paint;
  while (!styles.empty()) {
    const std::string_view name = styles.substr(0, styles.find(' '));
    styles.remove_prefix(name.size() < styles.size() ? name.size() + 1 : name.size());
    if (name == "hole") {  // one of many, faint
      paint.fill_alpha *= 0.55F;
      paint.stroke_alpha *= 0.55F;
      paint.width = 1.0F;
      continue;
    }
    if (name == "dashed") {
      paint.dash = 12.0F;
      paint.gap = 8.0F;
      continue;
    }
    for (const Style& style : kStyles) {
      if (style.name != name) {
        continue;
      }
      if (style.fill != Ink::kNone) {
        paint.fill = color_of(style.fill, colors);
        paint.fill_alpha = style.fill_alpha;
      }
      if (style.stroke != Ink::kNone) {
        // On a dark page a mark's outline is white.
        const bool is_outline = style.stroke == Ink::kBlack && is_mark(style.fill);
        paint.stroke = is_outline ? colors.ink : color_of(style.stroke, colors);
        paint.stroke_alpha = style.stroke_alpha;
        paint.width = style.width;
        paint.dash = style.dash;
        paint.gap = style.gap;
      }
    }
  }
  return paint;
}

}  // namespace driftbench::classroom_ui
