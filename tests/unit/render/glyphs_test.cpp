// Printed digits and the foam's solid texture.
#include "render/glyphs.h"

#include "render/foam_noise.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>

namespace driftbench::render {
namespace {

TEST(Glyphs, AllDifferInAtLeastATwentiethOfTheirPixels) {
  const std::vector<std::uint8_t> atlas = glyph_atlas();
  const auto is_ink = [&](int glyph, int x, int y) {
    return atlas[static_cast<std::size_t>(y * kGlyphCount * kGlyphWidth_px +
                                          glyph * kGlyphWidth_px + x)] > 127;
  };
  for (int a = 0; a < kGlyphCount; ++a) {
    for (int b = 0; b < a; ++b) {
      int different = 0;
      for (int y = 0; y < kGlyphHeight_px; ++y) {
        for (int x = 0; x < kGlyphWidth_px; ++x) {
          different += is_ink(a, x, y) != is_ink(b, x, y) ? 1 : 0;
        }
      }
      EXPECT_GT(different, kGlyphWidth_px * kGlyphHeight_px / 20) << a << " and " << b;
    }
  }
}

TEST(Glyphs, StayInsideTheirCells) {
  const std::vector<std::uint8_t> atlas = glyph_atlas();
  for (int y = 0; y < kGlyphHeight_px; ++y) {
    for (int glyph = 0; glyph < kGlyphCount; ++glyph) {
      const auto row = static_cast<std::size_t>(y * kGlyphCount * kGlyphWidth_px);
      const auto first = row + static_cast<std::size_t>(glyph * kGlyphWidth_px);
      EXPECT_LT(atlas[first], 128);
      EXPECT_LT(atlas[first + kGlyphWidth_px - 1], 128);
    }
  }
}

TEST(CodedNumber, KeepsCountAndDigitsInBaseTwelve) {
  EXPECT_EQ(coded_number(8.0, false), 1.0F * 1728.0F + 8.0F * 144.0F);
  EXPECT_EQ(coded_number(10.0, false), 2.0F * 1728.0F + 1.0F * 144.0F);
  EXPECT_EQ(coded_number(16.0, false), 2.0F * 1728.0F + 1.0F * 144.0F + 6.0F * 12.0F);
  EXPECT_EQ(coded_number(2.7, true), 3.0F * 1728.0F + 2.0F * 144.0F + 10.0F * 12.0F + 7.0F);
}

TEST(FoamNoise, RepeatsWithoutASeam) {
  const std::vector<std::uint8_t> texels = foam_noise();
  const auto height = [&](int x, int y, int z) {
    return static_cast<int>(
        texels[static_cast<std::size_t>(((z * kFoamNoiseSize + y) * kFoamNoiseSize + x) * 4 + 3)]);
  };
  int across_seam = 0;
  int inside = 0;
  for (int a = 0; a < kFoamNoiseSize; ++a) {
    for (int b = 0; b < kFoamNoiseSize; ++b) {
      across_seam += std::abs(height(0, a, b) - height(kFoamNoiseSize - 1, a, b));
      inside += std::abs(height(24, a, b) - height(23, a, b));
    }
  }
  // Steps across the seam are as large as anywhere else; an open seam would give several times
  // more.
  EXPECT_LT(across_seam, 2 * inside);
  const auto [low, high] = std::minmax_element(texels.begin(), texels.end());
  EXPECT_LT(*low, 20);
  EXPECT_EQ(*high, 255);
}

}  // namespace
}  // namespace driftbench::render
