// The shipped kit and the rules that keep a kit honest.
#include "support/edit_text.h"
#include "support/read_file.h"

#include "lesson/kit_json.h"
#include "lesson/lesson.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace driftbench::lesson {
namespace {

constexpr const char* kKitPath = "assets/kits/bench.kit.json";

specimen::Kit shipped_kit() {
  return read_kit(support::read_file(kKitPath), kKitPath).value.value_or(specimen::Kit{});
}

TEST(Kit, ShippedFileReadsWithoutAnyFinding) {
  const auto outcome = read_kit(support::read_file(kKitPath), kKitPath);
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  EXPECT_TRUE(outcome.problems.empty());
  EXPECT_EQ(outcome.value->drills.size(), 6U);
  EXPECT_EQ(outcome.value->keys.size(), 4U);
}

TEST(Kit, WritingAndReadingGivesTheSameKitAndTheSameBytes) {
  const std::string text = write_kit(shipped_kit());
  const auto again = read_kit(text, "again");
  ASSERT_TRUE(again.value.has_value()) << again.first_error();
  EXPECT_EQ(*again.value, shipped_kit());
  EXPECT_EQ(write_kit(*again.value), text);
  EXPECT_EQ(text, support::read_file(kKitPath));
}

TEST(Kit, AnOlderKitWithoutAThreadReadsAndIsWrittenWithoutOne) {
  specimen::Kit kit = shipped_kit();
  ASSERT_TRUE(kit.implants.front().thread.has_value());
  kit.implants.front().thread.reset();
  const std::string text = write_kit(kit);
  EXPECT_EQ(text.find("thread"), std::string::npos);
  const auto again = read_kit(text, "old");
  ASSERT_TRUE(again.value.has_value()) << again.first_error();
  EXPECT_EQ(*again.value, kit);
}

TEST(Kit, AThreadThatDoesNotFitItsImplantIsRefused) {
  for (const char* spoiled : {"\"core_diameter_mm\": 4.6", "\"core_diameter_mm\": 1.0"}) {
    const std::string text =
        support::with(support::read_file(kKitPath), "\"core_diameter_mm\": 3.6", spoiled);
    const auto outcome = read_kit(text, "spoiled");
    EXPECT_FALSE(outcome.value.has_value());
    EXPECT_NE(outcome.first_error().find("thread"), std::string::npos) << outcome.first_error();
  }
}

/// The shipped kit's text with a collar on its pilot, whose key has this bore.
std::string with_collar(double diameter_mm, double length_mm, double key_bore_mm = 2.9) {
  specimen::Kit kit = shipped_kit();
  kit.drills[1].collar_diameter_mm = diameter_mm;
  kit.drills[1].collar_length_mm = length_mm;
  kit.keys.front().bore_mm = key_bore_mm;
  return write_kit(kit);
}

TEST(Kit, ACollarOfTheShankIsReadAndWritten) {
  const auto outcome = read_kit(with_collar(2.7, 9.0), "k");
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  EXPECT_TRUE(outcome.problems.empty());
  EXPECT_EQ(outcome.value->drills[1].collar_diameter_mm, 2.7);
  EXPECT_EQ(outcome.value->drills[1].collar_length_mm, 9.0);
  EXPECT_EQ(outcome.value->drills[2].collar_length_mm, 0.0);
  const auto again = read_kit(write_kit(*outcome.value), "again");
  ASSERT_TRUE(again.value.has_value()) << again.first_error();
  EXPECT_EQ(*again.value, *outcome.value);
}

TEST(Kit, ACollarThatCannotGuideIsRefused) {
  const auto first_error = [](const std::string& text) {
    const auto outcome = read_kit(text, "k");
    EXPECT_FALSE(outcome.value.has_value());
    return outcome.value ? std::string() : outcome.first_error();
  };
  EXPECT_NE(first_error(with_collar(1.9, 9.0))
                .find("drills[1].collar.diameter_mm: found 1.9 mm, expected at least the 2 mm"),
            std::string::npos);
  EXPECT_NE(first_error(with_collar(2.7, 29.0)).find("drills[1].collar.length_mm: found 29 mm"),
            std::string::npos);
  EXPECT_NE(first_error(with_collar(2.7, 9.0, 2.6))
                .find("keys[0].bore_mm: found 2.6 mm, expected more than the 2.7 mm"),
            std::string::npos);
  EXPECT_NE(first_error(support::with(with_collar(2.7, 9.0), ", \"length_mm\": 9}", "}"))
                .find("drills[1].collar: found no field \"length_mm\""),
            std::string::npos);
}

// Geometry: height of a cone of 118 degrees is (d/2)/tan(59 deg): 0.601, 0.811, 1.021, 1.202 mm.
TEST(Kit, PrintedTipLengthsAreThoseOfA118DegreePoint) {
  const double printed[] = {0.6, 0.8, 1.0, 1.2};
  int twist_count = 0;
  for (const specimen::Drill& drill : shipped_kit().drills) {
    if (drill.kind == specimen::DrillKind::kTwist) {
      EXPECT_EQ(drill.point_angle_deg, 118.0);
      EXPECT_EQ(drill.tip_length_mm, printed[twist_count++]);
      const double height_mm = drill.diameter_mm / 2.0 / std::tan(59.0 * 3.14159265358979 / 180.0);
      EXPECT_NEAR(drill.tip_length_mm, height_mm, 0.05);
    }
  }
  EXPECT_EQ(twist_count, 4);
}

// Teaching rule: implant + gap + sleeve + collar; 10 + 3.5 + 4.5 + 1.5 = 19.5 and with 2.5 = 20.5.
TEST(Kit, HasTheDrillLengthThatEveryKeyAsksFor) {
  const specimen::Kit kit = shipped_kit();
  for (const specimen::Key& key : kit.keys) {
    const double needed_mm = 10.0 + 3.5 + kit.sleeves[0].height_mm + key.collar_mm;
    for (const specimen::Drill& drill : kit.drills) {
      if (drill.id == key.drill_id) {
        const auto& stops = drill.stop_lengths_mm;
        EXPECT_NE(std::find(stops.begin(), stops.end(), needed_mm), stops.end()) << key.id;
        EXPECT_GE(drill.body_length_mm, needed_mm) << "the key must ride on the full diameter";
      }
    }
  }
}

TEST(Kit, UnknownFieldIsAWarningWithItsPlace) {
  const std::string text =
      support::with(support::read_file(kKitPath), "\"name\"", "\"colour\": \"red\",\n  \"name\"");
  const auto outcome = read_kit(text, "k");
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  ASSERT_EQ(outcome.problems.size(), 1U);
  EXPECT_EQ(outcome.problems[0].severity, base::Problem::Severity::kWarning);
  EXPECT_EQ(outcome.problems[0].path, "colour");
  EXPECT_EQ(outcome.problems[0].line, 5);
  EXPECT_EQ(outcome.problems[0].column, 3);
}

}  // namespace
}  // namespace driftbench::lesson
