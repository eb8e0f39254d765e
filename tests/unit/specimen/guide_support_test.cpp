// Feet of a guide against the jaw's own shapes, refusals, and what supports are worth.
#include "specimen/guide_support.h"

#include "support/jaw_sites.h"

#include "specimen/guide_seat.h"
#include "specimen/jaw_shape.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::specimen {
namespace {

using support::molar_site;

GuideSeat seat_on(const JawSite& site, SupportKind kind) {
  const base::Result<GuideSeat> seat = seat_of(site, {kind, 0, false});
  EXPECT_TRUE(seat.has_value()) << (seat ? "" : seat.error().message);
  return seat.value_or(GuideSeat{});
}

std::string refusal(const JawSite& site, SupportKind kind) {
  const base::Result<GuideSeat> seat = seat_of(site, {kind, 0, false});
  return seat.has_value() ? "" : seat.error().message;
}

// The order that the mechanics have: +x+y, -x+y, -x-y, +x-y; in mirrored quadrants, too.
TEST(GuideSupport, FeetStandAtTheCornersInTheOrderOfTheMechanics) {
  for (const int fdi : {16, 26, 36, 46}) {
    const GuideSeat seat = seat_on(molar_site(fdi), SupportKind::kTeeth);
    for (std::size_t k = 0; k < 4; ++k) {
      EXPECT_EQ(seat.feet[k].at_mm.x > 0.0, k == 0 || k == 3) << fdi << " foot " << k;
      EXPECT_EQ(seat.feet[k].at_mm.y > 0.0, k < 2) << fdi << " foot " << k;
    }
    // +x is distal where the quadrant is not mirrored.
    const bool mirrored = pose_of(fdi).is_mirrored;
    EXPECT_EQ(seat.feet[0].fdi, fdi + (mirrored ? -1 : 1));
    EXPECT_EQ(seat.feet[1].fdi, fdi + (mirrored ? 1 : -1));
  }
}

// A crown's surface is known exactly to first order: within a tenth of a voxel.
TEST(GuideSupport, FeetOnTeethTouchTheirCrowns) {
  const JawSite site = molar_site(36);
  const Jaw jaw(site.jaw, Jaw::Texture::kNone);
  const JawPose pose = pose_of(site);
  for (const GuideFoot& foot : seat_on(site, SupportKind::kTeeth).feet) {
    double nearest_mm = 4.0;
    for (const ToothShape& tooth : jaw.teeth()) {
      if (tooth.spec().fdi == foot.fdi) {
        nearest_mm = tooth.crown().distance_mm(pose.to_jaw(foot.at_mm));
      }
    }
    EXPECT_NEAR(nearest_mm, 0.0, 0.02);
  }
}

TEST(GuideSupport, FeetOnBoneTouchTheBone) {
  const JawSite site = molar_site(46);
  const Jaw jaw(site.jaw, Jaw::Texture::kNone);
  const JawPose pose = pose_of(site);
  for (const GuideFoot& foot : seat_on(site, SupportKind::kBone).feet) {
    EXPECT_EQ(foot.fdi, 0);
    EXPECT_NEAR(jaw.bone_mm(pose.to_jaw(foot.at_mm)), 0.0, 0.06);  // the search steps 0.05 mm
  }
}

// The gum lies over the bone: a foot on it stands higher, by about its thickness.
TEST(GuideSupport, FeetOnGumStandHigherByTheGum) {
  JawSite bare = molar_site(36);
  JawSite covered = bare;
  covered.access = GumState::kPunch;
  const GuideSeat on_bone = seat_on(bare, SupportKind::kBone);
  const GuideSeat on_gum = seat_on(covered, SupportKind::kMucosa);
  for (std::size_t k = 0; k < 4; ++k) {
    const double higher_mm = on_gum.feet[k].at_mm.z - on_bone.feet[k].at_mm.z;
    EXPECT_GT(higher_mm, 0.5 * covered.jaw.gum.side_mm);
    EXPECT_LT(higher_mm, 2.0 * covered.jaw.gum.crest_mm);
  }
}

// Geometry: a rectangle a by b tilts by g/a one way and g/b the other; the square of the edge s
// with 2/s^2 = 1/a^2 + 1/b^2 has the same mean square over all directions.
TEST(GuideSupport, TheSquareRocksAsMuchAsTheFeet) {
  const GuideSeat seat = seat_on(molar_site(36), SupportKind::kTeeth);
  const auto& f = seat.feet;
  const double a = 0.5 * (f[0].at_mm.x + f[3].at_mm.x - f[1].at_mm.x - f[2].at_mm.x);
  const double b = 0.5 * (f[0].at_mm.y + f[1].at_mm.y - f[2].at_mm.y - f[3].at_mm.y);
  EXPECT_GT(a, b);  // neighbours are farther apart than crowns are wide
  EXPECT_NEAR(2.0 / (seat.span_mm * seat.span_mm), 1.0 / (a * a) + 1.0 / (b * b), 1e-12);
  EXPECT_GT(seat.span_mm, b);
  EXPECT_LT(seat.span_mm, a);
}

TEST(GuideSupport, WhatTheJawCannotGiveIsRefusedInOneSentence) {
  JawSite free_end = molar_site(36);
  free_end.jaw.teeth.erase(free_end.jaw.teeth.begin() + 1);
  EXPECT_EQ(
      refusal(free_end, SupportKind::kTeeth),
      "The guide rests on teeth, and this piece of jaw has no tooth on the distal side of the "
      "site.");
  EXPECT_EQ(refusal(free_end, SupportKind::kBone), "");
  const JawSite flap = molar_site(36);
  EXPECT_EQ(refusal(flap, SupportKind::kMucosa),
            "The guide rests on the gum, and this case raises a flap.");
  JawSite closed = flap;
  closed.access = GumState::kIntact;
  EXPECT_EQ(refusal(closed, SupportKind::kBone),
            "The guide rests on bone, and this case raises no flap.");
  EXPECT_EQ(refusal(closed, SupportKind::kMucosa), "");
  closed.jaw.gum.crest_mm = 4.2;
  EXPECT_EQ(refusal(closed, SupportKind::kMucosa),
            "The guide rests on the gum, which is too thick here to hold still.");
  JawSite narrow = flap;
  narrow.jaw.teeth[0].at_mm = -7.0;  // half a premolar and 1 mm leave less than 3 mm
  EXPECT_EQ(
      refusal(narrow, SupportKind::kBone),
      "The guide rests between the neighbours, which leave no room for its feet on the mesial side "
      "of the site.");
}

// Ozan et al. 2009 (J Oral Maxillofac Surg 67:394): mean angle 2.91 deg on teeth, 4.63 on bone,
// 4.51 on mucosa. Mean = sqrt(pi/2) SD for two equal axes; what is not the guide's is the same in
// all three.
TEST(GuideSupport, SpreadsAreThoseOfThePublishedMeans) {
  const auto fit = [](SupportKind kind) { return typical_guide({kind, 0, false}).fit_tilt_sd_deg; };
  const double others = std::pow(2.91 / 1.2533, 2) - std::pow(fit(SupportKind::kTeeth), 2);
  const auto mean = [&](SupportKind kind) {
    return 1.2533 * std::sqrt(others + std::pow(fit(kind), 2));
  };
  EXPECT_NEAR(mean(SupportKind::kBone), 4.63, 0.05);
  EXPECT_NEAR(mean(SupportKind::kMucosa), 4.51, 0.05);
  // PMC12801966: guide off by 0.34 mm in space; mean of three equal axes = 1.596 SD.
  EXPECT_NEAR(1.596 * typical_guide({SupportKind::kTeeth, 0, false}).fit_sd_mm, 0.34, 0.05);
}

// Common text figure: mucosa deforms by 0.1 to 0.5 mm under the force that seats a guide; here the
// hold of 15 N on four feet.
TEST(GuideSupport, GumGivesWayByThePublishedAmount) {
  const Guide guide = typical_guide({SupportKind::kMucosa, 0, false});
  const double sinks_mm = 15.0 / (4.0 * guide.foot_stiffness_n_per_mm);
  EXPECT_GT(sinks_mm, 0.1);
  EXPECT_LT(sinks_mm, 0.5);
}

// Cassetta et al. 2013: a fixed guide is more accurate. Law: a pin never makes anything looser.
TEST(GuideSupport, PinsHoldAndABiteIndexSeats) {
  for (const SupportKind kind : {SupportKind::kTeeth, SupportKind::kMucosa, SupportKind::kBone}) {
    Guide before = typical_guide({kind, 0, false});
    for (int pins = 1; pins <= 6; ++pins) {
      const Guide guide = typical_guide({kind, pins, false});
      EXPECT_GT(guide.support_stiffness_n_per_mm, before.support_stiffness_n_per_mm);
      EXPECT_GT(guide.foot_stiffness_n_per_mm, before.foot_stiffness_n_per_mm);
      EXPECT_LE(guide.start_gap_max_mm, before.start_gap_max_mm);
      EXPECT_LE(guide.fit_tilt_sd_deg, before.fit_tilt_sd_deg);
      before = guide;
    }
  }
  EXPECT_LT(typical_guide({SupportKind::kMucosa, 0, true}).start_gap_max_mm,
            typical_guide({SupportKind::kMucosa, 0, false}).start_gap_max_mm);
}

}  // namespace
}  // namespace driftbench::specimen
