// Free-hand and sleeve of the same learners, and the differences.
#include "classroom/axes.h"
#include "classroom/charts.h"
#include "classroom/learner_summary.h"
#include "classroom/words.h"
#include "stats/series.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace driftbench::classroom {
namespace {

struct Pair {
  double freehand_mm = 0.0;
  double sleeve_mm = 0.0;
};

std::optional<double> mean_distance_mm(const LearnerSummary& summary) {
  std::vector<double> distances;
  for (const Entry* entry : summary.entries) {
    if (const std::optional<double> distance = entry_distance_mm(*entry)) {
      distances.push_back(*distance);
    }
  }
  return distances.empty() ? std::nullopt : std::optional(stats::mean(distances));
}

std::vector<Pair> pairs_of(const Part& part) {
  std::map<std::size_t, std::pair<std::optional<double>, std::optional<double>>> means;
  for (const LearnerSummary& summary : part.learners) {
    if (!is_shown(part, summary.approach)) {
      continue;
    }
    if (summary.approach == stats::Approach::kFreehand) {
      means[summary.learner].first = mean_distance_mm(summary);
    } else if (summary.approach == stats::Approach::kSleeve) {
      means[summary.learner].second = mean_distance_mm(summary);
    }
  }
  std::vector<Pair> pairs;
  for (const auto& [learner, both] : means) {
    if (both.first.has_value() && both.second.has_value()) {
      pairs.push_back({*both.first, *both.second});
    }
  }
  return pairs;
}

}  // namespace

std::vector<Picture> paired_lines(const Class& whole, const Part& part) {
  const std::vector<Pair> pairs = pairs_of(part);
  if (pairs.empty() || !whole.shows(pairs.size())) {
    return {};
  }
  double largest = 0.0;
  double reach = 0.0;
  for (const Pair& pair : pairs) {
    largest = std::max({largest, pair.freehand_mm, pair.sleeve_mm});
    reach = std::max(reach, std::abs(pair.freehand_mm - pair.sleeve_mm));
  }
  const auto& test = part.statistics.paired.t;
  if (test) {
    reach = std::max({reach, std::abs(test->interval.low), std::abs(test->interval.high)});
  }
  const double end = axis_end(1.05 * largest, 1.0);
  const double far = axis_end(1.05 * reach, 0.5);
  Picture picture(
      1000.0, 560.0, "The same learners, free-hand and by sleeve",
      "Left: a line a learner. Right: differences free-hand minus sleeve with their mean and "
      "its interval.");
  const Frame left{
      {0.0, 1.0, 80.0, 540.0}, {0.0, end, 490.0, 60.0}, "", "Mean entry error, mm", false};
  draw_frame(picture, left);
  constexpr double kFreehand = 0.2;
  constexpr double kSleeve = 0.8;
  const std::size_t step = pairs.size() / kMaxMarks + 1;
  for (std::size_t i = 0; i < pairs.size(); i += step) {
    const Pair& pair = pairs[i];
    picture.line(left.x(kFreehand), left.y(pair.freehand_mm), left.x(kSleeve),
                 left.y(pair.sleeve_mm), "link");
  }
  for (std::size_t i = 0; i < pairs.size(); i += step) {
    const Pair& pair = pairs[i];
    picture.mark(left.x(kFreehand), left.y(pair.freehand_mm), 9.0, stats::Approach::kFreehand,
                 part.source);
    picture.mark(left.x(kSleeve), left.y(pair.sleeve_mm), 9.0, stats::Approach::kSleeve,
                 part.source);
  }
  picture.text(left.x(kFreehand), 525.0, "free-hand", Anchor::kMiddle, "name");
  picture.text(left.x(kSleeve), 525.0, "sleeve", Anchor::kMiddle, "name");

  const Frame right{
      {0.0, 1.0, 680.0, 960.0}, {-far, far, 490.0, 60.0}, "", "Free-hand minus sleeve, mm", false};
  draw_frame(picture, right);
  picture.line(right.x(0.0), right.y(0.0), right.x(1.0), right.y(0.0), "zero");
  for (std::size_t i = 0; i < pairs.size(); i += step) {
    const double along = (static_cast<double>(i) + 1.0) / (stats::real(pairs.size()) + 1.0);
    picture.circle(right.x(0.1 + 0.45 * along), right.y(pairs[i].freehand_mm - pairs[i].sleeve_mm),
                   7.0, "difference");
  }
  if (test) {
    const double x = right.x(0.8);
    picture.line(x, right.y(test->interval.low), x, right.y(test->interval.high), "interval");
    picture.circle(x, right.y(test->mean), 9.0, "mean");
    picture.text(x, 525.0, "mean, 95 %", Anchor::kMiddle, "name");
  }
  picture.text(right.x(0.3), 525.0, "learners", Anchor::kMiddle, "name");
  return {picture};
}

}  // namespace driftbench::classroom
