// The measures of one hole, bit for bit: the same number from every compiler, native and wasm.
#include "base/hash64.h"
#include "scoring/hole.h"
#include "volume/carve.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

namespace driftbench::scoring {
namespace {

/// A block with a level top, without any library function on the way.
volume::Volume level_block() {
  volume::Grid grid;
  grid.nx = 60;
  grid.ny = 60;
  grid.nz = 90;
  grid.spacing_mm = 0.2;
  grid.first_centre_mm = {-5.9, -5.9, -14.9};
  volume::Volume volume = volume::make_volume(grid);
  for (int z = 0; z < grid.nz; ++z) {
    const double inside_vox = -grid.centre_mm(0, 0, z).z / grid.spacing_mm;
    const double frac = std::clamp(0.5 + 0.5 * inside_vox / volume::kRampHalfWidth_vox, 0.0, 1.0);
    const auto cover = static_cast<std::uint8_t>(static_cast<int>(255.0 * frac + 0.5));
    std::fill_n(volume.initial_coverage.begin() + static_cast<std::ptrdiff_t>(grid.index(0, 0, z)),
                grid.nx * grid.ny, cover);
  }
  volume.coverage = volume.initial_coverage;
  return volume;
}

void add(base::Hash64& hash, const HoleMeasures& m) {
  const Deviation& d = m.deviation;
  for (const double value : {m.entry_mm.x, m.entry_mm.y, m.entry_mm.z, m.apex_mm.x, m.apex_mm.y,
                             m.apex_mm.z, d.entry_global_mm, d.entry_piercing_mm, d.apex_lateral_mm,
                             d.angle_deg, d.tilt_md_deg, d.tilt_bl_deg, m.depth_error_mm,
                             m.hole_diameter_mm, m.ovality_mm, m.axis_residual_mm, m.removed_mm3}) {
    hash.add(value);
  }
  for (const HoleSlice& slice : m.slices) {
    for (const double value : {slice.depth_mm, slice.md_mm, slice.bl_mm, slice.diameter_mm,
                               slice.major_mm, slice.minor_mm, slice.major_heading_deg}) {
      hash.add(value);
    }
  }
}

TEST(MeasureHole, GivesTheSameBitsInEveryBuild) {
  volume::Volume volume = level_block();
  volume::RevolvedSolid drill;
  // A drill that wanders on its way down, then a wider one beside it.
  const math::Vec3 axis = math::unit(math::Vec3(-0.06, 0.03, 1.0));
  for (int i = 0; i <= 40; ++i) {
    drill.radius_mm = 1.0;
    const math::Vec3 tip(0.3 + 0.01 * i, -0.2 + 0.005 * i, -0.26 * i);
    volume::carve(volume, drill, tip, axis, 0.0, 16.0, 0);
  }
  drill.radius_mm = 1.35;
  volume::carve(volume, drill, {0.65, -0.05, -9.8}, axis, 0.0, 16.0, 1);

  const base::Result<HoleMeasures> measures = measure_hole(volume, specimen::Plan{}, 2.7);
  ASSERT_TRUE(measures.has_value());
  EXPECT_GT(measures->ovality_mm, 0.0);
  base::Hash64 hash;
  add(hash, *measures);
  // Recorded with g++ 12; changes only when the measurement itself or the carving changes.
  EXPECT_EQ(base::to_hex16(hash.value()), "dacd168f96e48fd5");
}

}  // namespace
}  // namespace driftbench::scoring
