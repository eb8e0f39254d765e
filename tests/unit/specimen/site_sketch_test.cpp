// The coarse picture of a planned section against the voxels of the same site.
#include "specimen/site_sketch.h"

#include "specimen/jaw_sources.h"
#include "specimen/specimen.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace driftbench::specimen {
namespace {

JawSite molar_site(int fdi) {
  JawSite site;
  site.jaw = typical_jaw(JawRegion::kPosteriorMandible);
  site.jaw.site_fdi = fdi;
  site.plan.entry_mm = {0.4, 0.6, -0.3};
  site.plan.lean_bl_deg = 5.0;
  site.plan.lean_md_deg = 3.0;
  return site;
}

TEST(SiteSketch, ShowsTheTissuesOfTheVoxels) {
  const JawSite site = molar_site(46);
  const SiteSketch sketch = sketch_of(site, {9.0, 4.0, 14.0});
  const auto volume = build_specimen(site);
  ASSERT_TRUE(volume.has_value());
  int same = 0;
  int all = 0;
  for (int row = 0; row < sketch.rows; ++row) {
    for (int column = 0; column < sketch.columns; ++column) {
      const double y_mm = sketch.left_mm + (column + 0.5) * sketch.cell_mm;
      const double z_mm = sketch.top_mm - (row + 0.5) * sketch.cell_mm;
      const volume::Grid& grid = volume->grid;
      const math::Vec3 at = (math::Vec3(0.0, y_mm, z_mm) - grid.first_centre_mm) / grid.spacing_mm;
      const std::size_t i =
          grid.index(static_cast<int>(std::lround(at.x)), static_cast<int>(std::lround(at.y)),
                     static_cast<int>(std::lround(at.z)));
      const bool solid = facts_of(static_cast<Tissue>(volume->tissue[i])).is_solid;
      const Tissue voxel = solid && volume->coverage[i] < 128
                               ? Tissue::kAir
                               : static_cast<Tissue>(volume->tissue[i]);
      same += voxel == sketch.at(row, column) ? 1 : 0;
      ++all;
    }
  }
  EXPECT_GT(same, 95 * all / 100) << "cells differ only at borders";
  for (const Tissue tissue : {Tissue::kCortical, Tissue::kCancellous, Tissue::kNerve}) {
    EXPECT_NE(std::find(sketch.cells.begin(), sketch.cells.end(), tissue), sketch.cells.end());
  }
}

// Lingual is at the right in every quadrant.
TEST(SiteSketch, LeftAndRightSitesLookTheSame) {
  EXPECT_EQ(sketch_of(molar_site(46), {6.0, 3.0, 12.0}).cells,
            sketch_of(molar_site(36), {6.0, 3.0, 12.0}).cells);
}

}  // namespace
}  // namespace driftbench::specimen
