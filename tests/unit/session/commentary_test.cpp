// Remarks on watched attempts: each stands where its evidence stands in the trace, and none without
// it.
#include "session/commentary.h"

#include "support/shipped.h"

#include "lesson/instruments.h"
#include "session/virtual_operator.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace driftbench::session {
namespace {

const OperatorProfile& expert() {
  static const OperatorProfile profile =
      *read_operator(support::read_file("assets/operators/expert.json"), "expert.json").value;
  return profile;
}

/// A block of the shipped lesson, worked through by the expert once for all tests.
const Session& watched(std::size_t block) {
  static std::map<std::size_t, Session> sessions;
  if (sessions.find(block) == sessions.end()) {
    auto practice = Practice::start(support::shipped_setup(block), expert(), 5);
    while (practice->advance(10'000)) {
    }
    sessions.emplace(block, practice->take_session());
  }
  return sessions.at(block);
}

const Remark* find(const std::vector<Remark>& remarks, RemarkKind kind) {
  const auto found = std::find_if(remarks.begin(), remarks.end(),
                                  [kind](const Remark& remark) { return remark.kind == kind; });
  return found == remarks.end() ? nullptr : &*found;
}

std::size_t count_of(const std::vector<Remark>& remarks, RemarkKind kind) {
  return static_cast<std::size_t>(
      std::count_if(remarks.begin(), remarks.end(),
                    [kind](const Remark& remark) { return remark.kind == kind; }));
}

TEST(Commentary, RemarksAreFewInOrderOfTimeAndEndWithTheAttempt) {
  for (const std::size_t block : {0U, 1U}) {
    const Session& session = watched(block);
    const std::vector<Remark> remarks = comment(session);
    EXPECT_GE(remarks.size(), 6U);
    EXPECT_LE(remarks.size(), 14U);
    for (std::size_t i = 1; i < remarks.size(); ++i) {
      EXPECT_LE(remarks[i - 1].step, remarks[i].step);
    }
    EXPECT_EQ(remarks.back().kind, RemarkKind::kEnds);
    EXPECT_EQ(remarks.back().step, session.view().step);
  }
}

TEST(Commentary, TheFirstTouchIsTheFirstSampleInContact) {
  const Session& session = watched(0);
  const auto samples = session.view().samples;
  const auto first = std::find_if(samples.begin(), samples.end(),
                                  [](const auto& sample) { return sample.in_contact; });
  ASSERT_NE(first, samples.end());
  const std::vector<Remark> remarks = comment(session);
  const Remark* touch = find(remarks, RemarkKind::kTouches);
  ASSERT_NE(touch, nullptr);
  EXPECT_EQ(touch->step, first->step);
  EXPECT_EQ(touch->amount, first->press_n);
  EXPECT_GE(touch->second, touch->amount);
}

/// Speed that the motor was last told, as it acts at a step.
std::int32_t rpm_at(const Session& session, std::int64_t step) {
  std::int32_t rpm = 0;
  for (const record::TraceEntry& entry : session.trace()) {
    if (entry.step < step && entry.command.op == record::Op::kMotor) {
      rpm = entry.command.arguments[0];
    }
  }
  return rpm;
}

TEST(Commentary, ATouchIsAtRestExactlyWhenTheMotorIsOff) {
  for (const std::size_t block : {0U, 1U}) {
    const Session& session = watched(block);
    const std::vector<Remark> remarks = comment(session);
    const Remark* turning = find(remarks, RemarkKind::kTouches);
    const Remark* resting = find(remarks, RemarkKind::kTouchesAtRest);
    ASSERT_NE(turning == nullptr, resting == nullptr) << "one of the two";
    EXPECT_EQ(resting != nullptr,
              rpm_at(session, (turning != nullptr ? turning : resting)->step) == 0);
  }
}

TEST(Commentary, AGuidedDrillIsSeatedFirstAndNamesItsStop) {
  const std::vector<Remark> remarks = comment(watched(1));
  const Remark* seat = find(remarks, RemarkKind::kSeatsGuide);
  ASSERT_NE(seat, nullptr);
  EXPECT_GE(seat->count, 1);
  EXPECT_LT(seat->amount, 0.1) << "this operator closes every window";
  const Remark* drill = find(remarks, RemarkKind::kTakesDrill);
  ASSERT_NE(drill, nullptr);
  // 10 mm, gap 3.5, sleeve 4.5, collar 1.5 of the narrow key.
  EXPECT_NEAR(drill->amount, 19.5, 1e-9);
  EXPECT_LE(seat->step, drill->step);
}

TEST(Commentary, EveryDrillChangeIsACommandOfTheTrace) {
  const Session& session = watched(0);
  for (const Remark& remark : comment(session)) {
    if (remark.kind != RemarkKind::kTakesDrill) {
      continue;
    }
    EXPECT_TRUE(std::any_of(session.trace().begin(), session.trace().end(), [&](const auto& entry) {
      return entry.step == remark.step && entry.command.op == record::Op::kTakeDrill &&
             entry.command.arguments[0] == remark.drill_index;
    }));
  }
}

TEST(Commentary, TheDepthIsTheDeepestThatTheMeasuresFound) {
  const Session& session = watched(0);
  const std::vector<Remark> remarks = comment(session);
  double deepest_mm = -100.0;
  for (const Remark& remark : remarks) {
    if (remark.kind == RemarkKind::kReachesDepth) {
      deepest_mm = std::max(deepest_mm, remark.amount + session.setup().plan.depth_mm);
      EXPECT_EQ(remark.count, 1) << "this operator does not lift in between";
      EXPECT_GT(remark.second, 0.5);
    }
  }
  EXPECT_EQ(count_of(remarks, RemarkKind::kReachesDepth), 2U) << "first and last drill";
  // Drills between them may have gone deeper.
  EXPECT_LE(deepest_mm, session.measure().process.deepest_shoulder_mm + 0.02);
  EXPECT_GT(deepest_mm, session.measure().process.deepest_shoulder_mm - 0.5);
}

TEST(Commentary, ThePressBeforeTheDepthIsLowerThanTheUsualOne) {
  const std::vector<Remark> remarks = comment(watched(1));
  const Remark* eased = find(remarks, RemarkKind::kEasesOff);
  ASSERT_NE(eased, nullptr) << "the expert eases over the last stretch";
  EXPECT_LT(eased->second, 0.75 * eased->amount);
  EXPECT_GT(eased->depth_mm, 0.0);
  EXPECT_LE(eased->depth_mm, 2.5);
}

TEST(Commentary, LayersAndPushesComeOnlyFromTheirMoments) {
  for (const std::size_t block : {0U, 1U}) {
    const Session& session = watched(block);
    const std::vector<scoring::Moment> moments = session.explain();
    const auto has = [&](scoring::MomentKind kind) {
      return std::any_of(moments.begin(), moments.end(),
                         [kind](const auto& moment) { return moment.kind == kind; });
    };
    const std::vector<Remark> remarks = comment(session);
    EXPECT_EQ(count_of(remarks, RemarkKind::kMeetsHarder),
              has(scoring::MomentKind::kHarder) ? 1U : 0U);
    EXPECT_EQ(count_of(remarks, RemarkKind::kMeetsSofter),
              has(scoring::MomentKind::kSofter) ? 1U : 0U);
    const bool is_pushed =
        has(scoring::MomentKind::kSideForce) || has(scoring::MomentKind::kGuideCarries);
    EXPECT_EQ(
        count_of(remarks, RemarkKind::kSidePush) + count_of(remarks, RemarkKind::kGuideCarries),
        is_pushed ? 1U : 0U);
  }
}

TEST(Commentary, AnAttemptInWhichNothingTouchedHasNothingToSayButItsEnd) {
  auto session = Session::create(support::shipped_setup(0));
  ASSERT_TRUE(session.has_value());
  ASSERT_TRUE(session->submit({record::Op::kFinish, {}}).has_value());
  session->advance(10);
  const std::vector<Remark> remarks = comment(*session);
  ASSERT_EQ(remarks.size(), 1U);
  EXPECT_EQ(remarks[0].kind, RemarkKind::kEnds);
}

}  // namespace
}  // namespace driftbench::session
