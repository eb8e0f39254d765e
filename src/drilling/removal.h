// Takes the drill's envelope out of the material, no more often than it has moved.
#pragma once

#include "drilling/step.h"

#include <cstdint>

namespace driftbench::drilling {

/// Removes the drill at its present pose. The point is stamped every time; the whole body only when
/// some part of it has moved across by more than a fraction of one coverage unit since it last was.
///
/// Result: coverage units lost
std::uint64_t remove_material(const Tool& tool, DrillState& state, volume::Volume& volume,
                              std::uint16_t removal_tick);

}  // namespace driftbench::drilling
