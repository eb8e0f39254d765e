// What virtual operators show: their set-ups are their own, and what is right follows from the
// holes.
#include "lesson/demonstration.h"

#include "support/read_file.h"

#include <gtest/gtest.h>

#include <set>

namespace driftbench::lesson {
namespace {

Lesson shipped(const std::string& id) {
  return read_lesson(support::read_file("lessons/" + id + ".lesson.json"), id).value.value();
}

specimen::Kit bench() {
  return read_kit(support::read_file("assets/kits/bench.kit.json"), "bench").value.value();
}

TEST(Demonstration, AnExampleNeverShowsAChallengeOfTheLearner) {
  const Lesson lesson = shipped("find-the-centre");
  const auto example = example_setup(lesson, bench(), 1, nullptr);
  ASSERT_TRUE(example.has_value());
  for (std::uint64_t attempt = 0; attempt < 40; ++attempt) {
    const auto own = resolve(lesson, bench(), 1, attempt, lesson.seed);
    ASSERT_TRUE(own.has_value());
    EXPECT_NE(example->seed, own->seed);
    EXPECT_EQ(example->plan, own->plan);
    EXPECT_EQ(example->specimen, own->specimen) << "but it is the same task";
  }
  EXPECT_FALSE(example_setup(shipped("what-stayed"), bench(), 0, nullptr).has_value());
}

TEST(Demonstration, NoTwoHolesOfAPredictionDrawTheSame) {
  const Lesson lesson = shipped("mystery-operator");
  std::set<std::uint64_t> seeds;
  const auto holes = static_cast<std::size_t>(lesson.prediction->holes);
  for (std::size_t group = 0; group < lesson.prediction->groups.size(); ++group) {
    for (std::size_t hole = 0; hole < holes; ++hole) {
      const auto setup = prediction_setup(lesson, bench(), group, hole, nullptr);
      ASSERT_TRUE(setup.has_value());
      seeds.insert(setup->seed);
    }
  }
  EXPECT_EQ(seeds.size(), holes * lesson.prediction->groups.size());
  EXPECT_FALSE(prediction_setup(lesson, bench(), 2, 0, nullptr).has_value());
}

std::vector<ShownHole> around(const math::Vec2& middle, double radius) {
  return {{middle + math::Vec2(radius, 0.0), middle, 1.0},
          {middle - math::Vec2(radius, 0.0), middle, 3.0},
          {middle + math::Vec2(0.0, radius), middle, 1.0},
          {middle - math::Vec2(0.0, radius), middle, 3.0}};
}

// Four points at radius r: variance 2 r^2 / 3 in each direction, so spread r sqrt(2/3).
TEST(Demonstration, BiasIsWhereTheMiddleLiesFartherThanTheHolesScatter) {
  const GroupFindings tight = findings_of(around({1.0, 0.0}, 0.3));
  EXPECT_TRUE(tight.is_bias);
  EXPECT_NEAR(tight.entry.bias_mm.x, 1.0, 1e-12);
  EXPECT_NEAR(*tight.entry.spread_mm, 0.3 * std::sqrt(2.0 / 3.0), 1e-12);
  EXPECT_NEAR(tight.apex_rms_mm, 1.0, 1e-12);
  EXPECT_NEAR(tight.mean_angle_deg, 2.0, 1e-12);
  const GroupFindings wide = findings_of(around({0.2, 0.0}, 1.0));
  EXPECT_FALSE(wide.is_bias);
  const std::vector<GroupFindings> groups{wide, tight};
  EXPECT_EQ(widest_of(groups), 1U) << "the apexes lie 0.2 and 1 mm from the plan";
  EXPECT_EQ(widest_of({}), 0U);
  EXPECT_FALSE(findings_of({}).is_bias);
}

}  // namespace
}  // namespace driftbench::lesson
