// Replay: an honest record repeats bit for bit, and every kind of edit is found and named.
#include "session/replay.h"

#include "support/sample_attempt.h"

#include "record/attempt.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace driftbench::session {
namespace {

/// A short real attempt in a small coarse block: pilot on, pressed for a second, done.
record::AttemptFile recorded() {
  lesson::AttemptSetup setup = support::sample_attempt().setup;
  setup.block.edge_mm = 12.0;
  setup.block.voxel_mm = 0.4;
  base::Result<Session> session = Session::create(setup);
  EXPECT_TRUE(session.has_value()) << (session ? "" : session.error().message);
  const auto give = [&](record::Op op, std::array<std::int32_t, record::kMaxArguments> arguments) {
    const base::Result<void> taken = session->submit({op, arguments});
    EXPECT_TRUE(taken.has_value()) << (taken ? "" : taken.error().message);
  };
  give(record::Op::kTakeDrill, {1, 0});
  give(record::Op::kMotor, {1200});
  session->advance(400);
  give(record::Op::kHand, {150, -100, 10000, 0, 14000});
  session->advance(1700);
  give(record::Op::kHand, {150, -100, 10000, 0, 0});
  give(record::Op::kLift, {1});
  for (int i = 0; i < 100 && !session->view().is_out; ++i) {
    session->advance(50);
  }
  give(record::Op::kFinish, {});
  session->advance(10);

  record::AttemptFile file;
  file.attempt = session->record();
  file.attempt.attempt_id = "00112233445566778899aabbccddeeff";
  file.stated = record::digest_chain(file.attempt);
  return file;
}

ReplayReport replayed(const record::AttemptFile& file, std::int64_t portion = 1000) {
  base::Result<Replay> replay = Replay::start(file);
  EXPECT_TRUE(replay.has_value()) << (replay ? "" : replay.error().message);
  while (replay->advance(portion)) {
  }
  EXPECT_EQ(replay->progress(), 1.0);
  return replay->report();
}

bool names(const ReplayReport& report, const std::string& words) {
  return std::any_of(report.reasons.begin(), report.reasons.end(), [&](const std::string& reason) {
    return reason.find(words) != std::string::npos;
  });
}

TEST(Replay, RepeatsARecordBitForBitInPortionsOfAnySize) {
  const record::AttemptFile file = recorded();
  ASSERT_TRUE(file.attempt.results.has_value());
  EXPECT_GE(file.attempt.state_hashes.size(), 3U);
  for (const std::int64_t portion :
       {std::int64_t{7}, std::int64_t{1000}, std::int64_t{1'000'000}}) {
    const ReplayReport report = replayed(file, portion);
    EXPECT_TRUE(report.equal) << (report.reasons.empty() ? "" : report.reasons[0]);
    EXPECT_EQ(report.first_difference_step, -1);
    EXPECT_EQ(report.engine, kEngine);
  }
}

TEST(Replay, RepeatsARecordThatWentThroughAFile) {
  const auto again = record::read_attempt(record::write_attempt(recorded().attempt), "x");
  ASSERT_TRUE(again.value.has_value()) << again.first_error();
  const ReplayReport report = replayed(*again.value);
  EXPECT_TRUE(report.equal) << (report.reasons.empty() ? "" : report.reasons[0]);
}

TEST(Replay, FindsAnEditedCommandEvenUnderANewDigestChain) {
  record::AttemptFile file = recorded();
  file.attempt.trace[2].command.arguments[0] += 300;
  EXPECT_TRUE(names(replayed(file), "the trace does not match its digest"));
  file.stated = record::digest_chain(file.attempt);
  const ReplayReport report = replayed(file);
  EXPECT_FALSE(report.equal);
  EXPECT_EQ(report.first_difference_step, 1000) << "the first hash after the command of step 400";
  EXPECT_TRUE(names(report, "state hash: recorded"));
  EXPECT_FALSE(names(report, "digest"));
}

TEST(Replay, FindsAnEditedResultEvenUnderANewDigestChain) {
  record::AttemptFile file = recorded();
  file.attempt.results->process.peak_side_n += 1e-12;
  file.stated = record::digest_chain(file.attempt);
  const ReplayReport report = replayed(file);
  EXPECT_FALSE(report.equal);
  EXPECT_EQ(report.first_difference_step, -1) << "the course is the same";
  EXPECT_TRUE(names(report, "peak_side_n: recorded"));
}

TEST(Replay, FindsAnEditedHashAnEditedEndAndARefusedCommand) {
  record::AttemptFile file = recorded();
  file.attempt.state_hashes[1].hash ^= 1U;
  EXPECT_EQ(replayed(file).first_difference_step, file.attempt.state_hashes[1].step);

  file = recorded();
  file.attempt.end_step += 100;
  EXPECT_TRUE(names(replayed(file), "the record ends at step"));

  file = recorded();
  file.attempt.trace[0].command.arguments[0] = 99;
  EXPECT_TRUE(names(replayed(file), "the command of step 0 is refused"));
}

TEST(Replay, DoesNotStartForAnotherEngine) {
  record::AttemptFile file = recorded();
  file.attempt.engine = kEngine + 1;
  const auto replay = Replay::start(file);
  ASSERT_FALSE(replay.has_value());
  EXPECT_EQ(replay.error().code, base::ErrorCode::kUnsupported);
  EXPECT_NE(replay.error().message.find("recorded by engine"), std::string::npos);
}

TEST(Replay, ReportBeforeTheEndSaysSo) {
  base::Result<Replay> replay = Replay::start(recorded());
  ASSERT_TRUE(replay.has_value());
  EXPECT_TRUE(replay->advance(100));
  EXPECT_GT(replay->progress(), 0.0);
  EXPECT_LT(replay->progress(), 1.0);
  EXPECT_FALSE(replay->report().equal);
}

}  // namespace
}  // namespace driftbench::session
