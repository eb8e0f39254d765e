// The shipped course: every lesson is passed by a practised hand and not by a careless one, what
// virtual operators show in it is worth showing, and no result of a learner changes a task.
#include "support/read_file.h"

#include "lesson/demonstration.h"
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

base::Result<lesson::AttemptSetup> setup_of(const lesson::Lesson& lesson, std::size_t block,
                                            std::uint64_t attempt) {
  const auto jaw = case_of(lesson.blocks[block]);
  return lesson::resolve(lesson, kit_of(lesson), block, attempt, lesson.seed,
                         jaw.has_value() ? &*jaw : nullptr);
}

/// The attempt that a step asks for; one that the criterion does not count is not worked out.
lesson::PastAttempt attempt_of(const lesson::Lesson& lesson, const lesson::Step& step,
                               const session::OperatorProfile& profile) {
  const lesson::LessonBlock& block = lesson.blocks[step.block_index];
  if (!counts(lesson, step.block_index)) {
    return {lesson.id, block.id, block.approach, step.attempt_index, 0.0, {}, {}, true};
  }
  const auto setup = setup_of(lesson, step.block_index, step.attempt_index);
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

/// Works the lesson through once; how many of its holes lie inside every tolerance.
int good_ones(const lesson::Lesson& lesson, const session::OperatorProfile& profile) {
  std::vector<lesson::PastAttempt> history;
  for (;;) {
    const lesson::LessonProgress progress = lesson_progress(lesson, lesson.seed, history);
    if (!progress.next.has_value()) {
      EXPECT_TRUE(progress.is_round_done && progress.complete_days.has_value());
      EXPECT_FALSE(progress.is_passed);
      break;
    }
    history.push_back(attempt_of(lesson, *progress.next, profile));
  }
  return static_cast<int>(
      std::count_if(history.begin(), history.end(), [&](const lesson::PastAttempt& attempt) {
        return mark_of(attempt, lesson.tolerance, lesson.criterion).is_good;
      }));
}

// A lesson that compares has no line to pass and says why; care shows in it all the same, and it
// ends.
TEST_P(ShippedLesson, IsPassedByAnExpertAndNotByACarelessNovice) {
  const lesson::Lesson lesson = lesson_in(GetParam());
  if (lesson.criterion.rule != lesson::PassRule::kNone) {
    EXPECT_TRUE(passes(lesson, profile("expert")));
    EXPECT_FALSE(passes(lesson, careless_novice()));
    return;
  }
  EXPECT_FALSE(lesson::text_in(lesson.criterion.standard.source, "en").empty());
  const int with_care = good_ones(lesson, profile("expert"));
  const int without = good_ones(lesson, careless_novice());
  EXPECT_GT(with_care, without);
  EXPECT_GE(with_care, 2);
}

// What is shown first must be worth imitating: inside every tolerance, and nothing touched.
TEST_P(ShippedLesson, ItsWorkedExamplesLieInsideTheTolerance) {
  const lesson::Lesson lesson = lesson_in(GetParam());
  for (std::size_t block = 0; block < lesson.blocks.size(); ++block) {
    if (!lesson.blocks[block].example.has_value()) {
      continue;
    }
    const auto jaw = case_of(lesson.blocks[block]);
    const auto setup =
        lesson::example_setup(lesson, kit_of(lesson), block, jaw.has_value() ? &*jaw : nullptr);
    ASSERT_TRUE(setup.has_value());
    const auto attempt = session::practise_attempt(
        *setup, profile(lesson.blocks[block].example->operator_id), setup->seed);
    ASSERT_TRUE(attempt.has_value() && attempt->results.has_value());
    std::string reasons;
    for (const scoring::Reason& reason : attempt->results->reasons) {
      reasons += " " + reason.measure + " " + std::to_string(reason.found);
    }
    EXPECT_TRUE(attempt->results->inside_tolerance)
        << lesson.id << " " << lesson.blocks[block].id << reasons;
    EXPECT_TRUE(!attempt->results->jaw.has_value() || attempt->results->jaw->events.empty());
  }
}

/// The holes of every group of a prediction, as the app makes them.
std::vector<lesson::GroupFindings> shown_holes(const lesson::Lesson& lesson) {
  std::vector<lesson::GroupFindings> groups;
  for (std::size_t g = 0; g < lesson.prediction->groups.size(); ++g) {
    const session::OperatorProfile who = profile(lesson.prediction->groups[g].operator_id);
    std::vector<lesson::ShownHole> holes;
    for (int hole = 0; hole < lesson.prediction->holes; ++hole) {
      const auto setup = lesson::prediction_setup(lesson, kit_of(lesson), g,
                                                  static_cast<std::size_t>(hole), nullptr);
      EXPECT_TRUE(setup.has_value());
      const auto attempt = session::practise_attempt(*setup, who, setup->seed, {g, 0});
      EXPECT_TRUE(attempt.has_value() && attempt->results->hole.has_value());
      const scoring::Deviation& d = attempt->results->hole->deviation;
      holes.push_back({{d.entry_md_mm, d.entry_bl_mm}, {d.apex_md_mm, d.apex_bl_mm}, d.angle_deg});
    }
    groups.push_back(lesson::findings_of(holes));
    std::cout << "  " << lesson.id << " group " << g << ": entry bias "
              << math::length(groups.back().entry.bias_mm) << " spread "
              << groups.back().entry.spread_mm.value_or(0.0) << " apex "
              << groups.back().apex_rms_mm << " lean " << groups.back().mean_angle_deg << "\n";
  }
  return groups;
}

// A question without a clear answer teaches nothing: the answer must stand out of the holes.
TEST_P(ShippedLesson, ItsPredictionHasAClearAnswer) {
  const lesson::Lesson lesson = lesson_in(GetParam());
  if (!lesson.prediction.has_value()) {
    EXPECT_NE(lesson.id, "mystery-operator");
    return;
  }
  const std::vector<lesson::GroupFindings> groups = shown_holes(lesson);
  if (lesson.prediction->ask == lesson::PredictionAsk::kBiasOrSpread) {
    int biased = 0;
    for (const lesson::GroupFindings& group : groups) {
      const double bias_mm = math::length(group.entry.bias_mm);
      const double share = bias_mm / group.entry.spread_mm.value();
      EXPECT_TRUE(share > 2.0 || share < 0.6) << share;
      biased += group.is_bias ? 1 : 0;
    }
    EXPECT_EQ(biased, 1) << "one of each";
    return;
  }
  const std::size_t widest = lesson::widest_of(groups);
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (g != widest) {
      EXPECT_GT(groups[widest].apex_rms_mm, 1.2 * groups[g].apex_rms_mm);
    }
  }
}

