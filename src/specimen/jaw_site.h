// A piece of jaw prepared for one site: anatomy, access, the planned implant, the margins to watch.
#pragma once

#include "specimen/clearance.h"
#include "specimen/jaw.h"
#include "specimen/jaw_mixer.h"
#include "specimen/jaw_pose.h"

#include <string>
#include <vector>

namespace driftbench::specimen {

/// A generic implant placed in the jaw frame.
struct SitePlan {
  math::Vec3 entry_mm{0.0};  ///< platform centre
  double lean_md_deg = 0.0;  ///< apex leans distally
  double lean_bl_deg = 0.0;  ///< apex leans lingually
  double diameter_mm = 4.5;
  double length_mm = 10.0;

  friend bool operator==(const SitePlan&, const SitePlan&) = default;
};

/// A distance that is to be kept.
struct Margin {
  Structure structure = Structure::kCanal;
  double keep_mm = 2.0;

  friend bool operator==(const Margin&, const Margin&) = default;
};

/// Everything that a jaw's voxels, its site frame and its clearances come from.
struct JawSite {
  std::string id = "jaw";
  std::string sha256;  ///< of the exact bytes of the specimen file; empty without one
  JawSpec jaw;
  GumState access = GumState::kFlap;
  SitePlan plan;
  std::vector<Margin> margins;

  friend bool operator==(const JawSite&, const JawSite&) = default;
};

/// The site's plan in the jaw frame; see plan_in_core().
[[nodiscard]] Plan plan_of(const JawSite& site);

/// The planned implant in the jaw frame.
[[nodiscard]] RevolvedBody implant_of(const JawSite& site);

/// The site frame in the jaw frame: origin at the planned platform, +z along the planned axis.
[[nodiscard]] JawPose pose_of(const JawSite& site);

/// How the soft tissue is opened there, in the jaw frame.
[[nodiscard]] GumOpening opening_of(const JawSite& site);

}  // namespace driftbench::specimen
