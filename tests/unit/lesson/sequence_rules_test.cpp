// The rules of the sequencing engine one by one: order, evidence, feedback, estimates, devices.
#include "unit/lesson/sequence_rig.h"

#include "lesson/sequence_order.h"
#include "stats/cusum.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <map>
#include <set>

namespace driftbench::lesson {
namespace {

TEST(SequenceOrder, FixedIsAsInTheFile) {
  EXPECT_EQ(planned_order(two_arms(2), 1, 0), (std::vector<std::size_t>{0, 0, 1, 1}));
}

TEST(SequenceOrder, SameSeedSameOrderAnotherSeedAnotherOne) {
  Lesson lesson = two_arms(8);
  for (const OrderKind kind : {OrderKind::kShuffled, OrderKind::kPermutedBlocks}) {
    lesson.order.kind = kind;
    std::set<std::vector<std::size_t>> seen;
    for (std::uint64_t seed = 0; seed < 50; ++seed) {
      const std::vector<std::size_t> order = planned_order(lesson, seed, 0);
      EXPECT_EQ(order, planned_order(lesson, seed, 0));
      EXPECT_EQ(std::count(order.begin(), order.end(), 0U), 8);
      EXPECT_EQ(std::count(order.begin(), order.end(), 1U), 8);
      seen.insert(order);
      seen.insert(planned_order(lesson, seed, 1));
    }
    EXPECT_GE(seen.size(), 90U) << "of 100 drawn from thousands";
  }
}

TEST(SequenceOrder, OnlyTheNamedBlocksAreMixedAndTheOthersKeepTheirPlace) {
  Lesson lesson = two_arms(6);
  lesson.blocks.insert(lesson.blocks.begin(), block_of("warm", 3, specimen::Approach::kFreehand));
  lesson.blocks.push_back(block_of("keep", 2, specimen::Approach::kFreehand));
  lesson.order = {OrderKind::kShuffled, {"by-hand", "by-sleeve"}, {2, 4}};
  const std::vector<std::size_t> order = planned_order(lesson, 5, 0);
  ASSERT_EQ(order.size(), 17U);
  EXPECT_EQ(std::count(order.begin(), order.begin() + 3, 0U), 3);
  EXPECT_EQ(std::count(order.begin() + 3, order.begin() + 15, 1U), 6);
  EXPECT_EQ(std::count(order.end() - 2, order.end(), 3U), 2);
}

// Law: at every place one arm is ahead by at most half of the longest run; at the end by nothing.
TEST(SequenceOrder, PermutedBlocksAreBalancedAtEveryPlace) {
  for (const std::vector<int>& sizes :
       {std::vector<int>{2}, std::vector<int>{4}, std::vector<int>{2, 4}, std::vector<int>{6, 8}}) {
    const int longest = *std::max_element(sizes.begin(), sizes.end());
    int most = 0;
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
      base::Rng rng(seed);
      int ahead = 0;
      for (const std::size_t arm : balanced_runs(7, sizes, rng)) {
        ahead += arm == 0 ? 1 : -1;
        most = std::max(most, std::abs(ahead));
        ASSERT_LE(std::abs(ahead), longest / 2);
      }
      ASSERT_EQ(ahead, 0);
    }
    EXPECT_EQ(most, longest / 2) << "the bound is reached";
  }
}

// Six orders of a run of four, each expected 1,000 times in 6,000: chi-square of 5 degrees of
// freedom, 20.5 at p = 0.001 (table of the chi-square distribution).
TEST(SequenceOrder, EveryPermutationOfARunIsAsFrequent) {
  std::map<std::vector<std::size_t>, double> counts;
  base::Rng rng(11);
  for (int i = 0; i < 6000; ++i) {
    const std::vector<int> sizes{4};
    counts[balanced_runs(2, sizes, rng)] += 1.0;
  }
  ASSERT_EQ(counts.size(), 6U);
  double chi_square = 0.0;
  for (const auto& [order, count] : counts) {
    chi_square += (count - 1000.0) * (count - 1000.0) / 1000.0;
  }
  EXPECT_LT(chi_square, 20.5);
}

TEST(SequenceEvidence, TheLimitIsInsideAndEveryNamedMeasureMustBe) {
  const scoring::Tolerance tolerance{1.0, 1.5, 5.0, -1.0, 0.5};
  const Criterion criterion;
  const AttemptErrors on_limit{1.0, 1.5, 5.0, 0.5};
  EXPECT_EQ(largest_share(on_limit, tolerance, criterion.measures), 1.0);
  EXPECT_EQ(largest_share({0, 0, 0, -0.5}, tolerance, criterion.measures), 0.5) << "shallow side";
  for (const AttemptErrors& outside :
       {AttemptErrors{1.01, 0, 0, 0}, AttemptErrors{0, 1.51, 0, 0}, AttemptErrors{0, 0, 5.01, 0},
        AttemptErrors{0, 0, 0, 0.51}, AttemptErrors{0, 0, 0, -1.01}}) {
    EXPECT_GT(largest_share(outside, tolerance, criterion.measures), 1.0);
  }
  const std::vector<Measure> only_depth{Measure::kDepth};
  EXPECT_EQ(largest_share({9, 9, 9, 0}, tolerance, only_depth), 0.0);
  const scoring::Tolerance no_depth{1.0, 1.5, 5.0, 0.0, 0.0};
  EXPECT_EQ(largest_share({0, 0, 0, 0}, no_depth, only_depth), 0.0);
  EXPECT_EQ(largest_share({0, 0, 0, 0.1}, no_depth, only_depth),
            std::numeric_limits<double>::infinity());
}

TEST(SequenceEvidence, WhatIsCriticalSpoilsAnAttemptAndWhatIsNotMeasuredIsNotGood) {
  Criterion criterion;
  criterion.never = {CriticalEvent::kPastDepth};
  PastAttempt attempt;
  EXPECT_EQ(mark_of(attempt, {}, criterion), (Mark{false, false}));
  attempt.errors = errors(true);
  EXPECT_EQ(mark_of(attempt, {}, criterion), (Mark{true, false}));
  attempt.events = {CriticalEvent::kPlunge};
  EXPECT_EQ(mark_of(attempt, {}, criterion), (Mark{true, false})) << "not in the list";
  attempt.events.push_back(CriticalEvent::kPastDepth);
  EXPECT_EQ(mark_of(attempt, {}, criterion), (Mark{false, true}));
}

/// Probability of a pass within `cap` attempts that fail with probability `failure`, over every
/// sequence there is.
double pass_probability(const Criterion& criterion, double failure) {
  double sum = 0.0;
  const auto cap = static_cast<std::size_t>(criterion.cap);
  for (unsigned bits = 0; bits < (1U << cap); ++bits) {
    const std::vector<Mark> marks = marks_of(bits, cap);
    if (evidence_of(marks, criterion, cap).passed_at.has_value()) {
      double probability = 1.0;
      for (const Mark& mark : marks) {
        probability *= mark.is_good ? 1.0 - failure : failure;
      }
      sum += probability;
    }
  }
  return sum;
}

// Expected: 3 of the last 3 is a run of 3 successes; the chance of none in 12 trials follows from
// f(n) = q (f(n-1) + p f(n-2) + p^2 f(n-3)), f(0..2) = 1 (Feller, vol. 1, XIII.7). The others: own
// simulation of the rules, two decimals.
TEST(SequenceEvidence, OfLastPassesAsOftenAsCalculated) {
  Criterion criterion;
  criterion.rule = PassRule::kOfLast;
  criterion.cap = 12;
  criterion.good = criterion.last = 3;
  for (const double failure : {0.40, 0.25, 0.15, 0.05}) {
    const double p = 1.0 - failure;
    std::vector<double> none{1.0, 1.0, 1.0};
    for (std::size_t n = 3; n <= 12; ++n) {
      none.push_back(failure * (none[n - 1] + p * none[n - 2] + p * p * none[n - 3]));
    }
    EXPECT_NEAR(pass_probability(criterion, failure), 1.0 - none[12], 1e-12);
  }
  EXPECT_NEAR(pass_probability(criterion, 0.40), 0.78, 0.005) << "a bad rule";
  criterion.good = 4;
  criterion.last = 5;
  EXPECT_NEAR(pass_probability(criterion, 0.40), 0.75, 0.005);
  criterion.good = 8;
  criterion.last = 10;
  EXPECT_NEAR(pass_probability(criterion, 0.40), 0.24, 0.005);
  EXPECT_NEAR(pass_probability(criterion, 0.15), 0.88, 0.005);
}

// Expected: exact distribution of the learning sum (stats::learning_signal_probability, held to
// published values in its own tests); 0.17 and 0.75 for a limit of 2 within 12.
TEST(SequenceEvidence, LearningEvidencePassesAsOftenAsItsExactDistribution) {
  Criterion criterion;
  criterion.rule = PassRule::kLearningEvidence;
  criterion.cap = 12;
  criterion.limit = 2.0;
  for (const auto& [failure, rounded] : {std::pair{0.40, 0.17}, std::pair{0.15, 0.75}}) {
    const double found = pass_probability(criterion, failure);
    EXPECT_NEAR(found, rounded, 0.006);
    const auto exact = stats::learning_signal_probability({0.40, 0.15, 2.0}, failure, 12);
    ASSERT_TRUE(exact.has_value());
    EXPECT_NEAR(found, exact->back(), 1e-12);
  }
}

// ln(0.85 / 0.60) = 0.348, ln(0.15 / 0.40) = -0.981: seven good ones give 2.44, eight give 2.79.
TEST(SequenceEvidence, EightGoodOnesInARowAreEnoughEvidence) {
  Criterion criterion;
  criterion.rule = PassRule::kLearningEvidence;
  const Evidence evidence = evidence_of(std::vector<Mark>(10, mark(true)), criterion, 10);
  ASSERT_EQ(evidence.passed_at, 7U);
  EXPECT_NEAR(evidence.level[0] * 2.5, 0.348, 0.0005);
  EXPECT_EQ(evidence.level[7], 1.0);
  std::vector<Mark> marks(4, mark(true));
  marks.push_back(mark(false));
  EXPECT_NEAR(evidence_of(marks, criterion, 5).level.back() * 2.5, 4 * 0.348 - 0.981, 0.002);
}

// Laws over every sequence of ten: one more good attempt instead of a bad one never lowers the
// evidence and never takes a pass away; a longer history says the same about its beginning.
TEST(SequenceEvidence, IsMonotoneAndNeverLooksBack) {
  for (const PassRule rule : {PassRule::kAllOf, PassRule::kOfLast, PassRule::kLearningEvidence}) {
    Criterion criterion;
    criterion.rule = rule;
    criterion.good = 4;
    criterion.last = 6;
    criterion.limit = 1.5;
    constexpr std::size_t kCount = 10;
    int passes = 0;
    for (unsigned bits = 0; bits < (1U << kCount); ++bits) {
      const Evidence evidence = evidence_of(marks_of(bits, kCount), criterion, kCount);
      passes += evidence.passed_at.has_value() ? 1 : 0;
      for (unsigned better = 0; better < kCount; ++better) {
        const Evidence improved =
            evidence_of(marks_of(bits | (1U << better), kCount), criterion, kCount);
        for (std::size_t i = 0; i < kCount; ++i) {
          ASSERT_GE(improved.level[i] + 1e-12, evidence.level[i]);
        }
        ASSERT_LE(improved.passed_at.value_or(kCount), evidence.passed_at.value_or(kCount));
      }
      const Evidence begun = evidence_of(marks_of(bits, 6), criterion, kCount);
      ASSERT_TRUE(std::equal(begun.level.begin(), begun.level.end(), evidence.level.begin()));
    }
    EXPECT_GT(passes, 0);
    EXPECT_LT(passes, 1 << kCount);
  }
}

TEST(SequenceEvidence, WhatIsCriticalWipesWhatWasShownBefore) {
  Criterion criterion;
  criterion.good = 3;
  criterion.last = 10;
  for (const PassRule rule : {PassRule::kOfLast, PassRule::kLearningEvidence}) {
    criterion.rule = rule;
    criterion.limit = 1.0;
    std::vector<Mark> marks{mark(true), mark(true), {false, true}, mark(true), mark(true)};
    EXPECT_EQ(evidence_of(marks, criterion, 10).level[2], 0.0);
    EXPECT_FALSE(evidence_of(marks, criterion, 10).passed_at.has_value());
    marks.push_back(mark(true));
    EXPECT_EQ(evidence_of(marks, criterion, 10).passed_at, 5U);
  }
}

TEST(SequenceEvidence, NothingCountsBeyondTheCapAndNoRuleNeverPasses) {
  Criterion criterion;
  criterion.rule = PassRule::kOfLast;
  criterion.good = criterion.last = 3;
  criterion.cap = 4;
  std::vector<Mark> marks(6, mark(true));
  marks[1] = mark(false);
  EXPECT_FALSE(evidence_of(marks, criterion, 6).passed_at.has_value());
  EXPECT_EQ(evidence_of(marks, criterion, 6).level.size(), 4U);
  criterion.rule = PassRule::kNone;
  EXPECT_FALSE(evidence_of(marks, criterion, 6).passed_at.has_value());
}

TEST(SequenceFeedback, FadingShowsTheFirstOnesAndThenEverMoreSeldom) {
  std::vector<std::size_t> full;
  for (std::size_t place = 0; place < 20; ++place) {
    if (is_full_turn(place, 2)) {
      full.push_back(place + 1);
    }
  }
  EXPECT_EQ(full, (std::vector<std::size_t>{1, 2, 4, 7, 11, 16}));
  EXPECT_TRUE(is_full_turn(0, 1));
  EXPECT_FALSE(is_full_turn(1, 1));
  EXPECT_TRUE(is_full_turn(2, 1));
}

TEST(SequenceFeedback, EveryPlanShowsWhatItSays) {
  FeedbackPlan plan;
  EXPECT_EQ(shown_after(plan, 3, 6, 0.5), Shown::kEverything);
  plan.kind = FeedbackKind::kFading;
  EXPECT_EQ(shown_after(plan, 2, 6, 0.5), Shown::kInOrOut);
  EXPECT_EQ(shown_after(plan, 3, 6, 0.5), Shown::kEverything);
  plan.between = Between::kNothing;
  EXPECT_EQ(shown_after(plan, 2, 6, 0.5), Shown::kNothing);
  EXPECT_EQ(shown_after(plan, 2, 6, std::nullopt), Shown::kEverything) << "not measured";
  plan.kind = FeedbackKind::kBand;
  plan.band_share = 0.6;
  EXPECT_EQ(shown_after(plan, 2, 6, 0.6), Shown::kNothing);
  EXPECT_EQ(shown_after(plan, 2, 6, 0.61), Shown::kEverything);
  plan.kind = FeedbackKind::kSummary;
  EXPECT_EQ(shown_after(plan, 4, 6, 2.0), Shown::kNothing);
  EXPECT_EQ(shown_after(plan, 4, 6, std::nullopt), Shown::kNothing);
  EXPECT_EQ(shown_after(plan, 5, 6, 0.1), Shown::kEverything);
}

TEST(SequenceFeedback, EstimatesAreAskedForWhenThePlanSaysSo) {
  const auto asked = [](EstimatePlan plan) {
    std::string text;
    for (std::size_t place = 0; place < 7; ++place) {
      text += is_estimate_asked(plan, place, 7) ? 'x' : '-';
    }
    return text;
  };
  EXPECT_EQ(asked({EstimateKind::kEvery, 2}), "xxxxxxx");
  EXPECT_EQ(asked({EstimateKind::kNone, 2}), "-------");
  EXPECT_EQ(asked({EstimateKind::kFirstAndLast, 2}), "x-----x");
  EXPECT_EQ(asked({EstimateKind::kEveryNth, 3}), "x--x--x");
}

TEST(SequenceFeedback, ADeviceIsWelcomeWhenItIsListedAndTheSame) {
  DevicePolicy policy;
  EXPECT_TRUE(is_device_welcome(policy, Device::kTouch, Device::kMouse));
  policy.one_per_lesson = true;
  EXPECT_FALSE(is_device_welcome(policy, Device::kTouch, Device::kMouse));
  EXPECT_TRUE(is_device_welcome(policy, Device::kTouch, std::nullopt));
  policy.allow = {Device::kMouse};
  EXPECT_FALSE(is_device_welcome(policy, Device::kTouch, std::nullopt));
  EXPECT_TRUE(is_device_welcome(policy, Device::kMouse, Device::kMouse));
}

}  // namespace
}  // namespace driftbench::lesson
