// One finder for each kind of moment, over the load trace of a single drill.
#pragma once

#include "drilling/pose.h"
#include "geometry/anatomical_frame.h"
#include "math/vec.h"
#include "scoring/explain.h"
#include "specimen/kit.h"

#include <optional>
#include <vector>

namespace driftbench::scoring {

/// Everything one drill felt, with the site it is read in. Not empty.
struct DrillTrace {
  std::vector<drilling::LoadSample> samples;  ///< in order of time, one drill_index
  geometry::AnatomicalFrame frame;
  math::Vec3 planned_entry_mm{0.0, 0.0, 0.0};
};

// Source of each: own definition, thresholds stated in the .cpp file. Nothing when it never
// happened.
[[nodiscard]] std::optional<Moment> find_first_contact(const DrillTrace& trace);
[[nodiscard]] std::optional<Moment> find_side_force(const DrillTrace& trace);
[[nodiscard]] std::optional<Moment> find_left_line(const DrillTrace& trace);
[[nodiscard]] std::optional<Moment> find_guide_carries(const DrillTrace& trace);
[[nodiscard]] std::optional<Moment> find_plunge(const DrillTrace& trace);
[[nodiscard]] std::optional<Moment> find_past_depth(const DrillTrace& trace,
                                                    const specimen::Drill& drill,
                                                    double planned_depth_mm);

/// First change to clearly stronger (kHarder) or weaker (kSofter) material under the point.
[[nodiscard]] std::optional<Moment> find_strength_change(const DrillTrace& trace, MomentKind kind);

}  // namespace driftbench::scoring
