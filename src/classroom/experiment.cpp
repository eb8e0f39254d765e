#include "classroom/experiment.h"

#include "base/random.h"
#include "lesson/sequence_order.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace driftbench::classroom {
namespace {

using stats::Approach;

constexpr std::array<int, 2> kRuns{2, 4};

/// Streams of random numbers under the seed.
constexpr std::uint64_t kFirstStream = 1;   ///< who begins with which technique
constexpr std::uint64_t kWithinStream = 2;  ///< runs within a person

/// 0 and 1 as often as the count allows.
std::vector<std::size_t> balanced(std::size_t count, base::Rng rng) {
  std::vector<std::size_t> arms = lesson::balanced_runs((count + 1) / 2, kRuns, rng);
  arms.resize(count);
  return arms;
}

Approach approach_of(std::size_t arm) {
  return arm == 0 ? Approach::kFreehand : Approach::kSleeve;
}

/// Pairs of holes, each with both techniques; `firsts` says what begins each.
std::vector<Approach> pairs_in_order(const std::vector<std::size_t>& firsts, std::size_t flip) {
  std::vector<Approach> order;
  for (const std::size_t first : firsts) {
    order.push_back(approach_of(first ^ flip));
    order.push_back(approach_of(1U - (first ^ flip)));
  }
  return order;
}

std::vector<Approach> switched_once(std::size_t holes_each, std::size_t first) {
  std::vector<Approach> order(holes_each, approach_of(first));
  order.insert(order.end(), holes_each, approach_of(1U - first));
  return order;
}

base::Result<void> check_limits(const ExperimentDesign& design) {
  const bool is_class = design.kind == ExperimentKind::kClass;
  const std::size_t most = is_class ? kMaxPlaces : kMaxPairs;
  if (design.units < 2 || design.units > most) {
    return base::fail(base::ErrorCode::kOutOfRange,
                      fmt::format("found {} {}, expected 2 to {}", design.units,
                                  is_class ? "people" : "pairs of sites", most));
  }
  if (design.holes_each < 1 || design.holes_each > kMaxHolesEach) {
    return base::fail(base::ErrorCode::kOutOfRange,
                      fmt::format("found {} holes by either technique, expected 1 to {}",
                                  design.holes_each, kMaxHolesEach));
  }
  if (design.seed > static_cast<std::uint64_t>(kMaxSeed)) {
    return base::fail(base::ErrorCode::kOutOfRange,
                      fmt::format("found the seed {}, expected 0 to {}", design.seed, kMaxSeed));
  }
  return {};
}

base::Result<double> detectable(std::size_t units, double sd, const stats::Demand& demand) {
  constexpr int kHalvings = 50;
  constexpr double kFarthest = 1e3;  // in units of sd
  const auto finds = [&](double difference) {
    return stats::paired_power(units, difference, sd, demand.alpha) >= demand.power;
  };
  if (units < 2) {
    return base::fail(base::ErrorCode::kOutOfRange, "found fewer than two, expected two at least");
  }
  double low = 0.0;
  double high = sd;
  while (!finds(high) && high < kFarthest * sd) {
    low = high;
    high *= 2.0;
  }
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = 0.5 * (low + high);
    (finds(middle) ? high : low) = middle;
  }
  return high;
}

}  // namespace

ExperimentSize experiment_size(const ExperimentDesign& design) {
  const bool is_class = design.kind == ExperimentKind::kClass;
  ExperimentSize size;
  size.sd_difference_mm = stats::paired_difference_sd(
      is_class ? design.sd_effect_mm : 0.0, design.sd_freehand_mm, design.sd_sleeve_mm,
      is_class ? std::max<std::size_t>(design.holes_each, 1) : 1);
  stats::Demand high = design.demand;
  constexpr double kHighPower = 0.90;
  high.power = kHighPower;
  size.needed = stats::paired_size(design.difference_mm, size.sd_difference_mm, design.demand);
  size.needed_90 = stats::paired_size(design.difference_mm, size.sd_difference_mm, high);
  if (!size.needed || design.units < 2) {
    size.detectable_mm =
        base::fail(base::ErrorCode::kOutOfRange, "found a plan that makes no sense");
    return size;
  }
  size.power = stats::paired_power(design.units, design.difference_mm, size.sd_difference_mm,
                                   design.demand.alpha);
  size.detectable_mm = detectable(design.units, size.sd_difference_mm, design.demand);
  return size;
}

bool is_mixed(const ExperimentDesign& design) {
  return design.kind == ExperimentKind::kOneOperator || design.scheme == OrderScheme::kMixed;
}

base::Result<Experiment> allocate(const ExperimentDesign& design) {
  if (const base::Result<void> good = check_limits(design); !good) {
    return tl::unexpected<base::Error>(good.error());
  }
  Experiment experiment;
  experiment.design = design;
  const std::vector<std::size_t> firsts =
      balanced(design.units, base::Rng(base::split(design.seed, kFirstStream, 0)));
  if (design.kind == ExperimentKind::kOneOperator) {
    experiment.places.push_back({"", pairs_in_order(firsts, 0)});
    return experiment;
  }
  for (std::size_t i = 0; i < firsts.size(); ++i) {
    if (design.scheme == OrderScheme::kSwitchOnce) {
      experiment.places.push_back({"", switched_once(design.holes_each, firsts[i])});
      continue;
    }
    // Who begins with which technique stays balanced over people: a person's runs are turned round
    // where they begin otherwise.
    const std::vector<std::size_t> own =
        balanced(design.holes_each, base::Rng(base::split(design.seed, kWithinStream, i)));
    experiment.places.push_back({"", pairs_in_order(own, own.front() ^ firsts[i])});
  }
  return experiment;
}

}  // namespace driftbench::classroom
