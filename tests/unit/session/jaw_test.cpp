// A piece of jaw goes the way of a block: the same session, frames, records and replay.
#include "support/jaw_setup.h"

#include "record/attempt.h"
#include "session/replay.h"
#include "session/session.h"
#include "specimen/tooth_number.h"
#include "volume/sample.h"

#include <gtest/gtest.h>

#include <array>
#include <string>

namespace driftbench::session {
namespace {

TEST(JawAttempt, TheSiteFrameStandsOnThePlannedPlatformInAllFourQuadrants) {
  for (const int fdi : {16, 26, 36, 46}) {
    specimen::JawSite site = support::plain_site(fdi);
    site.plan.lean_bl_deg = 12.0;
    const specimen::JawPose pose = specimen::pose_of(site);
    EXPECT_EQ(pose.to_jaw(math::Vec3(0.0)), site.plan.entry_mm) << fdi;
    const math::Vec3 down = pose.direction_to_jaw({0.0, 0.0, -1.0});
    EXPECT_GT(down.y, 0.2) << "the apex leans lingually";
    EXPECT_NEAR(down.x, 0.0, 1e-12);
    const specimen::SiteDirections to = specimen::directions_of(site);
    const bool is_mirrored = specimen::is_mirrored(fdi);
    EXPECT_EQ(to.md.x < 0.0, is_mirrored) << "distal lies the other way on the other side: " << fdi;
    EXPECT_GT(to.bl.y, 0.9);
    // Left-handed words in quadrants 2 and 4, right-handed mechanics everywhere.
    EXPECT_EQ(math::dot(math::cross(to.md, to.bl), math::Vec3(0.0, 0.0, 1.0)) < 0.0, is_mirrored);
  }
}

TEST(JawAttempt, TheSessionsVoxelsAreThoseOfTheJawInTheSiteFrame) {
  const lesson::AttemptSetup setup = support::jaw_setup(36);
  const auto session = Session::create(setup);
  ASSERT_TRUE(session.has_value());
  const specimen::JawSite& site = *specimen::jaw_in(setup.specimen);
  const specimen::Jaw jaw(site.jaw, specimen::Jaw::Texture::kNone);
  const specimen::JawPose pose = specimen::pose_of(site);
  const volume::Volume& volume = *session->view().volume;
  for (double z = -18.0; z < 3.0; z += 0.7) {
    const math::Vec3 p(0.0, 0.3, z);
    const double bone_mm = jaw.bone_mm(pose.to_jaw(p));
    if (std::abs(bone_mm) > volume.grid.spacing_mm) {
      EXPECT_EQ(volume::coverage_at(volume, p) > 0.5, bone_mm < 0.0) << z;
    }
  }
}

TEST(JawAttempt, ARecordHoldsTheWholeJawAndReplaysThroughItsFile) {
  const auto session = support::short_jaw_work(support::jaw_setup(46));
  ASSERT_TRUE(session.has_value());
  record::Attempt attempt = session->record();
  attempt.attempt_id = "00112233445566778899aabbccddeeff";
  ASSERT_TRUE(attempt.results.has_value());
  const std::string text = record::write_attempt(attempt);
  const auto file = record::read_attempt(text, "jaw");
  ASSERT_TRUE(file.value.has_value()) << file.first_error();
  EXPECT_TRUE(file.problems.empty());
  EXPECT_EQ(file.value->attempt.setup, attempt.setup);
  EXPECT_EQ(record::write_attempt(file.value->attempt), text);
  EXPECT_TRUE(record::check_chain(*file.value).broken.empty());
  auto replay = Replay::start(*file.value);
  ASSERT_TRUE(replay.has_value());
  while (replay->advance(777)) {
  }
  const ReplayReport report = replay->report();
  EXPECT_TRUE(report.equal) << (report.reasons.empty() ? "" : report.reasons.front());
}

TEST(JawAttempt, AnotherRidgeInTheRecordIsAnotherCourse) {
  const auto session = support::short_jaw_work(support::jaw_setup(46));
  ASSERT_TRUE(session.has_value());
  record::AttemptFile file;
  file.attempt = session->record();
  file.attempt.attempt_id = "00112233445566778899aabbccddeeff";
  specimen::JawSite site = *specimen::jaw_in(file.attempt.setup.specimen);
  site.jaw.ridge.crest_slope_deg += 3.0;
  file.attempt.setup.specimen = site;
  file.stated = record::digest_chain(file.attempt);
  auto replay = Replay::start(file);
  ASSERT_TRUE(replay.has_value());
  while (replay->advance(1000)) {
  }
  EXPECT_FALSE(replay->report().equal);
}

TEST(JawAttempt, ResetGivesBackTheUntouchedJaw) {
  auto session = support::short_jaw_work(support::jaw_setup(26));
  ASSERT_TRUE(session.has_value());
  const auto fresh = Session::create(session->setup());
  ASSERT_TRUE(fresh.has_value());
  EXPECT_NE(session->state_hash(), fresh->state_hash());
  session->reset();
  EXPECT_EQ(session->state_hash(), fresh->state_hash());
  EXPECT_EQ(session->view().volume->coverage, fresh->view().volume->coverage);
}

TEST(JawAttempt, ImpossibleAnatomyIsRefusedWithItsReason) {
  lesson::AttemptSetup setup = support::jaw_setup(36);
  specimen::JawSite site = *specimen::jaw_in(setup.specimen);
  site.jaw.canal->lateral_mm = 6.0;
  site.jaw.ridge.body_width_mm = 8.0;
  setup.specimen = site;
  const auto session = Session::create(setup);
  ASSERT_FALSE(session.has_value());
  EXPECT_NE(session.error().message.find("canal"), std::string::npos) << session.error().message;
}

}  // namespace
}  // namespace driftbench::session
