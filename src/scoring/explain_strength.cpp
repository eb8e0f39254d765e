#include "math/vec.h"
#include "scoring/explain_finders.h"
#include "scoring/explain_trace.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace driftbench::scoring {

namespace {

using drilling::LoadSample;

/// Strength changes by more than 40 % within 1 mm of travel, in stretches of 0.1 mm of which three
/// neighbours are averaged; touching with less than 1 N tells nothing. Own choice.
constexpr double kHarderRatio = 1.4;
constexpr double kSofterRatio = 0.6;
constexpr double kStretch_mm = 0.1;
constexpr std::size_t kStretchesCompared = 10;
constexpr std::size_t kStretchesAveraged = 3;
constexpr double kLeastThrust_n = 1.0;

/// Mean strength over 0.1 mm of advance in contact.
struct Stretch {
  const LoadSample* first = nullptr;
  double sum_mpa = 0.0;
  int count = 0;

  [[nodiscard]] double mean_mpa() const { return sum_mpa / count; }
};

std::vector<Stretch> stretches_of(const DrillTrace& trace) {
  std::vector<Stretch> stretches;
  double travel_mm = 0.0;
  const LoadSample* before = nullptr;
  for (const LoadSample& sample : trace.samples) {
    if (!sample.in_contact || !(sample.strength_mpa > 0.0) || sample.thrust_n < kLeastThrust_n) {
      before = nullptr;
      continue;
    }
    travel_mm += before != nullptr ? math::length(sample.pose.tip_mm - before->pose.tip_mm) : 0.0;
    before = &sample;
    if (stretches.empty() || travel_mm >= kStretch_mm) {
      stretches.push_back({&sample, 0.0, 0});
      travel_mm = 0.0;
    }
    stretches.back().sum_mpa += sample.strength_mpa;
    ++stretches.back().count;
  }
  return stretches;
}

double averaged_mpa(const std::vector<Stretch>& stretches, std::size_t from) {
  double sum = 0.0;
  for (std::size_t i = from; i < from + kStretchesAveraged; ++i) {
    sum += stretches[i].mean_mpa();
  }
  return sum / static_cast<double>(kStretchesAveraged);
}

}  // namespace

std::optional<Moment> find_strength_change(const DrillTrace& trace, MomentKind kind) {
  const auto is_change = [kind](double ratio) {
    return kind == MomentKind::kHarder ? ratio > kHarderRatio : ratio < kSofterRatio;
  };
  const std::vector<Stretch> stretches = stretches_of(trace);
  for (std::size_t i = kStretchesAveraged; i + kStretchesAveraged <= stretches.size(); ++i) {
    const double now = averaged_mpa(stretches, i);
    const std::size_t from = i > kStretchesCompared ? i - kStretchesCompared : 0;
    for (std::size_t k = from; k + kStretchesAveraged <= i; ++k) {
      const double before = averaged_mpa(stretches, k);
      if (!is_change(now / before)) {
        continue;
      }
      // The first stretch of the three that shows it.
      std::size_t at = i;
      while (at + 1 < i + kStretchesAveraged && !is_change(stretches[at].mean_mpa() / before)) {
        ++at;
      }
      return moment_at(trace, kind, *stretches[at].first);
    }
  }
  return std::nullopt;
}

}  // namespace driftbench::scoring
