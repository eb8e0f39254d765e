#include "classroom/learner_summary.h"

#include "stats/plane_scatter.h"
#include "stats/series.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace driftbench::classroom {
namespace {

using base::Result;

Result<double> mean_of(const std::vector<double>& values, const std::string& noun) {
  return values.empty() ? Result<double>(stats::too_few(0, 1, noun))
                        : Result<double>(stats::mean(values));
}

std::vector<double> values_of(const std::vector<const Entry*>& entries,
                              std::optional<double> Measures::*member) {
  std::vector<double> values;
  for (const Entry* entry : entries) {
    if ((entry->measures.*member).has_value()) {
      values.push_back(*(entry->measures.*member));
    }
  }
  return values;
}

Result<double> median_of(std::vector<double> values, const std::string& noun) {
  constexpr double kHalf = 0.5;
  if (values.empty()) {
    return stats::too_few(0, 1, noun);
  }
  std::sort(values.begin(), values.end());
  return stats::sorted_quantile(values, kHalf);
}

void add_plane(LearnerSummary& summary) {
  std::vector<math::Vec2> points;
  for (const Entry* entry : summary.entries) {
    if (entry_distance_mm(*entry).has_value()) {
      points.emplace_back(*entry->measures.entry_md_mm, *entry->measures.entry_bl_mm);
    }
  }
  if (points.empty()) {
    summary.bias = stats::too_few(0, 1, "hole");
  } else {
    math::Vec2 sum(0.0);
    for (const math::Vec2& point : points) {
      sum += point;
    }
    summary.bias = sum / stats::real(points.size());
  }
  summary.bias_mm =
      summary.bias.map([](const math::Vec2& bias) { return std::hypot(bias.x, bias.y); });
  summary.spread_mm = stats::plane_scatter(points).map(stats::spread);
}

void add_estimate(LearnerSummary& summary) {
  std::vector<double> errors;
  for (const Entry* entry : summary.entries) {
    if (entry->estimate.has_value() && entry_distance_mm(*entry).has_value()) {
      errors.push_back(std::hypot(entry->estimate->entry_md_mm - *entry->measures.entry_md_mm,
                                  entry->estimate->entry_bl_mm - *entry->measures.entry_bl_mm));
    }
  }
  summary.estimate_error_mm = mean_of(errors, "estimate");
}

void add_learning(LearnerSummary& summary) {
  std::vector<double> x;
  std::vector<double> y;
  for (std::size_t i = 0; i < summary.entries.size(); ++i) {
    if (const std::optional<double> distance = entry_distance_mm(*summary.entries[i])) {
      x.push_back(stats::real(i + 1));
      y.push_back(*distance);
    }
  }
  summary.learning = stats::fit_levelling(x, y);
}

struct EstimatedMeasure {
  std::string_view name;
  double scoring::SelfEstimate::*estimated;
  std::optional<double> Measures::*measured;
};

constexpr std::array<EstimatedMeasure, 5> kEstimated{
    {{"entry_md_mm", &scoring::SelfEstimate::entry_md_mm, &Measures::entry_md_mm},
     {"entry_bl_mm", &scoring::SelfEstimate::entry_bl_mm, &Measures::entry_bl_mm},
     {"depth_mm", &scoring::SelfEstimate::depth_error_mm, &Measures::depth_mm},
     {"tilt_md_deg", &scoring::SelfEstimate::tilt_md_deg, &Measures::tilt_md_deg},
     {"tilt_bl_deg", &scoring::SelfEstimate::tilt_bl_deg, &Measures::tilt_bl_deg}}};

}  // namespace

std::optional<double> entry_distance_mm(const Entry& entry) {
  const Measures& measures = entry.measures;
  if (!measures.entry_md_mm.has_value() || !measures.entry_bl_mm.has_value()) {
    return std::nullopt;
  }
  return std::hypot(*measures.entry_md_mm, *measures.entry_bl_mm);
}

LearnerSummary summarise(std::size_t learner, stats::Approach approach,
                         std::vector<const Entry*> entries) {
  LearnerSummary summary;
  summary.learner = learner;
  summary.approach = approach;
  summary.entries = std::move(entries);
  for (const Entry* entry : summary.entries) {
    summary.events += entry->events.size();
    summary.judged += entry->inside.has_value() ? 1U : 0U;
    summary.inside += entry->inside.value_or(false) ? 1U : 0U;
  }
  add_plane(summary);
  const std::vector<double> depths = values_of(summary.entries, &Measures::depth_mm);
  summary.depth_mean_mm = mean_of(depths, "depth");
  summary.depth_sd_mm = stats::standard_deviation(depths);
  summary.angle_mean_deg = mean_of(values_of(summary.entries, &Measures::angle_deg), "angle");
  summary.diameter_mean_mm =
      mean_of(values_of(summary.entries, &Measures::hole_diameter_mm), "hole diameter");
  summary.time_median_s = median_of(values_of(summary.entries, &Measures::time_s), "time");
  add_estimate(summary);
  add_learning(summary);
  return summary;
}

std::vector<EstimateAgreement> agreements(const std::vector<const Entry*>& entries) {
  std::vector<EstimateAgreement> all;
  for (std::size_t i = 0; i < stats::kApproachNames.size(); ++i) {
    const auto approach = static_cast<stats::Approach>(i);
    for (const EstimatedMeasure& measure : kEstimated) {
      std::vector<double> estimated;
      std::vector<double> measured;
      std::set<std::string> learners;
      for (const Entry* entry : entries) {
        const std::optional<double>& value = entry->measures.*measure.measured;
        if (entry->approach == approach && entry->estimate.has_value() && value.has_value()) {
          estimated.push_back((*entry->estimate).*measure.estimated);
          measured.push_back(*value);
          learners.insert(entry->learner);
        }
      }
      if (!estimated.empty()) {
        all.push_back(
            {measure.name, approach, learners.size(), stats::agreement(estimated, measured)});
      }
    }
  }
  return all;
}

}  // namespace driftbench::classroom
