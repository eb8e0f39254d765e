// A drill that is pressed onto a neighbour's implant: it stops there, and the debrief says so.
#include "support/jaw_setup.h"

#include "base/random.h"
#include "specimen/clearance.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace driftbench::session {
namespace {

using specimen::Structure;
using specimen::Tissue;

/// A molar site; the implant under the crown in front leans back under it, seven millimetres down.
lesson::AttemptSetup implant_under_the_site() {
  lesson::AttemptSetup setup = support::jaw_setup(36);
  specimen::JawSite site = *specimen::jaw_in(setup.specimen);
  site.jaw.length_mm = 24.0;
  site.jaw.voxel_mm = 0.3;
  site.plan.lean_bl_deg = 0.0;
  site.jaw.teeth = {{35, -7.2, 0.4, 2.0, -35.0, 0.0, 1.0, specimen::ImplantRoot{4.0, 13.0, 2.0}},
                    {37, 11.2, 0.2, 2.6, -3.0, 6.0, 1.0}};
  setup.specimen = site;
  return setup;
}

struct Metal {
  double full_mm3 = 0.0;    ///< voxels of metal
  double lost_mm3 = 0.0;    ///< of it, by coverage
  double deepest_mm = 0.0;  ///< under its surface, of any voxel that lost some
};

Metal metal_in(const volume::Volume& volume, const specimen::JawSite& site) {
  const specimen::Jaw jaw(site.jaw, specimen::Jaw::Texture::kNone);
  const specimen::JawPose pose = specimen::pose_of(site);
  Metal metal;
  const volume::Grid& grid = volume.grid;
  for (int z = 0; z < grid.nz; ++z) {
    for (int y = 0; y < grid.ny; ++y) {
      for (int x = 0; x < grid.nx; ++x) {
        const std::size_t i = grid.index(x, y, z);
        if (volume.tissue[i] != static_cast<std::uint8_t>(Tissue::kTitanium)) {
          continue;
        }
        const int lost = volume.initial_coverage[i] - volume.coverage[i];
        metal.full_mm3 += grid.voxel_volume_mm3();
        metal.lost_mm3 += lost * grid.voxel_volume_mm3() / volume::kFullCoverage;
        if (lost > 0) {
          const math::Vec3 p = pose.to_jaw(grid.centre_mm(x, y, z));
          metal.deepest_mm = std::max(metal.deepest_mm, -jaw.teeth()[0].roots_mm(p));
        }
      }
    }
  }
  return metal;
}

void give(Session& session, record::Op op,
          const std::array<std::int32_t, record::kMaxArguments>& arguments) {
  static_cast<void>(session.submit({op, arguments}));
}

void begin(Session& session, std::int32_t drill) {
  give(session, record::Op::kTakeDrill, {drill, 0});
  give(session, record::Op::kMotor, {1200});
  session.advance(400);
}

// 40 N, more than a hand gives, for a quarter of a minute: bone goes in a second, metal stays. What
// its voxels lose is the ramp of a hole beside them, a voxel wide, and no more with time.
TEST(OtherImplant, StopsADrillThatIsPressedOntoIt) {
  const lesson::AttemptSetup setup = implant_under_the_site();
  const specimen::JawSite& site = *specimen::jaw_in(setup.specimen);
  auto session = Session::create(setup);
  ASSERT_TRUE(session.has_value()) << session.error().message;
  begin(*session, 1);
  give(*session, record::Op::kHand, {0, 0, 0, 0, 40000});
  session->advance(5000);
  const double reached_mm = -session->view().pose.tip_mm.z;
  EXPECT_GT(reached_mm, 3.5) << "through the bone over it";
  const Metal early = metal_in(*session->view().volume, site);
  session->advance(15000);
  EXPECT_LT(-session->view().pose.tip_mm.z, reached_mm + 0.12);
  EXPECT_GT(session->view().load.thrust_n, 39.0);
  EXPECT_LT(std::fabs(session->view().load.feed_mm_per_s), 0.02);
  const Metal late = metal_in(*session->view().volume, site);
  EXPECT_LT(late.lost_mm3, 0.001 * late.full_mm3);
  EXPECT_LT(late.lost_mm3, 1.5 * early.lost_mm3);
  EXPECT_LT(late.deepest_mm, site.jaw.voxel_mm);

  give(*session, record::Op::kHand, {0, 0, 0, 0, 0});
  give(*session, record::Op::kLift, {1});
  for (int i = 0; i < 100 && !session->view().is_out; ++i) {
    session->advance(50);
  }
  give(*session, record::Op::kFinish, {});
  const scoring::Results results = session->measure();
  ASSERT_TRUE(results.jaw.has_value());
  const scoring::JawMeasures& jaw = *results.jaw;
  ASSERT_FALSE(jaw.events.empty());
  EXPECT_EQ(jaw.events.front().structure, Structure::kOtherImplant);
  EXPECT_EQ(jaw.clearances.back().structure, Structure::kOtherImplant);
  EXPECT_LT(std::fabs(jaw.clearances.back().achieved_mm), 0.5 * site.jaw.voxel_mm);
  for (const scoring::ClearanceMeasure& one : jaw.clearances) {
    EXPECT_NE(one.structure, Structure::kRootMesial);
  }
}

// Whatever the hand does once a drill stands on the metal: harder, to the side, leaning.
TEST(OtherImplant, NoMotionAgainstItIsEverWithoutANumber) {
  base::Rng rng(17);
  int on_metal = 0;
  for (int run = 0; run < 6; ++run) {
    auto session = Session::create(implant_under_the_site());
    ASSERT_TRUE(session.has_value()) << session.error().message;
    begin(*session, run % 2 + 1);
    give(*session, record::Op::kHand, {0, 0, 0, 0, 40000});
    session->advance(3500);
    for (int i = 0; i < 12; ++i) {
      const auto x_um = static_cast<std::int32_t>(rng.below(6000)) - 3000;
      const auto y_um = static_cast<std::int32_t>(rng.below(6000)) - 3000;
      const auto lean_x = static_cast<std::int32_t>(rng.below(20000)) - 10000;
      const auto lean_y = static_cast<std::int32_t>(rng.below(20000)) - 10000;
      const auto press_mn = static_cast<std::int32_t>(rng.below(60000));
      give(*session, record::Op::kHand, {x_um, y_um, lean_x, lean_y, press_mn});
      session->advance(300);
      const SessionView& view = session->view();
      EXPECT_EQ(view.status, kStepOk) << run << ' ' << i;
      EXPECT_LT(math::length(view.pose.tip_mm), 6.0) << run << ' ' << i;
      on_metal += view.load.strength_mpa > specimen::kEnamelStrength_mpa ? 1 : 0;
    }
  }
  EXPECT_GT(on_metal, 20);
}

}  // namespace
}  // namespace driftbench::session
