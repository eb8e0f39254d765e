// Stroke digits that are printed on drills.
#pragma once

#include <cstdint>
#include <vector>

namespace driftbench::render {

inline constexpr int kGlyphCount = 11;  ///< 0-9 and the point
inline constexpr int kGlyphWidth_px = 32;
inline constexpr int kGlyphHeight_px = 48;

/// Distance to the strokes of all glyphs side by side.
///
/// Shape: (48, 11 * 32), bottom row first; 128 on a stroke's edge, larger inside
[[nodiscard]] std::vector<std::uint8_t> glyph_atlas();

/// A number in the form that the metal shader prints: up to three glyphs.
/// Contract: 0 <= number < 100; one decimal only below 10.
[[nodiscard]] float coded_number(double number, bool with_decimal);

}  // namespace driftbench::render
