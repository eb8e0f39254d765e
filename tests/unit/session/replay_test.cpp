// Replay: an honest record repeats bit for bit, and every kind of edit is found and named.
#include "session/replay.h"

#include "support/read_file.h"
#include "support/sample_attempt.h"

#include "record/attempt.h"
#include "session/attempt_step.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace driftbench::session {
namespace {

/// A short real attempt in a small coarse block: pilot on, pressed for a second, done.
record::AttemptFile make_record() {
  lesson::AttemptSetup setup = support::sample_attempt().setup;
  specimen::block_in(setup.specimen)->edge_mm = 12.0;
  specimen::block_in(setup.specimen)->voxel_mm = 0.4;
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

record::AttemptFile recorded() {
  static const record::AttemptFile file = make_record();
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

// The first hash that differs bounds the step from above, the last equal one from below.
TEST(Replay, SaysBetweenWhichStepsTheCourseParts) {
  const record::AttemptFile honest = recorded();
  for (const std::size_t entry : {std::size_t{1}, std::size_t{2}, std::size_t{3}}) {
    record::AttemptFile file = honest;
    record::TraceEntry& edited = file.attempt.trace[entry];
    edited.command.arguments[0] += edited.command.op == record::Op::kLift ? -1 : 200;
    file.stated = record::digest_chain(file.attempt);
    const ReplayReport report = replayed(file);
    EXPECT_FALSE(report.equal);
    EXPECT_LE(report.last_equal_step, edited.step);
    EXPECT_GT(report.first_difference_step, edited.step);
    EXPECT_LE(report.first_difference_step, edited.step + 2 * kStepsPerHash);
    EXPECT_TRUE(names(report, "the first step that differs is one of")) << entry;
  }
}

TEST(Replay, ARefusedCommandDoesNotHideAnEarlierDifference) {
  record::AttemptFile file = recorded();
  ASSERT_GT(file.attempt.state_hashes.size(), 2U);
  file.attempt.state_hashes[0].hash ^= 1U;
  file.attempt.trace.back().command = {record::Op::kTakeDrill, {99, 0}};
  const ReplayReport report = replayed(file, 1'000'000);
  EXPECT_TRUE(names(report, "is refused"));
  EXPECT_EQ(report.first_difference_step, file.attempt.state_hashes[0].step);
  EXPECT_EQ(report.last_equal_step, 0);
}

TEST(Replay, TellsAChangedHashFromAChangedCourse) {
  record::AttemptFile file = recorded();
  file.attempt.state_hashes[0].hash ^= 1U;
  EXPECT_TRUE(names(replayed(file), "this hash was changed and not the course"));
}

/// Each part of a record, changed; the word that the report must use for it.
TEST(Replay, NamesTheChangedPart) {
  struct Edit {
    const char* part;
    void (*apply)(record::Attempt&);
  };

  const Edit edits[] = {
      {"trace does not match its digest",
       [](record::Attempt& a) { a.trace[1].command.arguments[0] -= 1; }},
      {"trace does not match its digest", [](record::Attempt& a) { a.trace[2].step += 1; }},
      {"results do not match their digest",
       [](record::Attempt& a) { a.results->process.peak_side_n *= 0.5; }},
      {"estimate does not match its digest",
       [](record::Attempt& a) { a.estimate = scoring::SelfEstimate{}; }},
      {"setup does not match its digest", [](record::Attempt& a) { a.setup.hand.mass_kg += 0.01; }},
      {"setup does not match its digest",
       [](record::Attempt& a) { a.operator_name = "someone else"; }}};
  for (const Edit& edit : edits) {
    record::AttemptFile file = recorded();
    edit.apply(file.attempt);
    const ReplayReport report = replayed(file);
    EXPECT_FALSE(report.equal);
    EXPECT_TRUE(names(report, std::string("the ") + edit.part)) << edit.part;
  }
}

TEST(Replay, ARecordOfAnotherEngineIsNotRepeatedAndSaysSo) {
  for (const int engine : {kEngine - 1, kEngine + 1}) {
    record::AttemptFile file = recorded();
    file.attempt.engine = engine;
    file.stated = record::digest_chain(file.attempt);
    base::Result<Replay> replay = Replay::start(file);
    ASSERT_TRUE(replay.has_value());
    EXPECT_FALSE(replay->is_comparable());
    EXPECT_FALSE(replay->advance(1000));
    EXPECT_EQ(replay->session().view().step, 0);
    const ReplayReport report = replay->report();
    EXPECT_FALSE(report.is_comparable);
    EXPECT_FALSE(report.equal);
    EXPECT_EQ(report.engine, engine);
    EXPECT_EQ(report.first_difference_step, -1);
    EXPECT_EQ(report.reasons, std::vector<std::string>{other_engine_words(engine)});
  }
}

TEST(Replay, AnEditedRecordOfAnotherEngineIsStillNamed) {
  record::AttemptFile file = recorded();
  file.attempt.engine = kEngine + 1;
  file.stated = record::digest_chain(file.attempt);
  file.attempt.results->process.time_s -= 1.0;
  const base::Result<Replay> replay = Replay::start(file);
  ASSERT_TRUE(replay.has_value());
  EXPECT_TRUE(names(replay->report(), "the results do not match their digest"));
  EXPECT_TRUE(names(replay->report(), "recorded by engine"));
}

// A file that engine 1 wrote, as it was: whatever fields have been added since, it opens, its
// digests hold and its results can be read.
TEST(Replay, AFileOfTheFirstEngineStaysReadable) {
  static_assert(kEngine != 1, "the file tests nothing while the first engine is in use");
  const std::string text = support::read_file("tests/corpus/engine/1.attempt.json");
  const auto outcome = record::read_attempt(text, "1.attempt.json");
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  EXPECT_EQ(outcome.value->attempt.engine, 1);
  EXPECT_TRUE(record::check_chain(*outcome.value).broken.empty());
  ASSERT_TRUE(outcome.value->attempt.results.has_value());
  ASSERT_TRUE(outcome.value->attempt.results->hole.has_value());
  EXPECT_GT(outcome.value->attempt.results->hole->hole_diameter_mm, 3.9);
  const base::Result<Replay> replay = Replay::start(*outcome.value);
  ASSERT_TRUE(replay.has_value()) << replay.error().message;
  EXPECT_EQ(replay->report().reasons, std::vector<std::string>{other_engine_words(1)});
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
