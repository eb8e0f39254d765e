// What happened while the hole was made, read from the load trace.
#pragma once

#include "drilling/pose.h"
#include "math/vec.h"
#include "scoring/results.h"
#include "specimen/kit.h"
#include "specimen/plan.h"

#include <span>

namespace driftbench::scoring {

/// Distance from a drill's tip to its full-diameter shoulder: the cone's height, or the radius of a
/// round bur.
///
/// Unit:   mm
/// Source: geometry
[[nodiscard]] double tip_to_shoulder_mm(const specimen::Drill& drill);

/// Depth of the full diameter below the planned platform, along the planned axis.
///
/// Unit:   mm, + below the platform
/// Frame:  site frame; the drill's own lean counts
/// Source: definition
[[nodiscard]] double shoulder_depth_mm(const drilling::DrillPose& pose,
                                       const specimen::Drill& drill,
                                       const math::Vec3& planned_entry_mm,
                                       const math::Vec3& planned_down_unit);

/// Time, peak loads, deepest shoulder and plunge of one attempt.
///
/// Shape:  samples in order of time; `drills` are the kit's, indexed by LoadSample::drill_index. A
///         sample of a drill that the kit does not have counts for everything but depth
/// Unit:   see ProcessMeasures; the deepest shoulder is 0 when no drill ever touched
/// Source: definition
[[nodiscard]] ProcessMeasures measure_process(std::span<const drilling::LoadSample> samples,
                                              const specimen::Plan& plan,
                                              std::span<const specimen::Drill> drills);

}  // namespace driftbench::scoring
