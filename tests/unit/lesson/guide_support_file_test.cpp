// The support of a guide from a lesson file to the set-up, and through a record.
#include "support/read_file.h"

#include "lesson/lesson.h"
#include "lesson/specimen_case.h"
#include "specimen/guide_support.h"

#include <gtest/gtest.h>

namespace driftbench::lesson {
namespace {

/// A shipped guided jaw block on another support.
Lesson lesson_on(const specimen::GuideSupport& support) {
  Lesson lesson = read_lesson(support::read_file("lessons/near-the-canal.lesson.json"), "lesson")
                      .value.value_or(Lesson{});
  specimen::Guide guide = specimen::typical_guide(support);
  guide.sleeve_id = lesson.blocks[1].guide->sleeve_id;
  lesson.blocks[1].guide = guide;
  return lesson;
}

base::Result<AttemptSetup> resolved(const Lesson& lesson) {
  const auto kit = read_kit(support::read_file("assets/kits/jaw.kit.json"), "kit").value;
  const auto found = read_specimen(
      support::read_file("assets/specimens/lower-46-low-crest.specimen.json"), "case");
  const SpecimenCase site = found.value.value_or(SpecimenCase{});
  return resolve(lesson, kit.value_or(specimen::Kit{}), 1, 0, std::nullopt, &site);
}

TEST(GuideSupportFile, WhatIsWrittenReadsAgain) {
  Lesson lesson = lesson_on({specimen::SupportKind::kBone, 3, false});
  lesson.blocks[1].guide->mouth_opening_mm = 41.0;
  const std::string text = write_lesson(lesson);
  const auto again = read_lesson(text, "again");
  ASSERT_TRUE(again.value.has_value()) << again.first_error();
  EXPECT_TRUE(again.problems.empty());
  EXPECT_EQ(again.value->blocks[1].guide, lesson.blocks[1].guide);
  EXPECT_EQ(write_lesson(*again.value), text);
}

TEST(GuideSupportFile, ANumberOfTheFileStandsBeforeTheSupports) {
  std::string text = write_lesson(lesson_on({specimen::SupportKind::kTeeth, 0, false}));
  const std::string typical = "\"seat_force_n\": 8";
  ASSERT_NE(text.find(typical), std::string::npos);
  text.replace(text.rfind(typical), typical.size(), "\"seat_force_n\": 5");
  const auto lesson = read_lesson(text, "lesson").value.value_or(Lesson{});
  EXPECT_EQ(lesson.blocks[1].guide->seat_force_n, 5.0);
  EXPECT_EQ(lesson.blocks[1].guide->fit_sd_mm,
            specimen::typical_guide({specimen::SupportKind::kTeeth, 0, false}).fit_sd_mm);
}

TEST(GuideSupportFile, TheJawSaysHowWideTheGuideStands) {
  const auto on_teeth = resolved(lesson_on({specimen::SupportKind::kTeeth, 0, false}));
  const auto on_bone = resolved(lesson_on({specimen::SupportKind::kBone, 3, false}));
  ASSERT_TRUE(on_teeth.has_value()) << on_teeth.error().message;
  ASSERT_TRUE(on_bone.has_value()) << on_bone.error().message;
  EXPECT_GT(on_teeth->guide->foot_span_mm, on_bone->guide->foot_span_mm);
  EXPECT_GE(on_bone->guide->foot_span_mm, 8.0);
  // The places of the feet come along, for the pictures.
  ASSERT_TRUE(on_teeth->guide_seat.has_value() && on_bone->guide_seat.has_value());
  EXPECT_EQ(on_teeth->guide_seat->span_mm, on_teeth->guide->foot_span_mm);
  EXPECT_GT(on_teeth->guide_seat->feet[0].fdi, 0);
  EXPECT_EQ(on_bone->guide_seat->feet[0].fdi, 0);
  Lesson stated = lesson_on({specimen::SupportKind::kTeeth, 0, false});
  stated.blocks[1].guide->foot_span_mm = 20.0;
  EXPECT_EQ(resolved(stated)->guide->foot_span_mm, 20.0);
}

TEST(GuideSupportFile, ASupportThatTheJawCannotGiveIsRefused) {
  const auto refused = resolved(lesson_on({specimen::SupportKind::kMucosa, 0, true}));
  ASSERT_FALSE(refused.has_value());
  EXPECT_EQ(refused.error().message, "The guide rests on the gum, and this case raises a flap.");
}

}  // namespace
}  // namespace driftbench::lesson
