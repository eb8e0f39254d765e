#include "scoring/explain.h"

#include "scoring/explain_finders.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>

namespace driftbench::scoring {

namespace {

/// The trace split by drill, in order of first use.
std::vector<DrillTrace> split_by_drill(std::span<const drilling::LoadSample> samples,
                                       const geometry::AnatomicalFrame& frame,
                                       const math::Vec3& planned_entry_mm) {
  std::vector<DrillTrace> traces;
  for (const drilling::LoadSample& sample : samples) {
    if (sample.drill_index < 0) {
      continue;
    }
    const auto same_drill = [&sample](const DrillTrace& trace) {
      return trace.samples.front().drill_index == sample.drill_index;
    };
    auto trace = std::find_if(traces.begin(), traces.end(), same_drill);
    if (trace == traces.end()) {
      traces.push_back({{}, frame, planned_entry_mm});
      trace = traces.end() - 1;
    }
    trace->samples.push_back(sample);
  }
  return traces;
}

void keep(std::vector<Moment>& moments, const std::optional<Moment>& moment) {
  if (moment) {
    moments.push_back(*moment);
  }
}

}  // namespace

std::vector<Moment> find_moments(std::span<const drilling::LoadSample> samples,
                                 const geometry::AnatomicalFrame& frame,
                                 const math::Vec3& planned_entry_mm, double planned_depth_mm,
                                 std::span<const specimen::Drill> drills) {
  std::vector<Moment> moments;
  for (const DrillTrace& trace : split_by_drill(samples, frame, planned_entry_mm)) {
    keep(moments, find_first_contact(trace));
    keep(moments, find_side_force(trace));
    keep(moments, find_strength_change(trace, MomentKind::kHarder));
    keep(moments, find_strength_change(trace, MomentKind::kSofter));
    keep(moments, find_left_line(trace));
    keep(moments, find_guide_carries(trace));
    keep(moments, find_plunge(trace));
    const std::size_t drill = static_cast<std::size_t>(trace.samples.front().drill_index);
    if (drill < drills.size()) {
      keep(moments, find_past_depth(trace, drills[drill], planned_depth_mm));
    }
  }
  std::stable_sort(moments.begin(), moments.end(),
                   [](const Moment& a, const Moment& b) { return a.step < b.step; });
  return moments;
}

}  // namespace driftbench::scoring
