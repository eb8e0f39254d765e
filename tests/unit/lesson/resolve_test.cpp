// From lesson, kit and attempt number to a complete set-up.
#include "support/read_file.h"

#include "base/random.h"
#include "lesson/lesson.h"
#include "lesson/specimen_case.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::lesson {
namespace {

Lesson shipped_lesson() {
  return read_lesson(support::read_file("lessons/find-the-centre.lesson.json"), "lesson")
      .value.value_or(Lesson{});
}

specimen::Kit shipped_kit() {
  return read_kit(support::read_file("assets/kits/bench.kit.json"), "kit")
      .value.value_or(specimen::Kit{});
}

AttemptSetup resolved(const Lesson& lesson, std::size_t block, std::uint64_t attempt) {
  const auto setup = resolve(lesson, shipped_kit(), block, attempt, std::nullopt);
  EXPECT_TRUE(setup.has_value()) << (setup ? "" : setup.error().message);
  return setup.value_or(AttemptSetup{});
}

TEST(Resolve, GivesEveryPartOfTheSetUp) {
  const Lesson lesson = shipped_lesson();
  const AttemptSetup setup = resolved(lesson, 1, 2);
  EXPECT_EQ(setup.lesson_id, "find-the-centre");
  EXPECT_EQ(setup.lesson_sha256, lesson.sha256);
  EXPECT_EQ(setup.block_id, "through-the-sleeve");
  EXPECT_EQ(setup.approach, specimen::Approach::kSleeve);
  EXPECT_TRUE(setup.guide.has_value());
  EXPECT_EQ(setup.kit, shipped_kit());
  EXPECT_EQ(setup.attempt_index, 2U);
}

// Contract: attempt i of approach a uses split(seed, a, i), a = 0 free-hand, 1 pilot, 2 sleeve.
TEST(Resolve, SeedDependsOnLessonSeedApproachAndIndexOnly) {
  const Lesson lesson = shipped_lesson();
  EXPECT_EQ(resolved(lesson, 0, 5).seed, base::split(lesson.seed, 0, 5));
  EXPECT_EQ(resolved(lesson, 1, 5).seed, base::split(lesson.seed, 2, 5));
  const auto overridden = resolve(lesson, shipped_kit(), 0, 5, 7);
  ASSERT_TRUE(overridden.has_value());
  EXPECT_EQ(overridden->seed, base::split(7, 0, 5));
  EXPECT_EQ(overridden->lesson_seed, 7U);
}

// Teaching rule: in a block, md points along the boundary's normal toward the soft half.
TEST(Resolve, MdPointsTowardTheSofterHalf) {
  Lesson lesson = shipped_lesson();
  for (const double heading_deg : {0.0, 37.5, 90.0, 200.0, -60.0}) {
    lesson.blocks[0].specimen.boundary_deg = heading_deg;
    const double heading_rad = heading_deg * 3.14159265358979323846 / 180.0;
    for (const bool first_is_dense : {true, false}) {
      lesson.blocks[0].specimen.first =
          first_is_dense ? specimen::DensityClass::kD1 : specimen::DensityClass::kD4;
      lesson.blocks[0].specimen.second =
          first_is_dense ? specimen::DensityClass::kD4 : specimen::DensityClass::kD1;
      const double sign = first_is_dense ? 1.0 : -1.0;
      const AttemptSetup setup = resolved(lesson, 0, 0);
      EXPECT_NEAR(setup.plan.md_hint.x, sign * std::cos(heading_rad), 1e-15);
      EXPECT_NEAR(setup.plan.md_hint.y, sign * std::sin(heading_rad), 1e-15);
      EXPECT_EQ(setup.plan.md_hint.z, 0.0);
      // bl = z cross md
      EXPECT_NEAR(setup.plan.bl_hint.x, -setup.plan.md_hint.y, 1e-15);
      EXPECT_NEAR(setup.plan.bl_hint.y, setup.plan.md_hint.x, 1e-15);
    }
  }
}

TEST(Resolve, MdIsTheBlocksXWhereThereIsNoSofterHalf) {
  Lesson lesson = shipped_lesson();
  lesson.blocks[0].specimen.boundary_deg = 30.0;
  for (const auto& second :
       {std::optional<specimen::DensityClass>(), std::optional(lesson.blocks[0].specimen.first)}) {
    lesson.blocks[0].specimen.second = second;
    EXPECT_EQ(resolved(lesson, 0, 0).plan.md_hint, math::Vec3(1.0, 0.0, 0.0));
  }
}

SpecimenCase low_crest() {
  return read_specimen(support::read_file("assets/specimens/lower-46-low-crest.specimen.json"),
                       "case")
      .value.value_or(SpecimenCase{});
}

TEST(Resolve, ALessonMayDrillAPieceOfJaw) {
  Lesson lesson = shipped_lesson();
  lesson.blocks[0].case_id = "lower-46-low-crest";
  lesson.blocks[0].plan.depth_mm = 7.0;
  const SpecimenCase jaw = low_crest();
  const auto setup = resolve(lesson, shipped_kit(), 0, 0, std::nullopt, &jaw);
  ASSERT_TRUE(setup.has_value()) << setup.error().message;
  ASSERT_NE(specimen::jaw_in(setup->specimen), nullptr);
  EXPECT_EQ(*specimen::jaw_in(setup->specimen), jaw);
  EXPECT_EQ(setup->site_name, "46");
  EXPECT_EQ(setup->plan.entry_mm, math::Vec3(0.0)) << "the site frame stands on the plan";
  EXPECT_EQ(setup->plan.depth_mm, 7.0);
  // The file says the same thing.
  const auto again = read_lesson(write_lesson(lesson), "again");
  ASSERT_TRUE(again.value.has_value()) << again.first_error();
  EXPECT_EQ(again.value->blocks[0].case_id, "lower-46-low-crest");
  // A block of foam does not mind that a jaw is at hand.
  EXPECT_EQ(*resolve(lesson, shipped_kit(), 1, 0, std::nullopt, &jaw), resolved(lesson, 1, 0));
}

TEST(Resolve, RefusesAJawThatIsNotThereAndAPlanThatItHasNoRoomFor) {
  Lesson lesson = shipped_lesson();
  lesson.blocks[0].case_id = "lower-46-low-crest";
  EXPECT_EQ(resolve(lesson, shipped_kit(), 0, 0, std::nullopt).error().code,
            base::ErrorCode::kMismatch);
  SpecimenCase jaw = low_crest();
  lesson.blocks[0].plan.depth_mm = 14.0;
  const auto deep = resolve(lesson, shipped_kit(), 0, 0, std::nullopt, &jaw);
  ASSERT_FALSE(deep.has_value());
  EXPECT_NE(deep.error().message.find("canal"), std::string::npos) << deep.error().message;
  jaw.id = "another";
  EXPECT_EQ(resolve(lesson, shipped_kit(), 0, 0, std::nullopt, &jaw).error().code,
            base::ErrorCode::kMismatch);
}

TEST(Resolve, RefusesWhatTheLessonOrTheKitDoesNotHave) {
  const Lesson lesson = shipped_lesson();
  EXPECT_EQ(resolve(lesson, shipped_kit(), 2, 0, std::nullopt).error().code,
            base::ErrorCode::kOutOfRange);
  EXPECT_EQ(resolve(lesson, shipped_kit(), 0, 0, kMaxSeed + 1).error().code,
            base::ErrorCode::kOutOfRange);
  specimen::Kit kit = shipped_kit();
  kit.drills.erase(kit.drills.begin() + 1);
  EXPECT_EQ(resolve(lesson, kit, 0, 0, std::nullopt).error().code, base::ErrorCode::kMismatch);
  kit = shipped_kit();
  kit.keys.pop_back();
  EXPECT_TRUE(resolve(lesson, kit, 0, 0, std::nullopt).has_value()) << "free-hand needs no key";
  const auto without_key = resolve(lesson, kit, 1, 0, std::nullopt);
  ASSERT_FALSE(without_key.has_value());
  EXPECT_NE(without_key.error().message.find("twist-40"), std::string::npos);
  kit = shipped_kit();
  kit.id = "other";
  EXPECT_EQ(resolve(lesson, kit, 0, 0, std::nullopt).error().code, base::ErrorCode::kMismatch);
}

}  // namespace
}  // namespace driftbench::lesson
