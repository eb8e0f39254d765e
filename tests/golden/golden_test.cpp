// The same attempt gives the same bits in every build: g++, clang, sanitizers, WebAssembly.
//
// When the mechanics change on purpose, raise session::kEngine, copy the values that a failing run
// prints, and say in the commit which change moved them.
#include "support/jaw_setup.h"
#include "support/shipped.h"

#include "base/hash64.h"
#include "session/replay.h"

#include <gtest/gtest.h>

namespace driftbench {
namespace {

struct Golden {
  std::size_t block;
  std::uint64_t attempt;
  std::int64_t end_step;
  std::string_view hash;        ///< of the state at the end
  std::string_view first_hash;  ///< at step 1,000
};

constexpr Golden kGoldens[] = {{0, 0, 31140, "8d48e210badf8e56", "7036538480bf8e84"},
                               {1, 0, 49520, "21a58f823d9de4d7", "4fcaf5c243073e48"}};

TEST(Golden, AttemptsEndInTheSameBitsEverywhere) {
  for (const Golden& golden : kGoldens) {
    const auto attempt = session::practise_attempt(
        support::shipped_setup(golden.block, golden.attempt), support::novice(), 42);
    ASSERT_TRUE(attempt.has_value());
    ASSERT_FALSE(attempt->state_hashes.empty());
    const std::string last = base::to_hex16(attempt->state_hashes.back().hash);
    const std::string first = base::to_hex16(attempt->state_hashes.front().hash);
    EXPECT_TRUE(attempt->end_step == golden.end_step && last == golden.hash &&
                first == golden.first_hash)
        << "{" << golden.block << ", " << golden.attempt << ", " << attempt->end_step << ", \""
        << last << "\", \"" << first << "\"}";
  }
}

TEST(Golden, AShortPieceOfWorkInAJawEndsInTheSameBitsEverywhere) {
  const auto session = support::short_jaw_work(support::jaw_setup(46));
  ASSERT_TRUE(session.has_value());
  EXPECT_EQ(base::to_hex16(session->state_hash()), "e6f4149df953e228");
  EXPECT_TRUE(session->measure().jaw.has_value());
}

TEST(Golden, ARecordReplaysToItselfThroughItsFile) {
  const auto attempt =
      session::practise_attempt(support::shipped_setup(0, 1), support::novice(), 42);
  ASSERT_TRUE(attempt.has_value());
  const auto file = record::read_attempt(record::write_attempt(*attempt), "golden");
  ASSERT_TRUE(file.value.has_value());
  auto replay = session::Replay::start(*file.value);
  ASSERT_TRUE(replay.has_value());
  while (replay->advance(5000)) {
  }
  const session::ReplayReport report = replay->report();
  EXPECT_TRUE(report.equal) << (report.reasons.empty() ? "" : report.reasons.front());
}

}  // namespace
}  // namespace driftbench
