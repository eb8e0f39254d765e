// The design system: colours of the themes, type scale and spacing. Pure values, no ImGui.
#pragma once

#include "ui/model.h"

#include <cstdint>
#include <optional>
#include <string_view>

namespace driftbench::ui {

/// Opaque colour, sRGB.
struct Rgb {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;

  friend bool operator==(const Rgb&, const Rgb&) = default;
};

/// The colours of one theme, named by what they are for.
struct Palette {
  Rgb page;     ///< behind everything
  Rgb surface;  ///< cards and bars
  Rgb raised;   ///< wells, quiet buttons, selected rows
  Rgb line;     ///< decorative separators
  Rgb outline;  ///< borders of controls
  Rgb text;
  Rgb muted;      ///< secondary text
  Rgb accent;     ///< the one next thing to do
  Rgb on_accent;  ///< text on it
  Rgb accent_hover;
  Rgb raised_hover;
  Rgb focus;   ///< keyboard focus ring
  Rgb danger;  ///< text of errors and of deleting
  Rgb good;    ///< inside tolerance
  Rgb warn;    ///< outside tolerance
  Rgb ink;     ///< outline of marks in charts
  Rgb press;   ///< trace of press
  Rgb depth;   ///< trace of depth
  Rgb side;    ///< trace of side force
  Rgb steel;   ///< drills in the rack
  Rgb steel_dark;
};

[[nodiscard]] const Palette& palette(Theme theme);

/// Dark marks on a light ground.
[[nodiscard]] constexpr bool is_light(Theme theme) {
  return theme != Theme::kDark;
}

/// How much larger than usual everything is drawn: a projected page is read from the last row.
[[nodiscard]] float scale_of(Theme theme);

/// What stands in settings, addresses and exports: "dark", "light", "projector".
[[nodiscard]] std::string_view code_of(Theme theme);

/// The theme of a code; empty for another word.
[[nodiscard]] std::optional<Theme> theme_of(std::string_view code);

/// The theme that follows when a person asks for another one.
[[nodiscard]] Theme next_theme(Theme theme);

/// Marks that mean the same in every theme; each is drawn with an outline and its own shape.
inline constexpr Rgb kFreehandMark{0xE6, 0x9F, 0x00};
inline constexpr Rgb kSleeveMark{0x7B, 0x32, 0x94};
inline constexpr Rgb kWhite{0xFF, 0xFF, 0xFF};
inline constexpr Rgb kBlack{0x00, 0x00, 0x00};

/// Contrast ratio of two colours, 1..21.
///
/// Source: WCAG 2.2, definitions of relative luminance and contrast ratio
[[nodiscard]] double contrast(Rgb a, Rgb b);

/// Heights of the type scale in logical px at scale 1; a line is as high as its font.
inline constexpr float kCaption_px = 18.0F;
inline constexpr float kBody_px = 20.5F;
inline constexpr float kLead_px = 24.0F;
inline constexpr float kHeading_px = 29.0F;
inline constexpr float kTitle_px = 40.0F;

/// Spacing steps and sizes, logical px at scale 1.
inline constexpr float kGapSmall_px = 8.0F;
inline constexpr float kGap_px = 16.0F;
inline constexpr float kGapLarge_px = 24.0F;
inline constexpr float kGapPage_px = 40.0F;
inline constexpr float kRadius_px = 10.0F;
inline constexpr float kRadiusSmall_px = 6.0F;
inline constexpr float kButton_px = 44.0F;       ///< primary buttons and everything a finger hits
inline constexpr float kButtonSmall_px = 36.0F;  ///< quiet buttons
inline constexpr float kTopBar_px = 56.0F;

/// A page narrower than this has one column, which scrolls (a tablet held upright, a phone).
inline constexpr float kNarrow_px = 900.0F;

}  // namespace driftbench::ui
