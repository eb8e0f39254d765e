// Finds in the load trace the moments at which something moved the drill, for the debrief's words.
#pragma once

#include "drilling/pose.h"
#include "geometry/anatomical_frame.h"
#include "math/vec.h"
#include "specimen/kit.h"

#include <cstdint>
#include <span>
#include <vector>

namespace driftbench::scoring {

enum class MomentKind {
  kFirstContact,  ///< the point touches
  kSideForce,     ///< the material pushes the drill sideways while it gives way
  kHarder,        ///< what the point touches becomes clearly stronger
  kSofter,        ///< or clearly weaker
  kLeftLine,      ///< the drill's axis leaves the first contact point by more than 0.3 mm
  kGuideCarries,  ///< the sleeve takes a side force that would have moved the drill
  kPlunge,        ///< advance jumps
  kPastDepth      ///< the full diameter passes the planned depth
};

/// One moment. `direction_md/bl` is a unit vector in the anatomical frame where a direction
/// applies: of the side force of the material, or of the way the drill went (kLeftLine).
struct Moment {
  MomentKind kind = MomentKind::kFirstContact;
  std::int64_t step = 0;
  std::int32_t drill_index = -1;
  double depth_mm = 0.0;   ///< of the tip below the planned platform
  double force_n = 0.0;    ///< largest side force in the 300 ms from here, where it applies
  double amount_mm = 0.0;  ///< displacement that followed, where it applies: sideways; deeper
                           ///< (plunge); farthest past depth
  double speed_mm_per_s = 0.0;
  double direction_md = 0.0;
  double direction_bl = 0.0;
};

/// Moments in order of time, at most one of each kind per drill. Reads forces and poses only;
/// nothing here knows what the specimen is made of.
///
/// Shape:  samples in order of time; `drills` are the kit's, indexed by LoadSample::drill_index and
///         needed for the shoulder only
/// Frame:  site frame
/// Source: own thresholds, stated beside each finder in explain_forces.cpp, explain_motion.cpp and
/// explain_strength.cpp
[[nodiscard]] std::vector<Moment> find_moments(std::span<const drilling::LoadSample> samples,
                                               const geometry::AnatomicalFrame& frame,
                                               const math::Vec3& planned_entry_mm,
                                               double planned_depth_mm,
                                               std::span<const specimen::Drill> drills);

}  // namespace driftbench::scoring
