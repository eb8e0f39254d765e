// What an attempt in a jaw came near to, touched, and would have touched next.
#pragma once

#include "drilling/pose.h"
#include "scoring/results.h"
#include "specimen/jaw_site.h"
#include "specimen/kit.h"
#include "specimen/plan.h"

#include <cstdint>
#include <optional>
#include <span>

namespace driftbench::scoring {

/// Everything that the measures are taken from.
///
/// Frame: site frame; `jaw` in its own
struct JawWork {
  const specimen::JawSite* site = nullptr;
  const specimen::Jaw* jaw = nullptr;  ///< of site->jaw; its trabeculae are not needed
  specimen::Plan plan;
  std::span<const specimen::Drill> drills;        ///< of the kit
  std::span<const drilling::LoadSample> samples;  ///< while drills were in hand, in order of time
  std::int32_t last_drill = -1;                   ///< of the plan, in the kit
  const specimen::Implant* planned = nullptr;     ///< null: no implant was asked for
  const specimen::Implant* placed = nullptr;      ///< null: none sits
  drilling::DrillPose seat;                       ///< of the one that sits
  std::int64_t placed_step = 0;                   ///< when it was last turned
};

/// A drill as a solid below the platform plane, with its point. Nothing while its full diameter is
/// not yet in.
///
/// Frame: site frame
[[nodiscard]] std::optional<specimen::RevolvedBody> body_of(const drilling::DrillPose& pose,
                                                            const specimen::Drill& drill,
                                                            const specimen::Plan& plan);

/// Clearances, critical events and the next larger error. Nothing when no drill went in.
///
/// The hole is every drill in every place where it cut, each with its point; distances are those of
/// specimen::clearances(), exact to 0.02 mm. An attempt that follows the plan has the plan's
/// clearances.
/// Unit:   mm, steps; places in the site frame
/// Source: own rules after common teaching: touching nerve, root or air space and leaving the bone
///         are critical; so is going on afterwards
/// Cost:   some ten milliseconds
[[nodiscard]] std::optional<JawMeasures> measure_in_jaw(const JawWork& work);

}  // namespace driftbench::scoring
