// Laws of the sleeve geometry and of the guided drill length.
#include "specimen/drill_length.h"

#include "math/angle.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

namespace driftbench::specimen {
namespace {

/// The kit's own fit: bore 5.2, height 4.5, gap 3.5, implant 10 mm.
SleeveFit kit_fit() {
  return {.bore_mm = 5.2,
          .drill_mm = 5.1,
          .height_mm = 4.5,
          .gap_mm = 3.5,
          .implant_mm = 10.0,
          .key_mm = 1.5};
}

SleeveGeometry geometry_of(const SleeveFit& fit) {
  const base::Result<SleeveGeometry> result = sleeve_geometry(fit);
  EXPECT_TRUE(result.has_value()) << (result ? "" : result.error().message);
  return result.value_or(SleeveGeometry{});
}

TEST(SleeveGeometry, ExactTiltTouchesOppositeRims) {
  // D cos t - H sin t = d, the condition itself.
  for (const double drill : {5.19, 5.15, 5.1, 5.0, 4.6, 2.0}) {
    for (const double height : {1.0, 4.0, 4.5, 7.0}) {
      SleeveFit fit = kit_fit();
      fit.drill_mm = drill;
      fit.height_mm = height;
      const double tilt = geometry_of(fit).tilt.value;
      EXPECT_GT(tilt, 0.0);
      EXPECT_NEAR(fit.bore_mm * std::cos(tilt) - height * std::sin(tilt), drill, 1e-14);
    }
  }
}

TEST(SleeveGeometry, FirstOrderTiltIsAnUpperBoundThatClosesWithThePlay) {
  double last_ratio = 0.0;
  for (const double play : {0.4, 0.2, 0.1, 0.05, 0.01}) {
    SleeveFit fit = kit_fit();
    fit.drill_mm = fit.bore_mm - play;
    const SleeveGeometry g = geometry_of(fit);
    const double ratio = g.tilt.value / g.tilt_first_order.value;
    EXPECT_LT(ratio, 1.0);
    EXPECT_GT(ratio, last_ratio);
    last_ratio = ratio;
  }
  EXPECT_GT(last_ratio, 0.998);
}

TEST(SleeveGeometry, LateralErrorsGrowFromTheMiddleOfTheSleeve) {
  const SleeveFit fit = kit_fit();
  const SleeveGeometry g = geometry_of(fit);
  EXPECT_NEAR(g.entry_mm, (2.25 + 3.5) * std::tan(g.tilt.value), 1e-15);
  EXPECT_NEAR(g.apex_mm, (2.25 + 3.5 + 10.0) * std::tan(g.tilt.value), 1e-15);
}

TEST(SleeveGeometry, DrillLengthIsImplantGapSleeveAndKey) {
  EXPECT_EQ(geometry_of(kit_fit()).drill_length_mm, 19.5);
  SleeveFit without_key = kit_fit();
  without_key.key_mm = 0.0;
  EXPECT_EQ(geometry_of(without_key).drill_length_mm, 18.0);
}

TEST(SleeveGeometry, TheKeyAddsLengthOnly) {
  SleeveFit fit = kit_fit();
  const SleeveGeometry low = geometry_of(fit);
  fit.key_mm = 2.5;
  const SleeveGeometry high = geometry_of(fit);
  EXPECT_EQ(high.tilt, low.tilt);
  EXPECT_EQ(high.apex_mm, low.apex_mm);
  EXPECT_EQ(high.drill_length_mm, low.drill_length_mm + 1.0);
}

TEST(SleeveGeometry, MorePlayOrLessHeightTiltsMore) {
  SleeveFit fit = kit_fit();
  const double tilt = geometry_of(fit).tilt.value;
  fit.drill_mm = 5.0;
  EXPECT_GT(geometry_of(fit).tilt.value, tilt);
  fit = kit_fit();
  fit.height_mm = 3.0;
  EXPECT_GT(geometry_of(fit).tilt.value, tilt);
}

TEST(SleeveGeometry, RefusesLengthsThatMakeNoSense) {
  std::vector<SleeveFit> bad(8, kit_fit());
  bad[0].bore_mm = 0.0;
  bad[1].drill_mm = -1.0;
  bad[2].height_mm = std::numeric_limits<double>::infinity();
  bad[3].implant_mm = 0.0;
  bad[4].gap_mm = -0.1;
  bad[5].key_mm = std::numeric_limits<double>::quiet_NaN();
  bad[6].drill_mm = bad[6].bore_mm;
  bad[7].drill_mm = 6.0;
  for (const SleeveFit& fit : bad) {
    const base::Result<SleeveGeometry> result = sleeve_geometry(fit);
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(result.error().code, base::ErrorCode::kOutOfRange);
    EXPECT_FALSE(result.error().where.empty());
  }
  SleeveFit touching = kit_fit();
  touching.gap_mm = 0.0;
  EXPECT_TRUE(sleeve_geometry(touching).has_value());
}

}  // namespace
}  // namespace driftbench::specimen
