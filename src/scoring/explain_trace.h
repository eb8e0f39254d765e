// Readings of a drill's load trace that several finders share.
#pragma once

#include "drilling/pose.h"
#include "math/vec.h"
#include "scoring/explain.h"
#include "scoring/explain_finders.h"

namespace driftbench::scoring {

/// The md and bl components of a vector.
[[nodiscard]] math::Vec2 in_plane(const DrillTrace& trace, const math::Vec3& v);

/// Where the tip is beside the planned axis [mm].
[[nodiscard]] math::Vec2 lateral_mm(const DrillTrace& trace, const drilling::LoadSample& sample);

/// Part of a force at right angles to the drill [N].
[[nodiscard]] math::Vec3 across(const drilling::LoadSample& sample, const math::Vec3& force);

/// A moment of this kind at the sample's step, drill and depth.
[[nodiscard]] Moment moment_at(const DrillTrace& trace, MomentKind kind,
                               const drilling::LoadSample& sample);

/// Sets the unit direction; a zero vector leaves none.
void set_direction(Moment& moment, const math::Vec2& direction);

/// True when no sample is missing between two neighbours (another drill, a pause).
[[nodiscard]] bool is_next(const drilling::LoadSample& before, const drilling::LoadSample& after);

}  // namespace driftbench::scoring
