#include "specimen/block.h"

#include "specimen/material.h"

#include <gtest/gtest.h>

namespace driftbench {
namespace {

using specimen::BlockSpec;
using specimen::DensityClass;

// 1 pcf = 16.01846 kg/m^3 (definition).
TEST(FoamGrade, DensityIsItsNameInPoundsPerCubicFoot) {
  for (const DensityClass density :
       {DensityClass::kD1, DensityClass::kD2, DensityClass::kD3, DensityClass::kD4}) {
    const specimen::FoamGrade& grade = specimen::foam_grade(density);
    EXPECT_NEAR(grade.density_mg_per_cm3, grade.grade_pcf * 16.01846, 0.5);
  }
}

TEST(Block, RefusesWhatCannotBeBuilt) {
  const auto refused = [](auto change) {
    BlockSpec spec;
    change(spec);
    const auto result = specimen::build_block(spec);
    return !result.has_value() && result.error().message.find("expected") != std::string::npos;
  };
  EXPECT_TRUE(refused([](BlockSpec& s) { s.edge_mm = 5.0; }));
  EXPECT_TRUE(refused([](BlockSpec& s) { s.voxel_mm = 0.01; }));
  EXPECT_TRUE(refused([](BlockSpec& s) { s.boundary_offset_mm = 20.0; }));
  EXPECT_TRUE(refused([](BlockSpec& s) { s.slope_deg = 60.0; }));
}

TEST(Block, TurningTheBoundaryByAHalfTurnSwapsTheHalves) {
  BlockSpec spec;
  spec.second = DensityClass::kD4;
  BlockSpec turned = spec;
  turned.boundary_deg = 180.0;
  const volume::Volume a = *specimen::build_block(spec);
  const volume::Volume b = *specimen::build_block(turned);
  const volume::Grid& grid = a.grid;
  const int y = grid.ny / 2;
  const int z = grid.nz / 2;
  for (int x = 0; x < grid.nx; ++x) {
    EXPECT_NEAR(a.density_mg_per_cm3[grid.index(x, y, z)],
                b.density_mg_per_cm3[grid.index(grid.nx - 1 - x, y, z)], 1);
  }
}

TEST(Block, OffsetMovesTheGluePlane) {
  BlockSpec spec;
  spec.second = DensityClass::kD4;
  spec.boundary_offset_mm = 2.0;
  const volume::Volume volume = *specimen::build_block(spec);
  const volume::Grid& grid = volume.grid;
  const auto density_at_x = [&](double x_mm) {
    const int x = static_cast<int>((x_mm - grid.first_centre_mm.x) / grid.spacing_mm + 0.5);
    return volume.density_mg_per_cm3[grid.index(x, grid.ny / 2, grid.nz / 2)];
  };
  EXPECT_EQ(density_at_x(1.0), 641);
  EXPECT_EQ(density_at_x(3.0), 160);
}

TEST(Block, TopKeepsItsCentreWhenSloped) {
  for (const double slope_deg : {0.0, 15.0, 30.0, 45.0}) {
    BlockSpec spec;
    spec.slope_deg = slope_deg;
    spec.slope_direction_deg = 60.0;
    const volume::Volume volume = *specimen::build_block(spec);
    const volume::Grid& grid = volume.grid;
    // Along the middle column the coverage passes one half at z = 0.
    for (int z = 1; z < grid.nz; ++z) {
      const auto below = volume.coverage[grid.index(grid.nx / 2, grid.ny / 2, z - 1)];
      const auto above = volume.coverage[grid.index(grid.nx / 2, grid.ny / 2, z)];
      if (below >= 128 && above < 128) {
        EXPECT_NEAR(grid.centre_mm(0, 0, z).z, 0.0, 0.21) << slope_deg;
      }
    }
  }
}

}  // namespace
}  // namespace driftbench
