#include "volume/sample.h"

#include "specimen/block.h"

#include <gtest/gtest.h>

namespace driftbench {
namespace {

volume::Volume built(double boundary_deg = 0.0, double slope_deg = 0.0) {
  specimen::BlockSpec spec;
  spec.voxel_mm = 0.2;  // the level top lies midway between two layers of voxels
  spec.second = specimen::DensityClass::kD4;
  spec.boundary_deg = boundary_deg;
  spec.slope_deg = slope_deg;
  return std::move(*specimen::build_block(spec));
}

// The ramp makes the gap of a plane exact up to one coverage unit (1.6 um at 0.2 mm).
TEST(SurfaceGap, OfALevelTopIsTheHeightAboveIt) {
  const volume::Volume volume = built();
  for (double z = -0.09; z <= 0.09; z += 0.013) {
    EXPECT_NEAR(volume::surface_gap_mm(volume, {0.37, -1.21, z}), z, 0.002) << z;
  }
}

TEST(SurfaceGap, OfASlopedTopIsTheDistanceFromIt) {
  const volume::Volume volume = built(0.0, 20.0);
  const math::Vec3 normal(0.34202014332566873, 0.0, 0.93969262078590838);
  for (double d = -0.06; d <= 0.06; d += 0.011) {
    EXPECT_NEAR(volume::surface_gap_mm(volume, d * normal), d, 0.003) << d;
  }
}

TEST(DensityAt, IsTheGradeOnEachSideAndItsMeanOnTheGluePlane) {
  const volume::Volume volume = built();
  EXPECT_DOUBLE_EQ(volume::density_at(volume, {-3.0, 1.0, -4.0}), 641.0);
  EXPECT_DOUBLE_EQ(volume::density_at(volume, {3.0, 1.0, -4.0}), 160.0);
  EXPECT_NEAR(volume::density_at(volume, {0.0, 1.0, -4.0}), 400.5, 1.0);
}

TEST(CoverageAt, IsNoneOutsideTheLattice) {
  const volume::Volume volume = built();
  EXPECT_EQ(volume::coverage_at(volume, {100.0, 0.0, 0.0}), 0.0);
  EXPECT_EQ(volume::density_at(volume, {0.0, 0.0, 50.0}), 0.0);
}

// 1 inch = 25.4 mm (definition); the ramp is symmetric, so coverage adds up to the volume.
TEST(Block, HoldsOneCubicInch) {
  const volume::Volume volume = built();
  std::uint64_t sum = 0;
  for (const std::uint8_t cover : volume.coverage) {
    sum += cover;
  }
  const double mm3 =
      static_cast<double>(sum) / volume::kFullCoverage * volume.grid.voxel_volume_mm3();
  EXPECT_NEAR(mm3, 25.4 * 25.4 * 25.4, 0.0005 * 25.4 * 25.4 * 25.4);
}

}  // namespace
}  // namespace driftbench
