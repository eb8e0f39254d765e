// The deviation code against a published table of placements, and against textbook angles.
#include "math/angle.h"
#include "scoring/deviation.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace driftbench::scoring {
namespace {

using math::Vec3;

/// One implant of the published table.
struct Row {
  double angle_deg, global_mm, lateral_mm, depth_mm;
};

// Source: P. Onclin, thesis, chapter 3, Table 3.1 (23 implants; angle, global, lateral, depth;
// printed to one decimal). The lateral there is the axis-piercing one, the vertical is unsigned.
constexpr std::array<Row, 23> kTable{{
    {5.0, 1.0, .8, .6},  {7.7, 1.2, .6, 1.0},  {5.2, 1.0, .9, .5},  {4.5, .9, .5, .7},
    {4.2, .4, .3, .3},   {8.9, .4, .2, .4},    {0.6, 1.1, .4, 1.0}, {4.1, .9, .4, .9},
    {8.9, 2.6, 2.6, .2}, {13.0, 1.9, 1.9, .1}, {7.9, .4, .4, .2},   {8.7, .5, .5, .1},
    {9.3, 1.1, .8, .7},  {8.7, 1.3, .8, 1.0},  {6.2, .9, .6, .6},   {10.8, 1.2, 1.0, .7},
    {8.2, 1.2, .6, 1.2}, {7.6, 1.5, .9, 1.2},  {12.5, .4, .3, .2},  {13.0, 1.0, 1.0, .1},
    {1.5, 2.0, .8, 1.8}, {2.1, 1.0, 1.0, .1},  {8.0, .7, .6, .3},
}};

/// A placement with this lateral, depth and angle; the tilt lies across the lateral error.
Deviation placed(const Row& row) {
  const double angle = row.angle_deg * math::kPi / 180.0;
  const Vec3 entry(row.lateral_mm, 0.0, -row.depth_mm);
  const Vec3 apex = entry + 10.0 * Vec3(0.0, std::sin(angle), -std::cos(angle));
  const base::Result<Deviation> result =
      deviation({0.0, 0.0, 0.0}, {0.0, 0.0, -10.0}, entry, apex, {1.0, 0.0, 0.0}, {0.0, 1.0, 0.0});
  EXPECT_TRUE(result.has_value());
  return result.value_or(Deviation{});
}

TEST(AccuracyReference, GlobalFollowsFromLateralAndDepth) {
  // Rounding of the printed values allows 0.055 mm; two rows are off by 0.08 and 0.14 in print.
  int close = 0;
  for (const Row& row : kTable) {
    const Deviation d = placed(row);
    EXPECT_NEAR(d.entry_global_mm, row.global_mm, 0.145);
    EXPECT_NEAR(d.entry_lateral_mm, row.lateral_mm, 1e-12);
    EXPECT_NEAR(d.depth_mm, row.depth_mm, 1e-12);
    EXPECT_NEAR(d.angle_deg, row.angle_deg, 1e-12);
    close += std::fabs(d.entry_global_mm - row.global_mm) <= 0.055 ? 1 : 0;
  }
  EXPECT_EQ(close, 21);
}

TEST(AccuracyReference, MeansAndSpreadOfTheTable) {
  // Published: 7.24 deg, 1.1, 0.8, 0.6 mm; population SD 3.39 deg, 0.5, 0.5, 0.4 mm.
  struct Column {
    double Deviation::*measured;
    double Row::*printed;
    double mean, sd, tolerance;
  };

  const std::array<Column, 3> columns{
      {{&Deviation::angle_deg, &Row::angle_deg, 7.24, 3.39, 0.01},
       {&Deviation::entry_lateral_mm, &Row::lateral_mm, 0.8, 0.5, 0.051},
       {&Deviation::depth_mm, &Row::depth_mm, 0.6, 0.4, 0.051}}};
  for (const Column& column : columns) {
    double sum = 0.0;
    double squares = 0.0;
    for (const Row& row : kTable) {
      const double value = placed(row).*column.measured;
      EXPECT_NEAR(value, row.*column.printed, 1e-12);
      sum += value;
      squares += value * value;
    }
    const double count = static_cast<double>(kTable.size());
    const double mean = sum / count;
    EXPECT_NEAR(mean, column.mean, column.tolerance);
    EXPECT_NEAR(std::sqrt(squares / count - mean * mean), column.sd, column.tolerance);
  }
  double global = 0.0;
  for (const Row& row : kTable) {
    global += placed(row).entry_global_mm;
  }
  EXPECT_NEAR(global / static_cast<double>(kTable.size()), 1.1, 0.051);
}

TEST(AccuracyReference, AngleOverTenMillimetres) {
  // Source: geometry; 3.5 deg over 10 mm displace the apex by 0.61 mm.
  const Deviation d = placed({3.5, 0.0, 0.0, 0.0});
  EXPECT_NEAR(d.apex_bl_mm, 0.61, 0.005);
  EXPECT_NEAR(d.tilt_bl_deg, 3.5, 1e-12);
}

TEST(AccuracyReference, AHundredthOfADegree) {
  // Precision asked of the angle: 0.01 deg must be told from 0.02 deg. In double precision
  // acos(u.v) still has an absolute error of about 1e-8/angle there; atan2 has none to speak of.
  EXPECT_NEAR(placed({0.01, 0.0, 0.0, 0.0}).angle_deg, 0.01, 1e-13);
  EXPECT_NEAR(placed({0.02, 0.0, 0.0, 0.0}).angle_deg, 0.02, 1e-13);
}

TEST(AccuracyReference, PiercingLateralOfADeepLeaningImplant) {
  // Source: Onclin thesis, chapter 3: planned centre to where the achieved axis crosses the plane
  // through it; it differs from the perpendicular lateral by depth * tan(angle).
  const Deviation d = placed({6.0, 0.0, 0.0, 1.0});
  EXPECT_NEAR(d.entry_lateral_mm, 0.0, 1e-15);
  EXPECT_NEAR(d.entry_piercing_mm, std::tan(6.0 * math::kPi / 180.0), 1e-14);
}

}  // namespace
}  // namespace driftbench::scoring
