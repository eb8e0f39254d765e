// Curves of the load trace, reduced to what a pixel column can show.
#pragma once

#include "drilling/pose.h"
#include "lesson/attempt_setup.h"

#include <cstdint>
#include <span>
#include <vector>

namespace driftbench::ui {

enum class TraceKind { kDepth, kPress, kSide };

/// Value of a sample: depth of the full diameter below the platform [mm], press [N], side force
/// [N].
[[nodiscard]] double trace_value(TraceKind kind, const drilling::LoadSample& sample,
                                 const lesson::AttemptSetup& setup);

/// Lowest and highest value of the samples that fall into one column.
struct TraceColumn {
  bool filled = false;
  double low = 0.0;
  double high = 0.0;
};

/// One column per pixel from step 0 to `end_step`. Contract: columns > 0.
[[nodiscard]] std::vector<TraceColumn> trace_columns(TraceKind kind,
                                                     std::span<const drilling::LoadSample> samples,
                                                     const lesson::AttemptSetup& setup,
                                                     std::int64_t end_step, int columns);

/// Stretch of time with the same drill in hand.
struct DrillStretch {
  std::int32_t drill_index = -1;
  std::int64_t from_step = 0;
  std::int64_t to_step = 0;
};

[[nodiscard]] std::vector<DrillStretch> drill_stretches(
    std::span<const drilling::LoadSample> samples);

/// A round number of seconds that gives 4 to 10 ticks.
[[nodiscard]] double tick_seconds(double total_s);

}  // namespace driftbench::ui
