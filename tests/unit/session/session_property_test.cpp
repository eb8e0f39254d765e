// Laws of the session under random commands: reset is a fresh start, what is lost is what was cut,
// and no number that is not finite ever reaches a view.
#include "support/random_index.h"
#include "support/shipped.h"

#include "session/replay.h"
#include "session/session.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace driftbench {
namespace {

using record::Command;
using record::Op;
using session::Phase;
using session::Session;

/// A small coarse block: a thousand steps in some milliseconds.
lesson::AttemptSetup small_setup(std::size_t block, std::uint64_t seed) {
  lesson::AttemptSetup setup = support::shipped_setup(block, seed);
  specimen::block_in(setup.specimen)->edge_mm = 12.0;
  specimen::block_in(setup.specimen)->voxel_mm = 0.4;
  if (setup.guide) {
    setup.guide->foot_span_mm = 9.0;
  }
  return setup;
}

std::int32_t between(base::Rng& rng, std::int32_t low, std::int32_t high) {
  return low + static_cast<std::int32_t>(rng.below(static_cast<std::uint64_t>(high - low + 1)));
}

/// Any command, sensible or not. Each draw is a statement of its own, so that order is fixed.
Command random_command(base::Rng& rng) {
  Command command;
  // Hand commands are most of what a person gives.
  const std::int32_t kind = between(rng, 1, 16);
  command.op = kind > 10 ? Op::kHand : static_cast<Op>(kind);
  auto& arguments = command.arguments;
  switch (command.op) {
    case Op::kHand:
      for (std::size_t i = 0; i < 2; ++i) {
        arguments[i] = between(rng, -3000, 3000);
      }
      for (std::size_t i = 2; i < 4; ++i) {
        arguments[i] = between(rng, -100'000, 100'000);
      }
      arguments[4] = between(rng, 0, 30'000);
      break;
    case Op::kMotor:
      arguments[0] = between(rng, -500, 2000);
      break;
    case Op::kTakeDrill:
      arguments[0] = between(rng, 0, 6);
      arguments[1] = 1000 * between(rng, 0, 24);
      break;
    case Op::kPressGuide:
      arguments[0] = between(rng, -8000, 8000);
      arguments[1] = between(rng, -8000, 8000);
      arguments[2] = between(rng, 0, 50'000);
      break;
    case Op::kKey:
      arguments[0] = between(rng, -1, 4);
      break;
    default:
      arguments[0] = between(rng, 0, 1);
  }
  return command;
}

/// Gives `count` random commands with random pauses; a refused one is part of the game.
void play(Session& session, base::Rng& rng, int count) {
  for (int i = 0; i < count && session.view().phase == Phase::kDrilling; ++i) {
    const Command command = random_command(rng);
    static_cast<void>(session.submit(command));
    const std::int64_t pause = between(rng, 0, 150);
    session.advance(pause);
  }
}

void expect_equal(const Session& a, const Session& b) {
  EXPECT_EQ(a.state_hash(), b.state_hash());
  EXPECT_EQ(a.state_hashes(), b.state_hashes());
  EXPECT_EQ(a.trace(), b.trace());
  EXPECT_EQ(a.view().step, b.view().step);
  EXPECT_EQ(a.view().phase, b.view().phase);
  EXPECT_EQ(a.view().status, b.view().status);
  EXPECT_EQ(a.view().hint, b.view().hint);
  EXPECT_EQ(a.view().spin_rad, b.view().spin_rad);
  EXPECT_EQ(a.view().used_drills, b.view().used_drills);
  EXPECT_EQ(a.view().samples.size(), b.view().samples.size());
  EXPECT_EQ(a.view().probe.has_value(), b.view().probe.has_value());
  EXPECT_EQ(a.view().volume->coverage, b.view().volume->coverage);
  EXPECT_EQ(a.view().volume->lost_coverage, b.view().volume->lost_coverage);
}

TEST(SessionProperty, ResetIsAFreshSessionAndGoesOnLikeOne) {
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const lesson::AttemptSetup setup = small_setup(seed % 2, seed);
    Session used = std::move(*Session::create(setup));
    base::Rng first(seed);
    play(used, first, 60);
    ASSERT_FALSE(used.trace().empty());
    used.reset();
    Session fresh = std::move(*Session::create(setup));
    expect_equal(used, fresh);
    ASSERT_TRUE(used.trace().empty());

    // Another course from there: nothing of the first one may be left anywhere.
    base::Rng one(base::split(seed, 1, 0));
    base::Rng other(base::split(seed, 1, 0));
    play(used, one, 60);
    play(fresh, other, 60);
    expect_equal(used, fresh);
  }
}

TEST(SessionProperty, RandomCoursesReplayToTheSameBits) {
  for (std::uint64_t seed = 21; seed <= 26; ++seed) {
    Session session = std::move(*Session::create(small_setup(seed % 2, seed)));
    base::Rng rng(seed);
    play(session, rng, 80);
    record::AttemptFile file;
    file.attempt = session.record();
    file.stated = record::digest_chain(file.attempt);
    base::Result<session::Replay> replay = session::Replay::start(file);
    ASSERT_TRUE(replay.has_value());
    while (replay->advance(777)) {
    }
    const session::ReplayReport report = replay->report();
    EXPECT_TRUE(report.equal) << seed << ": " << (report.reasons.empty() ? "" : report.reasons[0]);
  }
}

// Removed volume is lost coverage times the volume of a voxel, and coverage never grows.
TEST(SessionProperty, WhatIsLostIsWhatTheBlockLacks) {
  std::uint64_t lost_in_all = 0;
  for (std::uint64_t seed = 41; seed <= 46; ++seed) {
    Session session = std::move(*Session::create(small_setup(seed % 2, seed)));
    base::Rng rng(seed);
    play(session, rng, 80);
    const volume::Volume& volume = *session.view().volume;
    std::uint64_t lost = 0;
    for (std::size_t i = 0; i < volume.coverage.size(); ++i) {
      ASSERT_LE(volume.coverage[i], volume.initial_coverage[i]);
      lost += static_cast<std::uint64_t>(volume.initial_coverage[i] - volume.coverage[i]);
    }
    EXPECT_EQ(volume.lost_coverage, lost);
    EXPECT_DOUBLE_EQ(volume.removed_mm3(),
                     static_cast<double>(lost) / 255.0 * volume.grid.voxel_volume_mm3());
    lost_in_all += lost;
  }
  EXPECT_GT(lost_in_all, 0U) << "nothing was ever cut";
}

bool is_finite(const drilling::LoadSample& sample) {
  return math::is_finite(sample.pose.tip_mm) && math::is_finite(sample.pose.axis_out_unit) &&
         math::is_finite(sample.side_force_n) && math::is_finite(sample.guide_force_n) &&
         std::isfinite(sample.thrust_n) && std::isfinite(sample.torque_nmm) &&
         std::isfinite(sample.power_w) && std::isfinite(sample.feed_mm_per_s) &&
         std::isfinite(sample.strength_mpa) && std::isfinite(sample.heat_degc);
}

void set_all_zones(lesson::AttemptSetup& setup, const drilling::ZoneLaw& law) {
  drilling::CuttingParams& cutting = setup.cutting;
  for (drilling::ZoneLaw* zone :
       {&cutting.lip, &cutting.chisel, &cutting.margin, &cutting.side_lip}) {
    *zone = law;
  }
}

/// One number of the set-up at one end of what a file may hold.
struct Extreme {
  const char* name;
  void (*apply)(lesson::AttemptSetup&);
};

constexpr Extreme kExtremes[] = {
    {"no hand", [](lesson::AttemptSetup& s) { s.hand.lateral_stiffness_n_per_mm = 0.0; }},
    {"no hand, no damping, no mass",
     [](lesson::AttemptSetup& s) {
       s.hand.lateral_stiffness_n_per_mm = 0.0;
       s.hand.lateral_damping_ns_per_mm = 0.0;
       s.hand.wrist_stiffness_nmm_per_rad = 0.0;
       s.hand.feed_damping_ns_per_mm = 0.0;
       s.hand.mass_kg = 0.0;
     }},
    {"a hand of steel",
     [](lesson::AttemptSetup& s) {
       s.hand.lateral_stiffness_n_per_mm = 1000.0;
       s.hand.wrist_stiffness_nmm_per_rad = 1e6;
     }},
    {"a hand that hardly follows",
     [](lesson::AttemptSetup& s) {
       s.hand.lowpass_hz = 0.01;
       s.hand.press_lowpass_hz = 0.01;
     }},
    {"a hand that follows at once",
     [](lesson::AttemptSetup& s) {
       s.hand.lowpass_hz = 400.0;
       s.hand.press_lowpass_hz = 400.0;
     }},
    {"endless drift",
     [](lesson::AttemptSetup& s) {
       s.hand.drift_mm = 1000.0;
       s.hand.drift_lean_rad = 1.0;
       s.hand.drift_period_s = 0.01;
     }},
    {"held at the tip", [](lesson::AttemptSetup& s) { s.hand.grip_height_mm = 0.0; }},
    {"held far away", [](lesson::AttemptSetup& s) { s.hand.grip_height_mm = 1000.0; }},
    {"nothing resists",
     [](lesson::AttemptSetup& s) {
       set_all_zones(s, {0.0, 1000.0});
     }},
    {"everything resists",
     [](lesson::AttemptSetup& s) {
       set_all_zones(s, {1000.0, 1e-6});
       s.cutting.specific_energy_frac = 1000.0;
       s.cutting.creep_speed_mm_per_s = 1e-6;
     }},
    {"idle at any speed", [](lesson::AttemptSetup& s) { s.cutting.idle_rev_per_s = 1000.0; }}};

// Whatever a readable record sets up: the session either drills on with finite numbers, or stops,
// says why, and keeps the trace.
TEST(SessionProperty, AnExtremeSetUpNeverShowsANumberThatIsNotFinite) {
  int stopped = 0;
  for (const Extreme& extreme : kExtremes) {
    for (const std::size_t block : {0U, 1U}) {
      lesson::AttemptSetup setup = small_setup(block, 3);
      extreme.apply(setup);
      base::Result<Session> made = Session::create(setup);
      ASSERT_TRUE(made.has_value()) << extreme.name << ": " << made.error().message;
      Session& session = *made;
      const auto give = [&](Op op, std::array<std::int32_t, record::kMaxArguments> a = {}) {
        static_cast<void>(session.submit({op, a}));
      };
      give(Op::kPlaceGuide, {1});
      give(Op::kHoldGuide, {1});
      give(Op::kTakeDrill, {1, 19500});
      give(Op::kMotor, {1200});
      give(Op::kHand, {500, -300, 20'000, -10'000, 60'000});
      const std::size_t given = session.trace().size();
      for (int i = 0; i < 150; ++i) {
        session.advance(10);
        const session::SessionView& view = session.view();
        ASSERT_TRUE(is_finite(view.load)) << extreme.name << " at step " << view.step;
        ASSERT_TRUE(math::is_finite(view.pose.tip_mm) && math::is_finite(view.pose.axis_out_unit) &&
                    std::isfinite(view.shoulder_depth_mm) && std::isfinite(view.motor_rpm))
            << extreme.name << " at step " << view.step;
        for (const double gap : view.guide.gap_mm) {
          ASSERT_TRUE(std::isfinite(gap)) << extreme.name;
        }
      }
      const session::SessionView& view = session.view();
      EXPECT_TRUE(std::all_of(view.samples.begin(), view.samples.end(), is_finite)) << extreme.name;
      EXPECT_EQ(session.trace().size(), given) << extreme.name;
      if (view.phase == Phase::kStopped) {
        ++stopped;
        EXPECT_NE(view.status & (session::kStepNotFinite | session::kStepRunaway), 0U)
            << extreme.name;
        EXPECT_FALSE(session.submit({Op::kMotor, {0}}).has_value());
        EXPECT_EQ(session.advance(10), 0);
      }
      // What was done until then is measured and recorded without a number that is not finite.
      EXPECT_FALSE(record::write_attempt(session.record()).empty());
      static_cast<void>(session.measure());
      static_cast<void>(session.explain());
    }
  }
  EXPECT_GT(stopped, 0) << "no set-up here ever stops a session";
}

}  // namespace
}  // namespace driftbench
