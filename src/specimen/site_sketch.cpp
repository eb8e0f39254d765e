#include "specimen/site_sketch.h"

#include "base/contract.h"
#include "specimen/jaw_mixer.h"
#include "specimen/jaw_shape.h"

#include <cmath>

namespace driftbench::specimen {

SiteSketch sketch_of(const JawSite& site, const SketchWindow& window) {
  DRIFTBENCH_EXPECTS(window.half_width_mm > 0.0 && window.above_mm > 0.0 && window.below_mm > 0.0);
  SiteSketch sketch;
  sketch.columns = static_cast<int>(std::ceil(2.0 * window.half_width_mm / sketch.cell_mm));
  sketch.rows = static_cast<int>(std::ceil((window.above_mm + window.below_mm) / sketch.cell_mm));
  sketch.left_mm = -0.5 * sketch.columns * sketch.cell_mm;
  sketch.top_mm = window.above_mm;
  sketch.cells.reserve(static_cast<std::size_t>(sketch.columns) *
                       static_cast<std::size_t>(sketch.rows));
  const Jaw jaw(site.jaw, Jaw::Texture::kNone);
  const JawPose pose = pose_of(site);
  const GumOpening gum = opening_of(site);
  for (int row = 0; row < sketch.rows; ++row) {
    const double z_mm = sketch.top_mm - (row + 0.5) * sketch.cell_mm;
    for (int column = 0; column < sketch.columns; ++column) {
      const double y_mm = sketch.left_mm + (column + 0.5) * sketch.cell_mm;
      const PointTissue found = tissue_at(jaw, pose.to_jaw({0.0, y_mm, z_mm}), gum);
      // Solid tissues go on a little outside their surface.
      const bool is_open = facts_of(found.tissue).is_solid && found.solid_mm > 0.0;
      sketch.cells.push_back(is_open ? Tissue::kAir : found.tissue);
    }
  }
  return sketch;
}

}  // namespace driftbench::specimen
