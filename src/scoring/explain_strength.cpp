#include "math/vec.h"
#include "scoring/explain_finders.h"
#include "scoring/explain_trace.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace driftbench::scoring {

namespace {

using drilling::LoadSample;

/// Strength changes by more than 40 % within 1 mm of travel, in stretches of 0.1 mm. Own choice.
constexpr double kHarderRatio = 1.4;
constexpr double kSofterRatio = 0.6;
constexpr double kStretch_mm = 0.1;
constexpr std::size_t kStretchesCompared = 10;

}  // namespace

std::optional<Moment> find_strength_change(const DrillTrace& trace, MomentKind kind) {
  // Mean strength over stretches of 0.1 mm of advance in contact.
  struct Stretch {
    const LoadSample* first;
    double sum_mpa;
    int count;

    [[nodiscard]] double mean_mpa() const { return sum_mpa / count; }
  };

  std::vector<Stretch> stretches;
  double travel_mm = 0.0;
  const LoadSample* before = nullptr;
  for (const LoadSample& sample : trace.samples) {
    if (!sample.in_contact || !(sample.strength_mpa > 0.0)) {
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
  // Each stretch against those of the last millimetre.
  for (std::size_t i = 1; i < stretches.size(); ++i) {
    const std::size_t from = i > kStretchesCompared ? i - kStretchesCompared : 0;
    for (std::size_t k = from; k < i; ++k) {
      const double ratio = stretches[i].mean_mpa() / stretches[k].mean_mpa();
      if (kind == MomentKind::kHarder ? ratio > kHarderRatio : ratio < kSofterRatio) {
        return moment_at(trace, kind, *stretches[i].first);
      }
    }
  }
  return std::nullopt;
}

}  // namespace driftbench::scoring
