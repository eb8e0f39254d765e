// What pointer, wheel and keys do in a linked section.
#pragma once

#include "ui/study_model.h"
#include "ui/widgets.h"

namespace driftbench::ui {

/// A section on the page: millimetres to logical px and back.
struct SliceMap {
  Rect picture;
  SlicePlane plane;
  double mm_per_px = 0.05;

  [[nodiscard]] ImVec2 at(double right_mm, double up_mm) const {
    const double x = static_cast<double>(picture.x) + 0.5 * static_cast<double>(picture.width);
    const double y = static_cast<double>(picture.y) + 0.5 * static_cast<double>(picture.height);
    return {static_cast<float>(x + right_mm / mm_per_px),
            static_cast<float>(y - up_mm / mm_per_px)};
  }

  [[nodiscard]] ImVec2 of(const math::Vec3& p) const {
    const math::Vec3 q = plane.in_plane(p);
    return at(q.x, q.y);
  }

  /// The point of the plane under a place on the page.
  [[nodiscard]] math::Vec3 under(ImVec2 px) const {
    const double x = static_cast<double>(px.x - picture.x - 0.5F * picture.width);
    const double y = static_cast<double>(px.y - picture.y - 0.5F * picture.height);
    return plane.at(x * mm_per_px, -y * mm_per_px);
  }
};

void slice_grip(Frame& frame, const SliceMap& map, SliceKind kind, const Touch& touch);

}  // namespace driftbench::ui
