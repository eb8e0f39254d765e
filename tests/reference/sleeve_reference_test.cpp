// Sleeve geometry against its closed form and against published extremes.
#include "math/angle.h"
#include "specimen/drill_length.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::specimen {
namespace {

SleeveGeometry geometry_of(const SleeveFit& fit) {
  const base::Result<SleeveGeometry> result = sleeve_geometry(fit);
  EXPECT_TRUE(result.has_value());
  return result.value_or(SleeveGeometry{});
}

double degrees(math::Radians angle) {
  return math::to_degrees(angle).value;
}

TEST(SleeveReference, ExactAndFirstOrderTilts) {
  // Source: derived table for a strip of width d in a slot D x H, D cos t - H sin t = d; printed to
  // three decimals.
  struct Row {
    double bore, drill, height, first_order_deg, exact_deg;
  };

  for (const Row& row : {Row{5.00, 4.95, 5, 0.573, 0.570}, Row{5.00, 4.94, 5, 0.688, 0.683},
                         Row{5.00, 4.90, 5, 1.146, 1.135}, Row{5.00, 4.90, 4, 1.432, 1.411},
                         Row{5.00, 4.80, 5, 2.291, 2.248}, Row{5.00, 4.80, 4, 2.862, 2.782},
                         Row{2.10, 2.00, 5, 1.146, 1.141}, Row{2.41, 2.00, 4, 5.852, 5.711},
                         Row{5.00, 4.59, 4, 5.852, 5.546}}) {
    const SleeveGeometry g = geometry_of({row.bore, row.drill, row.height, 3.5, 10.0, 0.0});
    EXPECT_NEAR(degrees(g.tilt), row.exact_deg, 0.0006) << row.bore << " " << row.drill;
    EXPECT_NEAR(degrees(g.tilt_first_order), row.first_order_deg, 0.0006);
  }
}

TEST(SleeveReference, WorstLateralErrorsNineMillimetresBelowTheTop) {
  // Source: derived first-order table; sleeve top 9 mm above the platform, implant 10 mm; printed
  // to two decimals. The exact tilt is smaller by up to 5 % with these fits.
  struct Row {
    double play, height, tilt_deg, entry_mm, apex_mm;
  };

  for (const Row& row : {Row{0.05, 4, 0.72, 0.09, 0.21}, Row{0.05, 5, 0.57, 0.07, 0.17},
                         Row{0.05, 7, 0.41, 0.04, 0.11}, Row{0.10, 4, 1.43, 0.18, 0.43},
                         Row{0.10, 5, 1.15, 0.13, 0.33}, Row{0.10, 7, 0.82, 0.08, 0.22},
                         Row{0.20, 4, 2.86, 0.35, 0.85}, Row{0.20, 5, 2.29, 0.26, 0.66},
                         Row{0.20, 7, 1.64, 0.16, 0.44}, Row{0.30, 4, 4.29, 0.53, 1.28},
                         Row{0.30, 5, 3.43, 0.39, 0.99}, Row{0.30, 7, 2.45, 0.24, 0.66},
                         Row{0.40, 4, 5.71, 0.70, 1.70}, Row{0.40, 5, 4.57, 0.52, 1.32},
                         Row{0.40, 7, 3.27, 0.31, 0.89}}) {
    const double gap = 9.0 - row.height;
    const SleeveGeometry g = geometry_of({5.0, 5.0 - row.play, row.height, gap, 10.0, 0.0});
    EXPECT_NEAR(degrees(g.tilt_first_order), row.tilt_deg, 0.0051);
    const double first_order = std::tan(g.tilt_first_order.value);
    EXPECT_NEAR((0.5 * row.height + gap) * first_order, row.entry_mm, 0.0051);
    EXPECT_NEAR((0.5 * row.height + gap + 10.0) * first_order, row.apex_mm, 0.0051);
    EXPECT_LT(g.entry_mm, row.entry_mm + 0.0051);
    EXPECT_GT(g.entry_mm, 0.93 * row.entry_mm - 0.0051);
    EXPECT_LT(g.apex_mm, row.apex_mm + 0.0051);
    EXPECT_GT(g.apex_mm, 0.93 * row.apex_mm - 0.0051);
  }
}

TEST(SleeveReference, PublishedWorstCase) {
  // Source: Apostolakis & Kourakis 2018, Int J Implant Dent 4:34, 10.1186/s40729-018-0146-2: over
  // clearances 0.05-0.41 mm, sleeves 4-7 mm and offsets 6-17 mm the axis errs by at most 5.9 deg,
  // the neck by 1.5 mm, the apex by 2.8 mm. Offset is to the upper lip of the sleeve (abstract:
  // 'lip'); a total length of 29 mm for the apex is inferred. Their model is the first-order one.
  const double height = 4.0;
  const SleeveGeometry g = geometry_of({5.0, 5.0 - 0.41, height, 17.0 - height, 12.0, 0.0});
  const double tangent = std::tan(g.tilt_first_order.value);
  EXPECT_NEAR(degrees(g.tilt_first_order), 5.9, 0.05);
  EXPECT_NEAR((0.5 * height + 13.0) * tangent, 1.5, 0.05);
  EXPECT_NEAR((0.5 * height + 13.0 + 12.0) * tangent, 2.8, 0.05);
  EXPECT_LT(degrees(g.tilt), 5.9);  // the exact form stays inside the published maximum
  EXPECT_GT(degrees(g.tilt), 5.5);
}

TEST(SleeveReference, SixtyMicrometresOfPlayAtTheTip) {
  // Source: Reil et al. 2025 (PMC12357820), discussion: 60 um of sleeve tolerance give about 200 um
  // at the tip. Sleeve 5 mm, tip 14 mm below it (4 mm gap, 10 mm implant): our reading of the
  // geometry.
  const SleeveGeometry g = geometry_of({5.0, 4.94, 5.0, 4.0, 10.0, 0.0});
  EXPECT_NEAR(g.apex_mm, 0.198, 0.005);
  EXPECT_NEAR(g.apex_mm, 0.200, 0.005);
}

TEST(SleeveReference, DrillLengths) {
  // Source: generic arithmetic, stop to shoulder = implant + (gap + sleeve) + key; total length =
  // implant + offset in Apostolakis & Kourakis 2018. Offset 9 mm = 4 + 5.
  struct Row {
    double implant, key, length;
  };

  for (const Row& row :
       {Row{10, 0, 19}, Row{10, 1, 20}, Row{10, 3, 22}, Row{8, 0, 17}, Row{13, 0, 22}}) {
    EXPECT_EQ(geometry_of({5.0, 4.9, 5.0, 4.0, row.implant, row.key}).drill_length_mm, row.length);
  }
}

}  // namespace
}  // namespace driftbench::specimen