// Nothing gets easier in between: all attempts of a block are the same task, whatever came before;
// only what is drawn in it (the wander of the hand, the gaps under a guide) is new, and it comes
// from seed and number alone.
TEST_P(ShippedLesson, NoTaskIsEasedFromOneAttemptToTheNext) {
  const lesson::Lesson lesson = lesson_in(GetParam());
  for (std::size_t block = 0; block < lesson.blocks.size(); ++block) {
    const auto first = setup_of(lesson, block, 0);
    ASSERT_TRUE(first.has_value());
    for (const std::uint64_t attempt : {1U, 7U, 40U}) {
      auto later = setup_of(lesson, block, attempt);
      ASSERT_TRUE(later.has_value());
      EXPECT_NE(later->seed, first->seed);
      EXPECT_EQ(later->seed, setup_of(lesson, block, attempt)->seed);
      later->seed = first->seed;
      later->attempt_index = first->attempt_index;
      EXPECT_EQ(*later, *first);
    }
  }
}

// Whoever does everything well and whoever fails everything get the same planned tasks, number by
// number.
TEST_P(ShippedLesson, ResultsDoNotChangeWhatIsPlanned) {
  const lesson::Lesson lesson = lesson_in(GetParam());
  std::vector<lesson::PastAttempt> good;
  std::vector<lesson::PastAttempt> bad;
  for (std::size_t place = 0; place < lesson_progress(lesson, lesson.seed, {}).planned; ++place) {
    const auto next = lesson_progress(lesson, lesson.seed, good).next;
    ASSERT_TRUE(next.has_value());
    ASSERT_EQ(next, lesson_progress(lesson, lesson.seed, bad).next) << place;
    const lesson::LessonBlock& block = lesson.blocks[next->block_index];
    EXPECT_EQ(next->show, block.show);
    lesson::PastAttempt attempt{lesson.id, block.id, block.approach, next->attempt_index, 0.0, {},
                                {},        true};
    attempt.errors = lesson::AttemptErrors{};
    good.push_back(attempt);
    attempt.errors = lesson::AttemptErrors{9.0, 9.0, 40.0, 5.0};
    bad.push_back(attempt);
  }
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

// A simulated novice improves through its own learning alone: without it the tenth try is the first
// one, bit for bit; with it the same try has smaller errors of eye and depth.
TEST(Course, ANoviceImprovesOnlyThroughItsOwnLearning) {
  const lesson::Lesson lesson = lesson_in("first-holes.lesson.json");
  const auto setup = setup_of(lesson, 1, 3);
  ASSERT_TRUE(setup.has_value());
  session::OperatorProfile novice = profile("novice");
  ASSERT_GT(novice.learning_rate, 0.0);
  const auto practised = session::practise_attempt(*setup, novice, setup->seed, {0, 9});
  novice.learning_rate = 0.0;
  const auto first = session::practise_attempt(*setup, novice, setup->seed, {0, 0});
  const auto tenth = session::practise_attempt(*setup, novice, setup->seed, {0, 9});
  ASSERT_TRUE(first.has_value() && tenth.has_value() && practised.has_value());
  EXPECT_EQ(first->trace, tenth->trace);
  EXPECT_EQ(first->state_hashes, tenth->state_hashes);
  EXPECT_LT(practised->results->hole->deviation.entry_lateral_mm,
            first->results->hole->deviation.entry_lateral_mm);
}

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
  EXPECT_GE(lessons, 18U);
}

}  // namespace
}  // namespace driftbench
