// From pixels of a photograph to millimetres in the top face of a block.
#pragma once

#include "base/result.h"
#include "math/vec.h"

#include <array>

namespace driftbench::classroom {

/// A plane map of pixels (x right, y down) and millimetres (x right, y up, as seen).
class PhotoPlane {
 public:
  /// One scale for the whole picture, from a known length.
  ///
  /// Errors: kInvalidArgument when the ends are in one place
  [[nodiscard]] static base::Result<PhotoPlane> from_edge(const std::array<math::Vec2, 2>& ends_px,
                                                          double length_mm);

  /// Straightens a rectangle that was photographed askew: its corners in order round it, either
  /// way; the first side is `width_mm` long, the next `height_mm`.
  ///
  /// Errors: kInvalidArgument when the corners are not those of a convex figure
  /// Source: projective map of a square, Heckbert, Fundamentals of Texture Mapping and Image
  ///         Warping (1989), section 2.2.3
  [[nodiscard]] static base::Result<PhotoPlane> from_corners(
      const std::array<math::Vec2, 4>& corners_px, double width_mm, double height_mm);

  [[nodiscard]] math::Vec2 to_mm(const math::Vec2& point_px) const;
  [[nodiscard]] math::Vec2 to_px(const math::Vec2& point_mm) const;

  /// Length of a pixel near a point, the mean of both directions.
  [[nodiscard]] double mm_per_px(const math::Vec2& near_px) const;

 private:
  PhotoPlane(const math::Mat3& px_from_mm, const math::Mat3& mm_from_px)
      : px_from_mm_(px_from_mm), mm_from_px_(mm_from_px) {}

  math::Mat3 px_from_mm_;
  math::Mat3 mm_from_px_;
};

}  // namespace driftbench::classroom
