// The tissues in the section through a planned axis, as a coarse picture.
#pragma once

#include "specimen/jaw_site.h"
#include "specimen/tissue.h"

#include <cstddef>
#include <vector>

namespace driftbench::specimen {

/// Cells row by row from the top, facial side first.
///
/// Shape: (rows, columns)
/// Frame: site frame: the plane x = 0, right is lingual (+y), up is out of the bone (+z)
struct SiteSketch {
  int columns = 0;
  int rows = 0;
  double cell_mm = 0.15;
  double left_mm = 0.0;  ///< y of the left edge
  double top_mm = 0.0;   ///< z of the upper edge
  std::vector<Tissue> cells;

  [[nodiscard]] Tissue at(int row, int column) const {
    return cells[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                 static_cast<std::size_t>(column)];
  }
};

/// Which part of the plane is looked at.
struct SketchWindow {
  double half_width_mm = 9.0;
  double above_mm = 5.0;  ///< the planned platform
  double below_mm = 12.0;
};

/// Every cell shows the tissue at its middle, the gum opened as the site says.
///
/// Contract: the site's jaw is valid; the window's lengths are positive
/// Cost:     about 7 us a cell
[[nodiscard]] SiteSketch sketch_of(const JawSite& site, const SketchWindow& window);

}  // namespace driftbench::specimen
