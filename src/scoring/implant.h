// Measures a placed implant against the plan: where its platform and its end came to lie.
#pragma once

#include "base/result.h"
#include "drilling/pose.h"
#include "scoring/results.h"
#include "specimen/kit.h"
#include "specimen/plan.h"

#include <span>

namespace driftbench::scoring {

/// Placement and loads of an implant. Entry is the platform's centre; depth counts at the platform.
/// The planned end lies the implant's length below the planned platform.
///
/// Shape:  samples in order of time, taken while the implant was in hand
/// Frame:  site frame; pose.tip_mm is the centre of the implant's end
/// Errors: kInvalidArgument when the plan is degenerate
/// Source: definitions as in holes.csv (DEVELOPERS.md)
[[nodiscard]] base::Result<ImplantMeasures> measure_implant(
    const drilling::DrillPose& pose, const specimen::Implant& implant, const specimen::Plan& plan,
    std::span<const drilling::LoadSample> samples);

/// Bounds of the usual final torque. Source: teaching values (15 and 50 N cm)
inline constexpr double kLowTorque_nmm = 150.0;
inline constexpr double kTightTorque_nmm = 500.0;

/// How firmly an implant sits, from its final torque.
enum class Stability {
  kLow,  ///< below kLowTorque_nmm
  kUsual,
  kTight  ///< above kTightTorque_nmm: back out and widen or tap, never force
};

/// Torque is illustrative.
[[nodiscard]] Stability stability_of(double final_torque_nmm);

}  // namespace driftbench::scoring
