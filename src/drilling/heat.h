// A one-number estimate of the temperature at the wall. Illustrative only.
#pragma once

namespace driftbench::drilling {

/// Wall temperature after one step: a small thermal mass warmed by the cutting power and cooled
/// toward its surroundings, faster with irrigation (MODEL eq. 10).
///
/// Source: own assumption throughout; good enough to show that long dry contact warms and that
/// lifting
///         and irrigation cool, for nothing else
[[nodiscard]] double heated_degc(double wall_degc, double power_w, double ambient_degc,
                                 bool irrigation, double step_s);

}  // namespace driftbench::drilling
