#include "math/vec.h"
#include "scoring/explain_finders.h"
#include "scoring/explain_trace.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace driftbench::scoring {

namespace {

using drilling::LoadSample;

/// A side force counts from 1 N and a quarter of the thrust, held for 30 ms: above the ripple of a
/// drill that runs straight. Own choice.
constexpr double kSideForce_n = 1.0;
constexpr double kSideShare = 0.25;
constexpr std::int64_t kSustained_steps = 30;

/// What follows a side force: its peak within 300 ms, the displacement within 1 s. Own choice.
constexpr std::int64_t kPeakWithin_steps = 300;
constexpr std::int64_t kFollowWithin_steps = 1000;

/// A sleeve carries when it answers at least half of the side force and the point stays put. Own
/// choice.
constexpr double kCarriedShare = 0.5;
constexpr double kHeld_mm = 0.15;

/// Touching and pressed on; rubbing at a wall on the way out is neither push nor displacement.
bool is_cutting(const LoadSample& sample) {
  return sample.in_contact && sample.thrust_n > 0.0;
}

/// A stretch of neighbouring samples, [begin, end).
struct Run {
  std::size_t begin = 0;
  std::size_t end = 0;
};

/// Every stretch in which the condition holds without a break for at least 30 ms.
template <typename Condition>
std::vector<Run> sustained_runs(const DrillTrace& trace, const Condition& holds) {
  const std::vector<LoadSample>& samples = trace.samples;
  std::vector<Run> runs;
  std::size_t at = 0;
  while (at < samples.size()) {
    Run run{at, at};
    while (run.end < samples.size() && holds(samples[run.end]) &&
           (run.end == run.begin || is_next(samples[run.end - 1], samples[run.end]))) {
      ++run.end;
    }
    if (run.end > run.begin &&
        samples[run.end - 1].step - samples[run.begin].step >= kSustained_steps) {
      runs.push_back(run);
    }
    at = std::max(run.end, at + 1);
  }
  return runs;
}

/// Peak and mean direction of the side force in the first 300 ms of a run.
void set_side_force(const DrillTrace& trace, const Run& run, Moment& moment) {
  math::Vec2 sum(0.0);
  for (std::size_t i = run.begin; i < run.end; ++i) {
    const LoadSample& sample = trace.samples[i];
    if (sample.step - moment.step > kPeakWithin_steps) {
      break;
    }
    const math::Vec3 side = across(sample, sample.side_force_n);
    moment.force_n = std::max(moment.force_n, math::length(side));
    sum += in_plane(trace, side);
  }
  set_direction(moment, sum);
}

}  // namespace

std::optional<Moment> find_side_force(const DrillTrace& trace) {
  const std::vector<Run> runs = sustained_runs(trace, [](const LoadSample& sample) {
    const double side = math::length(across(sample, sample.side_force_n));
    return is_cutting(sample) && side > kSideForce_n && side > kSideShare * sample.thrust_n;
  });
  if (runs.empty()) {
    return std::nullopt;
  }
  const Run& run = runs.front();
  Moment moment = moment_at(trace, MomentKind::kSideForce, trace.samples[run.begin]);
  set_side_force(trace, run, moment);
  // How far the point then went in the direction of the push.
  const math::Vec2 start = lateral_mm(trace, trace.samples[run.begin]);
  for (std::size_t i = run.begin; i < trace.samples.size(); ++i) {
    const LoadSample& sample = trace.samples[i];
    if (sample.step - moment.step > kFollowWithin_steps) {
      break;
    }
    if (is_cutting(sample)) {
      const math::Vec2 moved = lateral_mm(trace, sample) - start;
      moment.amount_mm =
          std::max(moment.amount_mm, moved.x * moment.direction_md + moved.y * moment.direction_bl);
    }
  }
  return moment;
}

std::optional<Moment> find_guide_carries(const DrillTrace& trace) {
  const std::vector<Run> runs = sustained_runs(trace, [](const LoadSample& sample) {
    const math::Vec3 side = across(sample, sample.side_force_n);
    const math::Vec3 guide = across(sample, sample.guide_force_n);
    const double side2 = math::length2(side);
    return is_cutting(sample) && side2 > kSideForce_n * kSideForce_n &&
           -math::dot(guide, side) >= kCarriedShare * side2;
  });
  for (const Run& run : runs) {
    Moment moment = moment_at(trace, MomentKind::kGuideCarries, trace.samples[run.begin]);
    const math::Vec2 start = lateral_mm(trace, trace.samples[run.begin]);
    for (std::size_t i = run.begin; i < run.end; ++i) {
      if (trace.samples[i].step - moment.step > kPeakWithin_steps) {
        break;
      }
      moment.amount_mm =
          std::max(moment.amount_mm, math::length(lateral_mm(trace, trace.samples[i]) - start));
    }
    if (moment.amount_mm < kHeld_mm) {
      set_side_force(trace, run, moment);
      return moment;
    }
  }
  return std::nullopt;
}

}  // namespace driftbench::scoring
