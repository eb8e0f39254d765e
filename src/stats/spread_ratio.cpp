// Resampling on sums of each operator, so that a round costs one addition an operator.
#include "stats/spread_ratio.h"

#include "base/contract.h"
#include "base/random.h"
#include "stats/plane_scatter.h"
#include "stats/series.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string_view>

namespace driftbench::stats {
namespace {

// Holes about a common origin near their mean.
struct Sums {
  double n = 0.0;
  math::Vec2 sum{0.0};
  double squares = 0.0;

  void add(const Sums& other) {
    n += other.n;
    sum += other.sum;
    squares += other.squares;
  }

  // Sum of both variances; negative only by rounding.
  [[nodiscard]] double variance() const { return (squares - math::dot(sum, sum) / n) / (n - 1.0); }
};

struct OperatorSums {
  Sums first;
  Sums second;
};

Sums sums_of(std::span<const math::Vec2> points, const math::Vec2& origin) {
  Sums sums;
  for (const math::Vec2& point : points) {
    const math::Vec2 d = point - origin;
    sums.n += 1.0;
    sums.sum += d;
    sums.squares += math::dot(d, d);
  }
  return sums;
}

std::vector<math::Vec2> all_of(std::span<const OperatorHoles> operators,
                               std::vector<math::Vec2> OperatorHoles::*technique) {
  std::vector<math::Vec2> all;
  for (const OperatorHoles& one : operators) {
    const std::vector<math::Vec2>& points = one.*technique;
    all.insert(all.end(), points.begin(), points.end());
  }
  return all;
}

struct Scatters {
  PlaneScatter first;
  PlaneScatter second;
};

base::Result<Scatters> scatters_of(std::span<const OperatorHoles> operators) {
  const base::Result<PlaneScatter> first = plane_scatter(all_of(operators, &OperatorHoles::first));
  const base::Result<PlaneScatter> second =
      plane_scatter(all_of(operators, &OperatorHoles::second));
  if (!first || !second) {
    return tl::unexpected<base::Error>(first ? second.error() : first.error());
  }
  return Scatters{*first, *second};
}

// Scatter that is rounding of these numbers only.
constexpr double kRounding = 1e-12;

}  // namespace

base::Result<double> spread_ratio(std::span<const OperatorHoles> operators) {
  const base::Result<Scatters> all = scatters_of(operators);
  if (!all) {
    return tl::unexpected<base::Error>(all.error());
  }
  if (!(spread(all->second) > 0.0)) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "found no spread in the second technique, expected some to divide by");
  }
  return finite(spread(all->first) / spread(all->second));
}

base::Result<Interval> spread_ratio_interval(std::span<const OperatorHoles> operators,
                                             const Bootstrap& bootstrap) {
  DRIFTBENCH_EXPECTS(bootstrap.rounds > 0 && bootstrap.level > 0.0 && bootstrap.level < 1.0);
  if (operators.size() < 2) {
    return too_few(operators.size(), 2, "operator");
  }
  const base::Result<Scatters> all = scatters_of(operators);
  if (!all) {
    return tl::unexpected<base::Error>(all.error());
  }
  std::vector<OperatorSums> sums;
  sums.reserve(operators.size());
  for (const OperatorHoles& one : operators) {
    sums.push_back({sums_of(one.first, all->first.mean), sums_of(one.second, all->second.mean)});
  }
  const double least = kRounding * (all->second.xx + all->second.yy);

  base::Rng rng(bootstrap.seed);
  std::vector<double> ratios;
  ratios.reserve(static_cast<std::size_t>(bootstrap.rounds));
  for (int round = 0; round < bootstrap.rounds; ++round) {
    OperatorSums drawn;
    for (std::size_t i = 0; i < sums.size(); ++i) {
      const OperatorSums& one = sums[static_cast<std::size_t>(rng.below(sums.size()))];
      drawn.first.add(one.first);
      drawn.second.add(one.second);
    }
    const double below = drawn.second.n > 1.0 ? drawn.second.variance() : 0.0;
    if (drawn.first.n > 1.0 && below > least) {
      ratios.push_back(std::sqrt(std::max(drawn.first.variance(), 0.0) / below));
    }
  }
  const auto kept_at_least = static_cast<std::size_t>(bootstrap.rounds - bootstrap.rounds / 20);
  if (ratios.size() < kept_at_least) {
    return base::fail(
        base::ErrorCode::kInvalidArgument,
        fmt::format("found no ratio in {} of {} resamples, expected more operators or more holes",
                    static_cast<std::size_t>(bootstrap.rounds) - ratios.size(), bootstrap.rounds));
  }
  std::sort(ratios.begin(), ratios.end());
  const double tail = 0.5 * (1.0 - bootstrap.level);
  return Interval{sorted_quantile(ratios, tail), sorted_quantile(ratios, 1.0 - tail)};
}

}  // namespace driftbench::stats
