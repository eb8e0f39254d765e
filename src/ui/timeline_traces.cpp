#include "ui/timeline_traces.h"

#include "base/contract.h"

#include <algorithm>
#include <array>

namespace driftbench::ui {

double trace_value(TraceKind kind, const drilling::LoadSample& sample,
                   const lesson::AttemptSetup& setup) {
  switch (kind) {
    case TraceKind::kPress:
      return sample.press_n;
    case TraceKind::kSide:
      return math::length(sample.side_force_n);
    case TraceKind::kDepth:
      break;
  }
  double tip_length_mm = 0.0;
  const auto index = static_cast<std::size_t>(sample.drill_index);
  if (sample.drill_index >= 0 && index < setup.kit.drills.size()) {
    tip_length_mm = setup.kit.drills[index].tip_length_mm;
  }
  const math::Vec3 shoulder = sample.pose.tip_mm + tip_length_mm * sample.pose.axis_out_unit;
  return -math::dot(shoulder - setup.plan.entry_mm, setup.plan.axis_out_unit);
}

std::vector<TraceColumn> trace_columns(TraceKind kind,
                                       std::span<const drilling::LoadSample> samples,
                                       const lesson::AttemptSetup& setup, std::int64_t end_step,
                                       int columns) {
  DRIFTBENCH_EXPECTS(columns > 0);
  std::vector<TraceColumn> result(static_cast<std::size_t>(columns));
  const std::int64_t last = std::max<std::int64_t>(1, end_step);
  for (const drilling::LoadSample& sample : samples) {
    const std::int64_t index =
        std::clamp<std::int64_t>(sample.step * columns / last, 0, columns - 1);
    TraceColumn& column = result[static_cast<std::size_t>(index)];
    const double value = trace_value(kind, sample, setup);
    column.low = column.filled ? std::min(column.low, value) : value;
    column.high = column.filled ? std::max(column.high, value) : value;
    column.filled = true;
  }
  return result;
}

std::vector<DrillStretch> drill_stretches(std::span<const drilling::LoadSample> samples) {
  std::vector<DrillStretch> stretches;
  for (const drilling::LoadSample& sample : samples) {
    if (sample.drill_index < 0) {
      continue;
    }
    if (stretches.empty() || stretches.back().drill_index != sample.drill_index) {
      stretches.push_back({sample.drill_index, sample.step, sample.step});
    }
    stretches.back().to_step = sample.step;
  }
  return stretches;
}

double tick_seconds(double total_s) {
  constexpr std::array kSteps{0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 60.0};
  for (const double step : kSteps) {
    if (total_s / step <= 10.0) {
      return step;
    }
  }
  return 120.0;
}

}  // namespace driftbench::ui
