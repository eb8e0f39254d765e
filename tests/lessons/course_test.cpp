// Every shipped lesson with a criterion is passed by a practised hand and not by a careless one.
#include "support/read_file.h"

#include "lesson/set_sequence.h"
#include "lesson/specimen_case.h"
#include "lesson/standing.h"
#include "record/past_attempt.h"
#include "session/virtual_operator.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <optional>

namespace driftbench {
namespace {

std::vector<std::string> files(const std::string& ending) {
  std::vector<std::string> names;
  const std::filesystem::path folder = std::filesystem::path(DRIFTBENCH_SOURCE_DIR) / "lessons";
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    const std::string name = entry.path().filename().string();
    if (name.ends_with(ending)) {
      names.push_back(name);
    }
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::vector<std::string> lesson_files() {
  return files(".lesson.json");
}

lesson::Lesson lesson_in(const std::string& file) {
  return lesson::read_lesson(support::read_file("lessons/" + file), file).value.value();
}

lesson::LessonSet set_in(const std::string& file) {
  return lesson::read_set(support::read_file("lessons/" + file), file).value.value();
}

specimen::Kit kit_of(const lesson::Lesson& lesson) {
  const std::string file = "assets/kits/" + lesson.kit_id + ".kit.json";
  return lesson::read_kit(support::read_file(file), file).value.value();
}

/// The piece of jaw of a block; nothing for a block of foam.
std::optional<lesson::SpecimenCase> case_of(const lesson::LessonBlock& block) {
  if (block.case_id.empty()) {
    return std::nullopt;
  }
  const std::string file = "assets/specimens/" + block.case_id + ".specimen.json";
  return lesson::read_specimen(support::read_file(file), file).value;
}

session::OperatorProfile profile(const std::string& name) {
  const std::string file = "assets/operators/" + name + ".json";
  return session::read_operator(support::read_file(file), file).value.value();
}

/// The shipped novice without care: aims roughly, leans, presses hard, looks into no window.
session::OperatorProfile careless_novice() {
  session::OperatorProfile careless = profile("novice");
  careless.aim_sd_mm = 2.5;
  careless.lean_sd_deg = 8.0;
  careless.depth_sd_mm = 2.5;
  careless.press_n = 24.0;
  careless.easy_feed_mm_per_s = 80.0;
  careless.seat_care = 0.0;
  careless.guided_side_sd_mm = 2.0;
  careless.guided_lean_sd_deg = 6.0;
  return careless;
}

bool counts(const lesson::Lesson& lesson, std::size_t block) {
  const std::vector<std::string>& named = lesson.criterion.blocks;
  return named.empty() ||
         std::find(named.begin(), named.end(), lesson.blocks[block].id) != named.end();
}

/// The attempt that a step asks for; one that the criterion does not count is not worked out.
lesson::PastAttempt attempt_of(const lesson::Lesson& lesson, const lesson::Step& step,
                               const session::OperatorProfile& profile) {
  const lesson::LessonBlock& block = lesson.blocks[step.block_index];
  if (!counts(lesson, step.block_index)) {
    return {lesson.id, block.id, block.approach, step.attempt_index, 0.0, {}, {}, true};
  }
  const auto jaw = case_of(block);
  const auto setup = lesson::resolve(lesson, kit_of(lesson), step.block_index, step.attempt_index,
                                     lesson.seed, jaw.has_value() ? &*jaw : nullptr);
  EXPECT_TRUE(setup.has_value()) << lesson.id;
  const auto attempt = session::practise_attempt(*setup, profile, setup->seed);
  EXPECT_TRUE(attempt.has_value()) << lesson.id;
  const lesson::PastAttempt past =
      record::past_attempt(*attempt, record::drills_taken(attempt->trace), {}, 0.0);
  if (past.errors.has_value()) {
    std::cout << "  " << lesson.id << " " << block.id << " " << profile.id << ": entry "
              << past.errors->entry_mm << " apex " << past.errors->apex_mm << " angle "
              << past.errors->angle_deg << " depth " << past.errors->depth_mm << "\n";
  }
  return past;
}

/// Works through the first round until it is passed, or cannot be any more, or is over.
bool passes(const lesson::Lesson& lesson, const session::OperatorProfile& profile) {
  std::vector<lesson::PastAttempt> history;
  for (;;) {
    const lesson::LessonProgress progress = lesson_progress(lesson, lesson.seed, history);
    if (progress.evidence.passed_at.has_value()) {
      return true;
    }
    const bool is_lost = lesson.criterion.rule == lesson::PassRule::kAllOf &&
                         !progress.evidence.level.empty() && progress.evidence.level.back() == 0.0;
    if (is_lost || progress.is_round_done || !progress.next.has_value()) {
      return false;
    }
    history.push_back(attempt_of(lesson, *progress.next, profile));
  }
}

class ShippedLesson : public testing::TestWithParam<std::string> {};

TEST_P(ShippedLesson, IsPassedByAnExpertAndNotByACarelessNovice) {
  const lesson::Lesson lesson = lesson_in(GetParam());
  if (lesson.criterion.rule == lesson::PassRule::kNone) {
    GTEST_SKIP() << "asks nobody to pass";
  }
  EXPECT_TRUE(passes(lesson, profile("expert")));
  EXPECT_FALSE(passes(lesson, careless_novice()));
}

TEST_P(ShippedLesson, SaysWhatALearnerNeeds) {
  const lesson::Lesson lesson = lesson_in(GetParam());
  EXPECT_GE(lesson.objectives.size(), 2U);
  EXPECT_GE(lesson.common_mistakes.size(), 2U);
  EXPECT_FALSE(lesson::text_in(lesson.not_taught, "en").empty());
}

INSTANTIATE_TEST_SUITE_P(Course, ShippedLesson, testing::ValuesIn(lesson_files()),
                         [](const auto& param) {
                           std::string name = param.param.substr(0, param.param.find('.'));
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST(Course, HasTwelveLessonsInThreeSetsAndEverySetFits) {
  std::size_t lessons = 0;
  for (const std::string& file : files(".set.json")) {
    const lesson::LessonSet set = set_in(file);
    lessons += set.lessons.size();
    EXPECT_EQ(write_set(set), support::read_file("lessons/" + file));
    std::vector<lesson::Lesson> own;
    for (const lesson::SetEntry& entry : set.lessons) {
      own.push_back(lesson_in(lesson_file(entry)));
      EXPECT_TRUE(misfits(entry, own.back()).empty()) << file << " " << entry.lesson_id;
    }
    const auto progress = set_progress(set, own, {}, 0.0);
    ASSERT_TRUE(progress.has_value()) << file;
    EXPECT_TRUE(progress->next.has_value()) << file << ": nothing to begin with";
  }
  EXPECT_GE(files(".set.json").size(), 3U);
  EXPECT_GE(lessons, 12U);
}

}  // namespace
}  // namespace driftbench
