#include "drilling/guide_body.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace driftbench {
namespace {

using drilling::GuideBody;
using drilling::GuideLoad;

GuideBody placed(std::uint64_t seed) {
  GuideBody body(specimen::Guide{}, seed);
  body.place();
  return body;
}

std::size_t widest(const GuideBody& body) {
  const auto& gaps = body.gap_mm();
  return static_cast<std::size_t>(std::max_element(gaps.begin(), gaps.end()) - gaps.begin());
}

/// Where the gaps are, weighted by their width.
math::Vec2 middle_of_gaps(const GuideBody& body) {
  math::Vec2 sum(0.0);
  double weight = 1e-9;
  for (std::size_t k = 0; k < drilling::kFeet; ++k) {
    sum += body.gap_mm()[k] * body.foot_mm(k);
    weight += body.gap_mm()[k];
  }
  return sum / weight;
}

TEST(GuideBody, ComesToRestUnseated) {
  for (std::uint64_t seed = 1; seed < 20; ++seed) {
    EXPECT_GT(placed(seed).largest_gap_mm(), 0.1) << seed;
  }
}

TEST(GuideBody, GapOverSpanIsTheTilt) {
  // atan(g / S): 0.5 mm over 20 mm tilts by 1.43 degrees (geometry)
  const GuideBody body = placed(4);
  const auto& gap = body.gap_mm();
  const double slope_x = (gap[0] + gap[3] - gap[1] - gap[2]) / (2.0 * 20.0);
  const double slope_y = (gap[0] + gap[1] - gap[2] - gap[3]) / (2.0 * 20.0);
  const math::Vec3 axis = body.sleeve().axis_out_unit;
  EXPECT_NEAR(axis.x / axis.z, -slope_x, 1e-12);
  EXPECT_NEAR(axis.y / axis.z, -slope_y, 1e-12);
}

TEST(GuideBody, PressingOverTheGapsSeatsIt) {
  for (std::uint64_t seed = 1; seed < 20; ++seed) {
    GuideBody body = placed(seed);
    for (int i = 0; i < 2000; ++i) {
      body.advance({.finger_at_mm = middle_of_gaps(body), .finger_n = 45.0});
    }
    EXPECT_LT(body.largest_gap_mm(), 0.05) << seed;
  }
}

TEST(GuideBody, ALightFingerDoesNotSeatIt) {
  GuideBody body = placed(5);
  const auto before = body.gap_mm();
  for (int i = 0; i < 2000; ++i) {
    body.advance({.finger_at_mm = {0.0, 0.0}, .finger_n = 20.0});  // 5 N a foot, 8 N needed
  }
  EXPECT_EQ(body.gap_mm(), before);
}

TEST(GuideBody, PressingOnTheWrongCornerRocksIt) {
  GuideBody body = placed(11);
  const std::size_t open = widest(body);
  const double before = body.gap_mm()[open];
  const math::Vec2 opposite = -1.0 * body.foot_mm(open);
  for (int i = 0; i < 400; ++i) {
    body.advance({.finger_at_mm = 1.2 * opposite, .finger_n = 45.0});
  }
  EXPECT_GT(body.gap_mm()[open], before);
}

TEST(GuideBody, AHeldGuideIsNotJoggedOpenByALightSideForce) {
  GuideBody body = placed(3);
  for (int i = 0; i < 2000; ++i) {
    body.advance({.finger_at_mm = middle_of_gaps(body), .finger_n = 45.0});
  }
  GuideLoad load;
  load.held = true;
  load.drill_force_n = {5.0, 0.0, 0.0};
  load.drill_height_mm = 6.0;
  for (int i = 0; i < 2000; ++i) {
    body.advance(load);
  }
  EXPECT_LT(body.largest_gap_mm(), 0.05);
}

TEST(GuideBody, TheSameSeedRestsTheSameWay) {
  EXPECT_EQ(placed(8).gap_mm(), placed(8).gap_mm());
  EXPECT_NE(placed(8).gap_mm(), placed(9).gap_mm());
}

}  // namespace
}  // namespace driftbench
