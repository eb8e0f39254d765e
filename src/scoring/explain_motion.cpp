#include "geometry/line.h"
#include "math/vec.h"
#include "scoring/explain_finders.h"
#include "scoring/explain_trace.h"
#include "scoring/process.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace driftbench::scoring {

namespace {

using drilling::LoadSample;

/// The drill has left its line beyond this distance; side forces of the next 300 ms go with it. Own
/// choice.
constexpr std::int64_t kPeakWithin_steps = 300;
constexpr double kLeftLine_mm = 0.3;

/// A plunge: three times the mean advance of the last 0.3 s under about the same press, at least
/// 4 mm/s. A press that has just begun again moves the drill by itself. Own choice.
constexpr double kPlungeRatio = 3.0;
constexpr double kPlunge_mm_per_s = 4.0;
constexpr double kSamePress = 0.7;  // of the press at the jump
constexpr std::int64_t kPlungeHistory_steps = 300;
constexpr std::int64_t kPlungeLeastHistory_steps = 100;
constexpr std::int64_t kPlungeWithin_steps = 300;

/// Tolerance of a stop before depth counts as passed. Own choice.
constexpr double kPastDepth_mm = 0.05;

}  // namespace

std::optional<Moment> find_first_contact(const DrillTrace& trace) {
  for (const LoadSample& sample : trace.samples) {
    if (sample.in_contact) {
      return moment_at(trace, MomentKind::kFirstContact, sample);
    }
  }
  return std::nullopt;
}

std::optional<Moment> find_left_line(const DrillTrace& trace) {
  std::optional<Moment> moment;
  std::optional<math::Vec3> touched;
  for (const LoadSample& sample : trace.samples) {
    if (!sample.in_contact) {
      continue;
    }
    touched = touched.value_or(sample.pose.tip_mm);
    if (!(sample.feed_mm_per_s > 0.0)) {
      continue;  // lifting out, the hand may go anywhere
    }
    const geometry::Line axis{sample.pose.tip_mm, sample.pose.axis_out_unit};
    const math::Vec3 off = geometry::closest_point(axis, *touched) - *touched;
    const double distance = math::length(off);
    if (!moment && distance > kLeftLine_mm) {
      moment = moment_at(trace, MomentKind::kLeftLine, sample);
    }
    if (moment && sample.step - moment->step <= kPeakWithin_steps) {
      moment->force_n =
          std::max(moment->force_n, math::length(across(sample, sample.side_force_n)));
    }
    if (moment && distance > moment->amount_mm) {
      moment->amount_mm = distance;
      set_direction(*moment, in_plane(trace, off));
    }
  }
  return moment;
}

std::optional<Moment> find_plunge(const DrillTrace& trace) {
  const std::vector<LoadSample>& samples = trace.samples;
  for (std::size_t i = 1; i < samples.size(); ++i) {
    const LoadSample& now = samples[i];
    if (!(now.feed_mm_per_s > kPlunge_mm_per_s)) {
      continue;
    }
    // Mean advance while it cut without a break just before.
    double sum = 0.0;
    int count = 0;
    std::size_t k = i;
    while (k > 0 && samples[k - 1].in_contact && is_next(samples[k - 1], samples[k]) &&
           samples[k - 1].press_n >= kSamePress * now.press_n &&
           now.step - samples[k - 1].step <= kPlungeHistory_steps) {
      --k;
      sum += samples[k].feed_mm_per_s;
      ++count;
    }
    if (now.step - samples[k].step < kPlungeLeastHistory_steps ||
        now.feed_mm_per_s <= kPlungeRatio * std::max(sum / count, 0.0)) {
      continue;
    }
    Moment moment = moment_at(trace, MomentKind::kPlunge, now);
    for (std::size_t j = i; j < samples.size(); ++j) {
      if (samples[j].step - now.step > kPlungeWithin_steps ||
          !(samples[j].feed_mm_per_s > kPlunge_mm_per_s)) {
        break;
      }
      const math::Vec3 advance = samples[j].pose.tip_mm - samples[i - 1].pose.tip_mm;
      moment.speed_mm_per_s = std::max(moment.speed_mm_per_s, samples[j].feed_mm_per_s);
      moment.amount_mm = std::max(moment.amount_mm, math::dot(advance, trace.frame.down_unit));
    }
    return moment;
  }
  return std::nullopt;
}

std::optional<Moment> find_past_depth(const DrillTrace& trace, const specimen::Drill& drill,
                                      double planned_depth_mm) {
  std::optional<Moment> moment;
  for (const LoadSample& sample : trace.samples) {
    const double past =
        shoulder_depth_mm(sample.pose, drill, trace.planned_entry_mm, trace.frame.down_unit) -
        planned_depth_mm;
    if (!moment && past > kPastDepth_mm) {
      moment = moment_at(trace, MomentKind::kPastDepth, sample);
    }
    if (moment) {
      moment->amount_mm = std::max(moment->amount_mm, past);
    }
  }
  return moment;
}

}  // namespace driftbench::scoring
