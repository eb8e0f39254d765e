// Outline of a jaw across the arch: crest, facial and lingual side, base.
#pragma once

#include "math/vec.h"

#include <array>
#include <cstddef>

namespace driftbench::specimen {

/// A cross-section in words and numbers. Depths count from the crest; facial is y < 0.
///
/// Defaults: posterior mandible, edentulous first molar. Sources: height = crest to canal 13.07
/// (SD 2.96) + canal 2.5 + canal to inferior border 8.8 (SD 1.3); widths 7 to 9 at the crest and
/// 10 to 12 at 5 to 8 mm (typical text figures); see jaw_sources.h for the papers
struct RidgeSpec {
  double height_mm = 24.5;      ///< crest to base
  double crest_width_mm = 7.0;  ///< 1 mm below the crest
  double upper_width_mm = 9.5;  ///< 4 mm below the crest
  double body_width_mm = 11.5;  ///< at `body_depth_mm`
  double body_depth_mm = 9.0;
  double base_width_mm = 9.0;        ///< where the rounding of the base begins
  double lean_mm = 0.0;              ///< base against crest, + lingual
  double crest_slope_deg = 0.0;      ///< + the crest falls toward the lingual side
  double rise_mm = 0.0;              ///< crest against z = 0
  double undercut_depth_mm = 0.0;    ///< lingual; 0: none
  double undercut_level_mm = 9.4;    ///< depth of its deepest place
  double undercut_angle_deg = 63.0;  ///< line from the prominence to the deepest place, to level
  double facial_hollow_mm = 0.0;     ///< facial concavity (upper front teeth)
  double facial_hollow_level_mm = 9.0;
  double palate_flare_mm = 0.0;  ///< how far the lingual side has run out 16 mm down

  friend bool operator==(const RidgeSpec&, const RidgeSpec&) = default;
};

/// Cortical thickness round the outline.
struct CortexSpec {
  double facial_mm = 2.2;   ///< 2.2 (SD 0.4), J Korean Acad OMF Radiol 1997;27:217
  double lingual_mm = 2.0;  ///< 2.0 (SD 0.6), same
  double crest_mm = 1.5;    ///< edentulous about 1.5 to 2, typical text figure
  double base_mm = 3.0;     ///< inferior border 3 to 4, typical text figure

  friend bool operator==(const CortexSpec&, const CortexSpec&) = default;
};

/// One point of an outline with the cortical thickness there.
struct OutlinePoint {
  math::Vec2 at{0.0};  ///< (lateral, z)
  double cortex_mm = 1.0;
};

inline constexpr std::size_t kCrestSteps = 24;
inline constexpr std::size_t kSideSteps = 26;
inline constexpr std::size_t kBaseSteps = 16;
inline constexpr std::size_t kOutlineSize = kCrestSteps + 2 * kSideSteps + kBaseSteps;

/// Closed outline: from the middle of the crest down the facial side, round the base and up the
/// lingual side. Point i of two outlines lies at the same place of the jaw, so outlines can be
/// blended point by point.
using Outline = std::array<OutlinePoint, kOutlineSize>;

/// First points of the parts of an outline.
inline constexpr std::size_t kFacialBegin = kCrestSteps / 2;
inline constexpr std::size_t kBaseBegin = kFacialBegin + kSideSteps;
inline constexpr std::size_t kLingualBegin = kBaseBegin + kBaseSteps;
inline constexpr std::size_t kLingualEnd = kLingualBegin + kSideSteps;

/// The outline of a cross-section. Contract: a validated spec.
[[nodiscard]] Outline outline_of(const RidgeSpec& ridge, const CortexSpec& cortex);

/// Point by point a + share * (b - a).
[[nodiscard]] Outline blended(const Outline& a, const Outline& b, double share);

/// Signed distance to an outline with the cortical thickness at the nearest point.
struct OutlineDistance {
  double distance_mm;  ///< negative inside; exact for the polygon
  double cortex_mm;
};

[[nodiscard]] OutlineDistance outline_distance(const Outline& outline, const math::Vec2& p);

}  // namespace driftbench::specimen
