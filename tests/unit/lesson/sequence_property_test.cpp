// Laws of the sequencing engine over random lessons: whatever an author combines, the learner gets
// every attempt that was planned, none by accident twice, no dead end, and the same challenges for
// the same seed.
#include "unit/lesson/sequence_rig.h"

#include "base/random.h"
#include "lesson/sequence_order.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <set>
#include <utility>

namespace driftbench::lesson {
namespace {

std::size_t below(base::Rng& rng, std::size_t count) {
  return static_cast<std::size_t>(rng.uniform01() * static_cast<double>(count));
}

/// One to five blocks of one to four attempts, any order, any rule, any feedback.
Lesson random_lesson(std::uint64_t seed) {
  base::Rng rng(seed);
  Lesson lesson;
  lesson.id = "random";
  const std::size_t blocks = 1 + below(rng, 5);
  for (std::size_t i = 0; i < blocks; ++i) {
    const int attempts = 1 + static_cast<int>(below(rng, 4));
    const auto approach = static_cast<specimen::Approach>(below(rng, 3));
    lesson.blocks.push_back(block_of("block-" + std::to_string(i), attempts, approach));
    lesson.blocks.back().feedback.kind = static_cast<FeedbackKind>(below(rng, 4));
    lesson.blocks.back().estimate.kind = static_cast<EstimateKind>(below(rng, 4));
  }
  lesson.order.kind = static_cast<OrderKind>(below(rng, 3));
  if (lesson.order.kind == OrderKind::kPermutedBlocks) {
    lesson.blocks.resize(std::min<std::size_t>(lesson.blocks.size(), 2));
    while (lesson.blocks.size() < 2) {
      lesson.blocks.push_back(block_of("arm", 1, specimen::Approach::kSleeve));
    }
    lesson.blocks[1].attempts = lesson.blocks[0].attempts;
  }
  lesson.criterion.rule = static_cast<PassRule>(below(rng, 4));
  lesson.criterion.last = 1 + static_cast<int>(below(rng, 6));
  lesson.criterion.good =
      1 + static_cast<int>(below(rng, static_cast<std::size_t>(lesson.criterion.last)));
  lesson.criterion.cap = std::max(12, lesson.criterion.last);
  if (rng.uniform01() < 0.5) {
    lesson.criterion.blocks = {lesson.blocks[below(rng, lesson.blocks.size())].id};
  }
  return lesson;
}

/// Works until nothing comes next, or two rounds are over; good with probability `skill`.
std::vector<PastAttempt> worked(const Lesson& lesson, std::uint64_t seed, double skill) {
  base::Rng luck(seed * 7 + 1);
  std::vector<PastAttempt> history;
  while (history.size() < 400) {
    const LessonProgress progress = lesson_progress(lesson, seed, history);
    if (!progress.next.has_value() || (progress.is_round_done && progress.round >= 1)) {
      break;
    }
    history.push_back(made(lesson, *progress.next, luck.uniform01() < skill,
                           static_cast<double>(history.size())));
  }
  return history;
}

class RandomLesson : public testing::TestWithParam<double> {};

TEST_P(RandomLesson, EveryPlannedAttemptComesOncePerRoundAndNoChallengeTwice) {
  for (std::uint64_t seed = 0; seed < 150; ++seed) {
    const Lesson lesson = random_lesson(seed);
    const std::vector<PastAttempt> history = worked(lesson, seed, GetParam());
    const LessonProgress progress = lesson_progress(lesson, seed, history);
    ASSERT_LT(history.size(), 400U) << seed << ": no end";
    std::set<std::pair<specimen::Approach, std::uint64_t>> challenges;
    for (const PastAttempt& attempt : history) {
      challenges.insert({attempt.approach, attempt.attempt_index});
    }
    ASSERT_EQ(challenges.size(), history.size()) << seed;
    for (std::uint64_t round = 0; round <= progress.round; ++round) {
      std::map<std::string, int> times;
      std::size_t place_in_round = 0;
      for (const SeenAttempt& seen : progress.attempts) {
        if (seen.round == round && place_in_round < progress.planned) {
          ++times[history[seen.history_index].block_id];
          ++place_in_round;
        }
      }
      if (place_in_round < progress.planned) {
        continue;  // the round has not come to its end
      }
      for (const LessonBlock& block : lesson.blocks) {
        ASSERT_EQ(times[block.id], block.attempts) << seed << " " << block.id;
      }
    }
  }
}

TEST_P(RandomLesson, ThereIsAlwaysAWayOnUntilTheLessonIsComplete) {
  for (std::uint64_t seed = 0; seed < 150; ++seed) {
    const Lesson lesson = random_lesson(seed);
    const std::vector<PastAttempt> history = worked(lesson, seed, GetParam());
    for (std::size_t length = 0; length <= history.size(); ++length) {
      const auto begun = std::span<const PastAttempt>(history).first(length);
      const LessonProgress progress = lesson_progress(lesson, seed, begun);
      ASSERT_EQ(progress.next.has_value(), !progress.complete_days.has_value()) << seed;
      if (progress.next.has_value()) {
        ASSERT_LT(progress.next->block_index, lesson.blocks.size());
      }
      if (length < history.size()) {
        // Taken up here, it goes on with what came.
        ASSERT_EQ(lesson.blocks[progress.next->block_index].id, history[length].block_id);
        ASSERT_EQ(progress.next->attempt_index, history[length].attempt_index);
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Skill, RandomLesson, testing::Values(0.0, 0.5, 0.9, 1.0));

// The engine never eases a task: which block comes, with which challenge and what may be seen
// meanwhile is decided by lesson and seed. Results decide only how many attempts follow the planned
// ones.
TEST(RandomLessons, ResultsDoNotChangeThePlannedChallenges) {
  for (std::uint64_t seed = 0; seed < 150; ++seed) {
    const Lesson lesson = random_lesson(seed);
    std::vector<std::vector<PastAttempt>> histories(3);
    for (std::size_t place = 0;; ++place) {
      std::vector<LessonProgress> now;
      for (const auto& history : histories) {
        now.push_back(lesson_progress(lesson, seed, history));
      }
      if (place >= now[0].planned) {
        break;
      }
      for (std::size_t who = 0; who < histories.size(); ++who) {
        ASSERT_TRUE(now[who].next.has_value());
        ASSERT_EQ(*now[who].next, *now[0].next) << seed << " place " << place;
        ASSERT_EQ(now[who].next->show, lesson.blocks[now[who].next->block_index].show);
        const bool is_good = who == 0 || (who == 1 && place % 2 == 0);
        histories[who].push_back(made(lesson, *now[who].next, is_good));
      }
    }
  }
}

// Two arms of any equal length keep their balance at every place of every round.
TEST(RandomLessons, PermutedBlocksStayBalancedInEveryRound) {
  for (std::uint64_t seed = 0; seed < 100; ++seed) {
    Lesson lesson = two_arms(1 + static_cast<int>(seed % 7));
    lesson.order = {OrderKind::kPermutedBlocks, {}, {2, 4}};
    for (std::uint64_t round = 0; round < 3; ++round) {
      int ahead = 0;
      for (const std::size_t block : planned_order(lesson, seed, round)) {
        ahead += block == 0 ? 1 : -1;
        ASSERT_LE(std::abs(ahead), 2);
      }
      ASSERT_EQ(ahead, 0);
    }
  }
}

}  // namespace
}  // namespace driftbench::lesson
