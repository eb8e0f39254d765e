// Distances against closed formulas: sphere, cylinder, torus, two implants.
#include "specimen/clearance.h"

#include "base/random.h"
#include "math/angle.h"
#include "math/elementary.h"
#include "specimen/jaw_sources.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench {
namespace {

using math::Vec3;
using specimen::LoftedBody;
using specimen::RevolvedBody;
using specimen::Tube;

constexpr double kWithin_mm = 0.02;

RevolvedBody implant_at_origin() {
  RevolvedBody body;
  body.radius_mm = 2.25;
  body.length_mm = 10.0;
  return body;
}

/// Signed distance to a cylinder of radius r from z = 0 down to z = -length: the usual closed form.
double cylinder_mm(double r, double length, const Vec3& p) {
  const double out = std::sqrt(p.x * p.x + p.y * p.y) - r;
  const double end = std::max(p.z, -length - p.z);
  const double x = std::max(out, 0.0);
  const double z = std::max(end, 0.0);
  return std::sqrt(x * x + z * z) + std::min(std::max(out, end), 0.0);
}

LoftedBody sphere(const Vec3& centre, double radius) {
  return {centre,
          math::Mat3(1.0),
          specimen::LoftShape::kEllipse,
          {{-radius, 0.0, 0.0, radius, radius}, {radius, 0.0, 0.0, radius, radius}},
          radius,
          radius};
}

Tube ring(const Vec3& centre, const Vec3& x, const Vec3& y, double radius, double tube_radius) {
  Tube tube;
  constexpr int kPieces = 360;
  for (int i = 0; i <= kPieces; ++i) {
    const math::SinCos at = math::sincos(2.0 * math::kPi * i / kPieces);
    tube.centre_mm.push_back(centre + radius * (at.cos * x + at.sin * y));
  }
  tube.radius_mm = tube_radius;
  return tube;
}

TEST(RevolvedBody, CylinderMatchesTheClosedForm) {
  const RevolvedBody body = implant_at_origin();
  for (double x = -5.0; x <= 5.0; x += 0.7) {
    for (double z = -14.0; z <= 4.0; z += 0.6) {
      const Vec3 p(x, 0.37 * x + 0.2, z);
      EXPECT_NEAR(signed_distance_mm(body, p), cylinder_mm(2.25, 10.0, p), 1e-12);
    }
  }
}

// A 118 degree point: half angle 59 degrees, height r / tan 59.
TEST(RevolvedBody, DistanceToAConeIsAlongItsNormal) {
  RevolvedBody drill = implant_at_origin();
  drill.radius_mm = 2.0;
  drill.point_mm = 2.0 / math::tan(math::Radians(math::Degrees(59.0)).value);
  const Vec3 tip = drill.deepest_mm();
  EXPECT_NEAR(tip.z, -11.2017, 1e-3);
  EXPECT_NEAR(signed_distance_mm(drill, tip + Vec3(0.0, 0.0, -0.8)), 0.8, 1e-12);
  // Middle of the flank, 0.5 mm out along the normal (cos 59, 0, -sin 59).
  const math::SinCos half = math::sincos(math::Radians(math::Degrees(59.0)).value);
  const Vec3 flank = 0.5 * (tip + Vec3(2.0, 0.0, -10.0));
  EXPECT_NEAR(signed_distance_mm(drill, flank + 0.5 * Vec3(half.cos, 0.0, -half.sin)), 0.5, 1e-12);
  EXPECT_NEAR(signed_distance_mm(drill, flank - 0.2 * Vec3(half.cos, 0.0, -half.sin)), -0.2, 1e-12);
}

TEST(Clearance, SphereBesideUnderAndAcrossTheEdge) {
  const RevolvedBody body = implant_at_origin();
  for (const Vec3& centre : {Vec3(6.0, 1.0, -5.0), Vec3(0.5, -0.3, -14.0), Vec3(4.0, 3.0, -13.0),
                             Vec3(-3.0, 0.2, -9.0)}) {
    const double radius = 1.4;
    const double expected = cylinder_mm(2.25, 10.0, centre) - radius;
    EXPECT_NEAR(clearance_to_lofted(body, sphere(centre, radius)).distance_mm, expected, kWithin_mm)
        << centre.x << ' ' << centre.z;
  }
}

TEST(Clearance, StraightCanalBesideAndUnder) {
  const RevolvedBody body = implant_at_origin();
  const auto straight = [](double y, double z) {
    return Tube{{Vec3(-20.0, y, z), Vec3(1.3, y, z), Vec3(20.0, y, z)}, 1.275, 0.5};
  };
  EXPECT_NEAR(clearance_to_tube(body, straight(0.4, -14.0)).distance_mm, 4.0 - 1.275, kWithin_mm);
  EXPECT_NEAR(clearance_to_tube(body, straight(5.0, -8.0)).distance_mm, 5.0 - 2.25 - 1.275,
              kWithin_mm);
  EXPECT_NEAR(clearance_to_tube(body, straight(4.0, -12.0)).distance_mm,
              std::sqrt(1.75 * 1.75 + 4.0) - 1.275, kWithin_mm);
  // Into the canal: the axis of the canal lies inside the body.
  EXPECT_NEAR(clearance_to_tube(body, straight(0.0, -9.5)).distance_mm, -0.5 - 1.275, kWithin_mm);
}

TEST(Clearance, TorusRoundTheAxisAndTorusUnderTheTip) {
  const RevolvedBody body = implant_at_origin();
  const Vec3 x(1.0, 0.0, 0.0);
  const Vec3 y(0.0, 1.0, 0.0);
  const Vec3 z(0.0, 0.0, 1.0);
  const Tube level = ring({0.0, 0.0, -13.0}, x, y, 6.0, 1.2);
  EXPECT_NEAR(clearance_to_tube(body, level).distance_mm, std::sqrt(3.75 * 3.75 + 9.0) - 1.2,
              kWithin_mm);
  const Tube upright = ring({0.0, 1.0, -34.0}, x, z, 20.0, 1.2);
  EXPECT_NEAR(clearance_to_tube(body, upright).distance_mm, 4.0 - 1.2, kWithin_mm);
  // Beside and below: least over the circle of the closed form.
  const Tube aside = ring({1.0, 4.4, -30.0}, x, z, 18.0, 1.2);
  double least = 1e9;
  for (int i = 0; i < 200000; ++i) {
    const math::SinCos at = math::sincos(2.0 * math::kPi * i / 200000.0);
    least = std::min(
        least, cylinder_mm(2.25, 10.0, Vec3(1.0 + 18.0 * at.cos, 4.4, -30.0 + 18.0 * at.sin)));
  }
  EXPECT_NEAR(clearance_to_tube(body, aside).distance_mm, least - 1.2, kWithin_mm);
}

TEST(Clearance, DrillPointCountsBeyondTheImplant) {
  const RevolvedBody implant = implant_at_origin();
  RevolvedBody drill = implant;
  drill.radius_mm = 2.0;
  drill.point_mm = 1.2;
  const Tube canal{{Vec3(-20.0, 0.0, -14.0), Vec3(20.0, 0.0, -14.0)}, 1.2, 0.0};
  EXPECT_NEAR(clearance_to_tube(implant, canal).distance_mm, 2.8, kWithin_mm);
  EXPECT_NEAR(clearance_to_tube(drill, canal).distance_mm, 1.6, kWithin_mm);
}

TEST(Clearance, BetweenTwoImplants) {
  const RevolvedBody one = implant_at_origin();
  RevolvedBody two = one;
  two.top_mm = {7.5, 0.0, 0.0};
  EXPECT_NEAR(clearance_between(one, two).distance_mm, 3.0, kWithin_mm);
  // Leaning toward the first by 10 degrees: its lower edge is nearest.
  const math::SinCos lean = math::sincos(math::Radians(math::Degrees(10.0)).value);
  two.down_unit = {-lean.sin, 0.0, -lean.cos};
  const double low_edge = 7.5 - 10.0 * lean.sin - 2.25 * lean.cos;
  EXPECT_NEAR(clearance_between(one, two).distance_mm, low_edge - 2.25, kWithin_mm);
}

// A straight ridge: the plate beside an upright implant is the side's position less the radius.
TEST(Clearance, PlatesOfAStraightRidge) {
  specimen::JawSpec spec = typical_jaw(specimen::JawRegion::kPosteriorMandible);
  spec.teeth.clear();
  spec.ridge.undercut_depth_mm = 0.0;
  spec.ridge.crest_width_mm = 9.0;
  spec.ridge.upper_width_mm = spec.ridge.body_width_mm = spec.ridge.base_width_mm =
      9.0 / std::sqrt(0.75);
  const specimen::Jaw jaw(spec);
  RevolvedBody body = implant_at_origin();
  body.top_mm = {0.0, 0.5, -1.0};
  const std::array<RevolvedBody, 1> bodies{body};
  const auto all = clearances(jaw, bodies);
  const auto of = [&](specimen::Structure structure) {
    return std::find_if(all.begin(), all.end(),
                        [&](const auto& one) { return one.structure == structure; })
        ->distance_mm;
  };
  const double half = 4.5 / std::sqrt(0.75);
  EXPECT_NEAR(of(specimen::Structure::kFacialPlate), half + 0.5 - 2.25, kWithin_mm);
  EXPECT_NEAR(of(specimen::Structure::kLingualPlate), half - 0.5 - 2.25, kWithin_mm);
  // The base is half an ellipse: its lowest quarter turn on each side of the middle.
  const double cap = std::min(0.45 * 2.0 * half, 0.25 * spec.ridge.height_mm);
  double base = 1e9;
  for (double turn = -45.0; turn <= 45.0; turn += 0.05) {
    const math::SinCos at = math::sincos(math::Radians(math::Degrees(turn)).value);
    base = std::min(base, cylinder_mm(2.25, 10.0,
                                      Vec3(0.0, half * at.sin - 0.5,
                                           1.0 - spec.ridge.height_mm + cap - cap * at.cos)));
  }
  EXPECT_NEAR(of(specimen::Structure::kBase), base, kWithin_mm);
}

// A hair's breadth of the implant never moves a clearance by more than a hair's breadth: also where
// the nearest place of a plate lies at the limit of what counts.
TEST(Clearance, FollowsTheBodyWithoutJumps) {
  constexpr double kNudge_mm = 1e-6;
  base::Rng rng(23);
  for (const auto region :
       {specimen::JawRegion::kPosteriorMandible, specimen::JawRegion::kAnteriorMandible,
        specimen::JawRegion::kPosteriorMaxilla, specimen::JawRegion::kAnteriorMaxilla}) {
    const specimen::Jaw jaw(typical_jaw(region));
    for (int i = 0; i < 6; ++i) {
      RevolvedBody body = implant_at_origin();
      const double x = rng.uniform(-0.5, 0.5);
      const double y = rng.uniform(-0.5, 0.5);
      body.top_mm = {x, y, -0.3};
      const double lean_x = rng.uniform(-0.12, 0.12);
      const double lean_y = rng.uniform(-0.12, 0.12);
      body.down_unit = math::unit(Vec3(lean_x, lean_y, -1.0));
      RevolvedBody nudged = body;
      nudged.top_mm += Vec3(kNudge_mm, -kNudge_mm, kNudge_mm);
      const auto was = clearances(jaw, std::array<RevolvedBody, 1>{body});
      const auto is = clearances(jaw, std::array<RevolvedBody, 1>{nudged});
      ASSERT_EQ(was.size(), is.size());
      for (std::size_t k = 0; k < was.size(); ++k) {
        EXPECT_NEAR(was[k].distance_mm, is[k].distance_mm, 0.001)
            << specimen::name_of(was[k].structure) << ", body " << i;
      }
    }
  }
}

TEST(Clearance, BoneAlongEndsAtTheRoofOfTheCanal) {
  specimen::JawSpec spec = typical_jaw(specimen::JawRegion::kPosteriorMandible);
  spec.canal->sag_mm = spec.canal->rise_deg = spec.canal->drift_deg = 0.0;
  const specimen::Jaw jaw(spec);
  const Vec3 start(0.0, spec.canal->lateral_mm, 0.0);
  const auto bone = bone_along(jaw, start, {0.0, 0.0, -1.0});
  EXPECT_EQ(bone.ends_at, "canal");
  EXPECT_NEAR(bone.length_mm, spec.canal->depth_mm, 0.05);
}

TEST(Clearance, AnImplantLongerThanTheBoneIsNamed) {
  const specimen::Jaw jaw(typical_jaw(specimen::JawRegion::kPosteriorMaxilla));
  RevolvedBody body = implant_at_origin();
  const auto problem = plan_problem(jaw, body);
  ASSERT_TRUE(problem.has_value());
  EXPECT_NE(problem->find("longer than the bone"), std::string::npos) << *problem;
  EXPECT_NE(problem->find("sinus"), std::string::npos) << *problem;
  body.length_mm = 6.0;
  EXPECT_FALSE(plan_problem(jaw, body).has_value());
  body.top_mm = {0.0, -15.0, 0.0};
  EXPECT_NE(plan_problem(jaw, body)->find("beside the bone"), std::string::npos);
}

}  // namespace
}  // namespace driftbench
