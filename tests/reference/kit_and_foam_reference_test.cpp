// Tip heights and foam strengths against published or derived values.
#include "math/angle.h"
#include "specimen/kit.h"
#include "specimen/material.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::specimen {
namespace {

TEST(TipReference, ConeHeights) {
  // Source: (d/2) / tan(point angle / 2), derived table printed to two decimals. It explains why a
  // drill reaches 0.6 to 1.2 mm deeper than its depth line.
  struct Row {
    double angle_deg, diameter, height;
  };

  for (const Row& row :
       {Row{118, 2.0, 0.60}, Row{118, 2.2, 0.66}, Row{118, 2.8, 0.84}, Row{118, 3.5, 1.05},
        Row{118, 4.2, 1.26}, Row{120, 2.0, 0.58}, Row{120, 2.2, 0.64}, Row{120, 2.8, 0.81},
        Row{120, 3.5, 1.01}, Row{120, 4.2, 1.21}, Row{90, 2.0, 1.00}, Row{90, 2.2, 1.10},
        Row{90, 2.8, 1.40}, Row{90, 3.5, 1.75}, Row{90, 4.2, 2.10}}) {
    EXPECT_NEAR(point_height_mm(row.diameter, row.angle_deg), row.height, 0.0051)
        << row.diameter << " at " << row.angle_deg;
  }
  EXPECT_NEAR(point_height_mm(2.0, 118.0), 0.601, 0.0005);
  EXPECT_NEAR(point_height_mm(4.0, 118.0), 1.2, 0.005);
}

TEST(FoamReference, StrengthFollowsTheDatasheetTable) {
  // Source: commonly reproduced compressive strengths of rigid foam for grades 5 to 50 pcf (values
  // for 5 and 50 with less confidence). The law sigma = 8.36 (rho/0.32)^1.90 MPa is a log-log fit
  // through them; its largest residual is 2 %, at 10 pcf.
  struct Row {
    double density, strength_mpa;
  };

  double worst = 0.0;
  for (const Row& row : {Row{0.08, 0.60}, Row{0.16, 2.2}, Row{0.24, 4.9}, Row{0.32, 8.4},
                         Row{0.48, 18.0}, Row{0.64, 31.0}, Row{0.80, 48.0}}) {
    const double residual = std::log(foam_strength_mpa(row.density) / row.strength_mpa);
    worst = std::max(worst, std::fabs(residual));
    EXPECT_LT(std::fabs(residual), 0.02) << row.density;
  }
  EXPECT_GT(worst, 0.01);  // a fit, not a table look-up
}

TEST(FoamReference, FitOfTheTableGivesTheLaw) {
  // The same table, fitted here by least squares in logarithms.
  const double density[] = {0.08, 0.16, 0.24, 0.32, 0.48, 0.64, 0.80};
  const double strength[] = {0.60, 2.2, 4.9, 8.4, 18.0, 31.0, 48.0};
  double sx = 0.0, sy = 0.0, sxx = 0.0, sxy = 0.0;
  for (int i = 0; i < 7; ++i) {
    const double x = std::log(density[i] / 0.32);
    const double y = std::log(strength[i]);
    sx += x;
    sy += y;
    sxx += x * x;
    sxy += x * y;
  }
  const double exponent = (7.0 * sxy - sx * sy) / (7.0 * sxx - sx * sx);
  const double factor = std::exp((sy - exponent * sx) / 7.0);
  EXPECT_NEAR(exponent, 1.90, 0.005);
  EXPECT_NEAR(factor, 8.36, 0.02);
  EXPECT_NEAR(foam_strength_mpa(0.32), factor, 0.02);
  EXPECT_NEAR(std::log(foam_strength_mpa(0.64) / foam_strength_mpa(0.32)) / std::log(2.0), exponent,
              0.005);
}

TEST(FoamReference, GradesAreTheirPounds) {
  // Source: 1 lb/ft^3 = 16.01846 kg/m^3 (definition of the units); 20 pcf = 320.4 kg/m^3.
  for (const DensityClass density_class :
       {DensityClass::kD1, DensityClass::kD2, DensityClass::kD3, DensityClass::kD4}) {
    const FoamGrade& grade = foam_grade(density_class);
    EXPECT_NEAR(grade.density_mg_per_cm3, grade.grade_pcf * 16.01846, 0.5001);
  }
  EXPECT_EQ(foam_grade(DensityClass::kD1).grade_pcf, 40);
  EXPECT_EQ(foam_grade(DensityClass::kD4).grade_pcf, 10);
}

}  // namespace
}  // namespace driftbench::specimen
