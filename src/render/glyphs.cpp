#include "render/glyphs.h"

#include "math/angle.h"

#include <glm/geometric.hpp>
#include <glm/vec2.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace driftbench::render {
namespace {

constexpr float kTurn = static_cast<float>(2.0 * math::kPi);
constexpr float kHalfStroke = 0.085F;  // of the digit's height

/// Strokes of one glyph as line pieces in a box 0.66 wide and 1 high.
class Strokes {
 public:
  void line(glm::vec2 a, glm::vec2 b) { pieces_.push_back({a, b}); }

  /// Part of an ellipse, angles in turns from +x, counter-clockwise.
  void arc(glm::vec2 centre, glm::vec2 radius, float from, float to) {
    constexpr int kSteps = 14;
    glm::vec2 before = point(centre, radius, from);
    for (int i = 1; i <= kSteps; ++i) {
      const float turns = from + (to - from) * static_cast<float>(i) / kSteps;
      const glm::vec2 here = point(centre, radius, turns);
      line(before, here);
      before = here;
    }
  }

  [[nodiscard]] float distance(glm::vec2 p) const {
    float nearest = 10.0F;
    for (const Piece& piece : pieces_) {
      const glm::vec2 along = piece.b - piece.a;
      const float length2 = std::max(glm::dot(along, along), 1e-9F);
      const float t = std::clamp(glm::dot(p - piece.a, along) / length2, 0.0F, 1.0F);
      nearest = std::min(nearest, glm::length(p - piece.a - t * along));
    }
    return nearest;
  }

 private:
  struct Piece {
    glm::vec2 a, b;
  };

  static glm::vec2 point(glm::vec2 centre, glm::vec2 radius, float turns) {
    return centre + radius * glm::vec2(std::cos(kTurn * turns), std::sin(kTurn * turns));
  }

  std::vector<Piece> pieces_;
};

Strokes strokes_of(int glyph) {
  Strokes s;
  switch (glyph) {
    case 0:
      s.arc({0.33F, 0.5F}, {0.21F, 0.37F}, 0.0F, 1.0F);
      break;
    case 1:
      s.line({0.36F, 0.13F}, {0.36F, 0.87F});
      s.line({0.36F, 0.87F}, {0.20F, 0.72F});
      break;
    case 2:
      s.arc({0.33F, 0.65F}, {0.20F, 0.22F}, 0.45F, -0.10F);
      s.line({0.49F, 0.52F}, {0.14F, 0.13F});
      s.line({0.14F, 0.13F}, {0.54F, 0.13F});
      break;
    case 3:
      s.arc({0.32F, 0.69F}, {0.19F, 0.18F}, 0.42F, -0.25F);
      s.arc({0.32F, 0.32F}, {0.21F, 0.19F}, 0.25F, -0.42F);
      break;
    case 4:
      s.line({0.44F, 0.13F}, {0.44F, 0.87F});
      s.line({0.44F, 0.87F}, {0.12F, 0.34F});
      s.line({0.12F, 0.34F}, {0.56F, 0.34F});
      break;
    case 5:
      s.line({0.51F, 0.87F}, {0.19F, 0.87F});
      s.line({0.19F, 0.87F}, {0.16F, 0.53F});
      s.arc({0.32F, 0.36F}, {0.21F, 0.23F}, 0.36F, -0.40F);
      break;
    case 6:
      s.arc({0.33F, 0.36F}, {0.20F, 0.23F}, 0.0F, 1.0F);
      s.arc({0.62F, 0.36F}, {0.49F, 0.52F}, 0.29F, 0.5F);
      break;
    case 7:
      s.line({0.13F, 0.87F}, {0.53F, 0.87F});
      s.line({0.53F, 0.87F}, {0.25F, 0.13F});
      break;
    case 8:
      s.arc({0.33F, 0.69F}, {0.17F, 0.18F}, 0.0F, 1.0F);
      s.arc({0.33F, 0.32F}, {0.20F, 0.19F}, 0.0F, 1.0F);
      break;
    case 9:
      s.arc({0.33F, 0.64F}, {0.20F, 0.23F}, 0.0F, 1.0F);
      s.arc({0.04F, 0.64F}, {0.49F, 0.52F}, -0.21F, 0.0F);
      break;
    default:
      s.line({0.33F, 0.15F}, {0.33F, 0.16F});
      break;
  }
  return s;
}

}  // namespace

std::vector<std::uint8_t> glyph_atlas() {
  constexpr int kRow_px = kGlyphCount * kGlyphWidth_px;
  std::vector<std::uint8_t> atlas(static_cast<std::size_t>(kRow_px * kGlyphHeight_px));
  for (int glyph = 0; glyph < kGlyphCount; ++glyph) {
    const Strokes strokes = strokes_of(glyph);
    for (int y = 0; y < kGlyphHeight_px; ++y) {
      for (int x = 0; x < kGlyphWidth_px; ++x) {
        const glm::vec2 p(0.66F * (static_cast<float>(x) + 0.5F) / kGlyphWidth_px,
                          (static_cast<float>(y) + 0.5F) / kGlyphHeight_px);
        const float inside = kHalfStroke - strokes.distance(p);
        // 0.30 of the digit's height spans the whole range of values.
        const float value = std::clamp(0.5F + inside / 0.30F, 0.0F, 1.0F);
        atlas[static_cast<std::size_t>(y * kRow_px + glyph * kGlyphWidth_px + x)] =
            static_cast<std::uint8_t>(std::lround(255.0F * value));
      }
    }
  }
  return atlas;
}

float coded_number(double number, bool with_decimal) {
  constexpr int kPoint = 10;
  int count = 0;
  int code = 0;
  if (with_decimal) {
    const int tenths = static_cast<int>(std::lround(number * 10.0));
    count = 3;
    code = tenths / 10 % 10 * 144 + kPoint * 12 + tenths % 10;
  } else {
    const int whole = static_cast<int>(std::lround(number));
    count = whole >= 10 ? 2 : 1;
    code = whole >= 10 ? whole / 10 % 10 * 144 + whole % 10 * 12 : whole * 144;
  }
  return static_cast<float>(count * 1728 + code);
}

}  // namespace driftbench::render
