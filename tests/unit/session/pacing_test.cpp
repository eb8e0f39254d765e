#include "session/pacing.h"

#include <gtest/gtest.h>

namespace driftbench {
namespace {

using session::Pacing;

TEST(Pacing, GivesRealTimeOverManyFramesWhateverTheirRate) {
  for (const double frame_s : {1.0 / 30.0, 1.0 / 60.0, 1.0 / 144.0}) {
    Pacing pacing;
    std::int64_t steps = 0;
    const int frames = static_cast<int>(2.0 / frame_s);
    for (int i = 0; i < frames; ++i) {
      steps += pacing.steps_due(frame_s);
    }
    EXPECT_NEAR(static_cast<double>(steps), frames * frame_s * 1000.0, 1.0) << frame_s;
    EXPECT_DOUBLE_EQ(pacing.speed(), 1.0);
  }
}

TEST(Pacing, SlowsTimeInsteadOfJumping) {
  Pacing pacing;
  EXPECT_EQ(pacing.steps_due(0.5), session::kMaxStepsPerFrame);
  EXPECT_NEAR(pacing.speed(), 0.1, 1e-9);
  EXPECT_EQ(pacing.steps_due(0.016), 16);
}

TEST(Pacing, IgnoresAClockThatStandsOrRunsBack) {
  Pacing pacing;
  EXPECT_EQ(pacing.steps_due(0.0), 0);
  EXPECT_EQ(pacing.steps_due(-1.0), 0);
}

}  // namespace
}  // namespace driftbench
