// Takes the drill's envelope out of the material, no more often than it has moved.
#pragma once

#include "drilling/step.h"

#include <cstdint>

namespace driftbench::drilling {

/// Removes the drill at its present pose, once it has moved by a few micrometres since it last was:
/// the point alone when the tip has moved, the whole body when some part of it has moved across.
///
/// Result: coverage units lost
std::uint64_t remove_material(const Tool& tool, DrillState& state, volume::Volume& volume,
                              std::uint16_t removal_tick);

}  // namespace driftbench::drilling
