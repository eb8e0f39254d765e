// Sorts holes by approach and operator and calls the single statistics.
#include "stats/class_statistics.h"

#include "stats/containing_radius.h"
#include "stats/plane_scatter.h"
#include "stats/series.h"
#include "stats/spread_ratio.h"
#include "stats/wilcoxon.h"

#include <algorithm>
#include <cmath>

namespace driftbench::stats {
namespace {

using base::Result;

Groups measures_by_operator(const HoleTable& table, Approach approach) {
  Groups groups(table.operators.size());
  for (const Hole& hole : table.holes) {
    if (hole.approach == approach && hole.measure.has_value()) {
      groups[hole.operator_index].push_back(*hole.measure);
    }
  }
  return groups;
}

std::vector<math::Vec2> entries_of(const HoleTable& table, Approach approach) {
  std::vector<math::Vec2> points;
  for (const Hole& hole : table.holes) {
    if (hole.approach == approach && hole.entry.has_value()) {
      points.push_back(*hole.entry);
    }
  }
  return points;
}

std::size_t operators_of(const HoleTable& table, Approach approach) {
  std::vector<bool> is_there(table.operators.size(), false);
  for (const Hole& hole : table.holes) {
    if (hole.approach == approach && hole.entry.has_value()) {
      is_there[hole.operator_index] = true;
    }
  }
  return static_cast<std::size_t>(std::count(is_there.begin(), is_there.end(), true));
}

Result<math::Vec2> bias_of(const std::vector<math::Vec2>& points) {
  if (points.empty()) {
    return too_few(0, 1, "hole");
  }
  std::vector<double> md;
  std::vector<double> bl;
  for (const math::Vec2& point : points) {
    md.push_back(point.x);
    bl.push_back(point.y);
  }
  return math::Vec2(mean(md), mean(bl));
}

GroupStatistics group_statistics(const HoleTable& table, Approach approach) {
  GroupStatistics group;
  const std::vector<math::Vec2> points = entries_of(table, approach);
  group.approach = approach;
  group.n = points.size();
  group.operators = operators_of(table, approach);
  group.bias = bias_of(points);
  const Result<PlaneScatter> scatter = plane_scatter(points);
  group.sd = scatter.map(
      [](const PlaneScatter& s) { return math::Vec2(std::sqrt(s.xx), std::sqrt(s.yy)); });
  group.spread_mm = scatter.map(spread);
  const auto radius = [](double share) {
    return [share](const PlaneScatter& s) { return containing_radius(s, share); };
  };
  constexpr double kHalf = 0.50;
  group.r50_mm = scatter.and_then(radius(kHalf));
  group.r95_mm = scatter.and_then(radius(kLevel));
  // These need more points than a scatter does, and say so even where there is no scatter.
  const PlaneScatter or_none =
      scatter.value_or(PlaneScatter{points.size(), math::Vec2(0.0), 0, 0, 0});
  group.prediction_ellipse = prediction_ellipse(or_none, kLevel);
  group.mean_ellipse = mean_ellipse(or_none, kLevel);
  group.hotelling = hotelling(or_none);

  const Groups measures = measures_by_operator(table, approach);
  for (const std::vector<double>& values : measures) {
    group.measured += values.size();
  }
  group.repeatability_sd = repeatability_sd(measures);
  const Result<OneWay> analysis = one_way(measures);
  group.between_operator_sd = analysis.map(&OneWay::between_sd);
  group.reproducibility_sd = analysis.map(&OneWay::reproducibility_sd);
  return group;
}

// Holes of the operators who have the measure by both approaches.
std::vector<OperatorHoles> paired_holes(const HoleTable& table) {
  std::vector<OperatorHoles> operators(table.operators.size());
  for (const Hole& hole : table.holes) {
    if (!hole.measure.has_value() || hole.approach == Approach::kPilot) {
      continue;
    }
    const math::Vec2 point = table.is_column_measure ? math::Vec2(*hole.measure, 0.0)
                                                     : hole.entry.value_or(math::Vec2(0.0));
    OperatorHoles& one = operators[hole.operator_index];
    (hole.approach == Approach::kFreehand ? one.first : one.second).push_back(point);
  }
  operators.erase(std::remove_if(operators.begin(), operators.end(),
                                 [](const OperatorHoles& one) {
                                   return one.first.empty() || one.second.empty();
                                 }),
                  operators.end());
  return operators;
}

PairedStatistics paired_statistics(const HoleTable& table) {
  const Groups freehand = measures_by_operator(table, Approach::kFreehand);
  const Groups sleeve = measures_by_operator(table, Approach::kSleeve);
  std::vector<double> first;
  std::vector<double> second;
  for (std::size_t i = 0; i < table.operators.size(); ++i) {
    if (!freehand[i].empty() && !sleeve[i].empty()) {
      first.push_back(mean(freehand[i]));
      second.push_back(mean(sleeve[i]));
    }
  }
  PairedStatistics paired;
  paired.operators = first.size();
  if (first.empty()) {
    const auto none = base::fail(
        base::ErrorCode::kInvalidArgument,
        "found no operator with holes both freehand and by sleeve, expected at least one");
    paired.mean_difference = none;
    paired.t = none;
    paired.rank_sum = none;
    paired.rank_p = none;
    paired.spread_ratio = none;
    paired.spread_ratio_interval = none;
    return paired;
  }
  const std::vector<double> differences = paired_differences(first, second);
  paired.mean_difference = mean(differences);
  paired.t = paired_t(differences, kLevel);
  paired.rank_sum = signed_rank_sum(differences);
  paired.rank_p = signed_rank_p(differences);
  const std::vector<OperatorHoles> holes = paired_holes(table);
  paired.spread_ratio = spread_ratio(holes);
  paired.spread_ratio_interval =
      paired.spread_ratio.and_then([&holes](double) { return spread_ratio_interval(holes); });
  return paired;
}

}  // namespace

ClassStatistics class_statistics(const HoleTable& table) {
  ClassStatistics statistics;
  for (std::size_t i = 0; i < kApproachNames.size(); ++i) {
    const auto approach = static_cast<Approach>(i);
    const bool is_there =
        std::any_of(table.holes.begin(), table.holes.end(),
                    [approach](const Hole& hole) { return hole.approach == approach; });
    if (is_there) {
      statistics.groups.push_back(group_statistics(table, approach));
    }
  }
  statistics.paired = paired_statistics(table);
  return statistics;
}

}  // namespace driftbench::stats
