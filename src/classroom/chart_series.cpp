// Entry distance attempt by attempt, and hole sizes by approach.
#include "classroom/axes.h"
#include "classroom/charts.h"
#include "classroom/learner_summary.h"
#include "classroom/words.h"
#include "stats/series.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace driftbench::classroom {
namespace {

using stats::Approach;

/// Half the width of a picture for each of two approaches, all of it for one.
constexpr double kWide = 1000.0;

/// Thin lines of at most this many learners; the median is that of all.
constexpr std::size_t kMaxCurves = 400;

void draw_curves(Picture& picture, const Frame& frame, const Part& part, Approach approach) {
  std::map<std::size_t, std::vector<double>> by_attempt;
  std::size_t curves = 0;
  for (const LearnerSummary& summary : part.learners) {
    if (summary.approach != approach) {
      continue;
    }
    std::vector<math::Vec2> line;
    for (std::size_t i = 0; i < summary.entries.size(); ++i) {
      if (const std::optional<double> distance = entry_distance_mm(*summary.entries[i])) {
        line.emplace_back(frame.x(stats::real(i + 1)), frame.y(*distance));
        by_attempt[i + 1].push_back(*distance);
      }
    }
    if (!line.empty() && ++curves <= kMaxCurves) {
      picture.path(
          std::move(line), false,
          fmt::format("curve-{}", stats::kApproachNames[static_cast<std::size_t>(approach)]));
    }
  }
  std::vector<math::Vec2> median;
  for (auto& [attempt, distances] : by_attempt) {
    if (distances.size() < kMinShownLearners) {
      continue;
    }
    std::sort(distances.begin(), distances.end());
    median.emplace_back(frame.x(stats::real(attempt)),
                        frame.y(stats::sorted_quantile(distances, 0.5)));
  }
  if (median.size() > 1) {
    picture.path(median, false, "median");
  }
  for (const math::Vec2& point : median) {
    picture.mark(point.x, point.y, 8.0, approach, part.source);
  }
  if (median.empty()) {
    // Too few for a median: the attempts themselves.
    for (const auto& [attempt, distances] : by_attempt) {
      for (const double distance : distances) {
        picture.mark(frame.x(stats::real(attempt)), frame.y(distance), 6.0, approach, part.source);
      }
    }
  }
}

}  // namespace

std::vector<Picture> learning_curves(const Class&, const Part& part) {
  std::vector<Approach> approaches;
  double largest = 0.0;
  std::size_t longest = 0;
  for (const LearnerSummary& summary : part.learners) {
    if (!is_shown(part, summary.approach)) {
      continue;
    }
    for (const Entry* entry : summary.entries) {
      largest = std::max(largest, entry_distance_mm(*entry).value_or(0.0));
    }
    longest = std::max(longest, summary.entries.size());
    if (summary.bias &&
        std::find(approaches.begin(), approaches.end(), summary.approach) == approaches.end()) {
      approaches.push_back(summary.approach);
    }
  }
  if (approaches.empty()) {
    return {};
  }
  std::sort(approaches.begin(), approaches.end());
  Picture picture(kWide, 520.0, "Entry error, attempt by attempt",
                  "Faint: learners. Strong: the median of attempts with five learners or more.");
  const double wide = kWide / stats::real(approaches.size());
  for (std::size_t i = 0; i < approaches.size(); ++i) {
    const double from = wide * stats::real(i) + 70.0;
    const std::string name = fmt::format("attempt, {}", approach_word(approaches[i]));
    const Frame frame{{0.5, std::max(2.5, stats::real(longest) + 0.5), from, from + wide - 100.0},
                      {0.0, axis_end(largest, 1.0), 440.0, 60.0},
                      name,
                      "Entry error, mm",
                      true,
                      true};
    draw_frame(picture, frame);
    if (part.tolerance.has_value() && part.tolerance->entry_mm <= frame.y.high) {
      picture.line(frame.x.from, frame.y(part.tolerance->entry_mm), frame.x.to,
                   frame.y(part.tolerance->entry_mm), "limit");
    }
    draw_curves(picture, frame, part, approaches[i]);
  }
  return {picture};
}

std::vector<Picture> hole_sizes(const Class&, const Part& part) {
  std::array<std::vector<double>, stats::kApproachNames.size()> sizes;
  double low = 1e9;
  double high = 0.0;
  for (const Entry* entry : thinned(part)) {
    if (is_shown(part, entry->approach) && entry->measures.hole_diameter_mm.has_value()) {
      const double size = *entry->measures.hole_diameter_mm;
      sizes[static_cast<std::size_t>(entry->approach)].push_back(size);
      low = std::min(low, size);
      high = std::max(high, size);
    }
  }
  std::vector<std::size_t> rows;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    if (!sizes[i].empty()) {
      rows.push_back(i);
    }
  }
  if (rows.empty()) {
    return {};
  }
  const double step = tick_step(std::max(0.5, high - low));
  const double from = std::max(0.0, (std::floor(low / step) - 0.5) * step);
  const double to = (std::ceil(high / step) + 0.5) * step;
  constexpr double kRow = 110.0;
  const double bottom = 50.0 + kRow * stats::real(rows.size());
  Picture picture(1000.0, bottom + 70.0, "Hole size",
                  "Diameter of every hole, and the median as a line.");
  const Scale across{from, to, 170.0, 960.0};
  for (double i = std::ceil(from / step); i * step <= to; i += 1.0) {
    picture.line(across(i * step), bottom, across(i * step), 40.0, "grid");
    picture.text(across(i * step), bottom + 24.0, fmt::format("{:.2f}", i * step), Anchor::kMiddle);
  }
  picture.line(across.from, bottom, across.to, bottom, "axis");
  picture.text(0.5 * (across.from + across.to), bottom + 56.0, "Diameter, mm", Anchor::kMiddle,
               "name");
  for (std::size_t r = 0; r < rows.size(); ++r) {
    std::vector<double>& values = sizes[rows[r]];
    const auto approach = static_cast<Approach>(rows[r]);
    const double y = 45.0 + kRow * (stats::real(r) + 0.5);
    picture.text(0.0, y + 6.0, approach_word(approach), Anchor::kStart, "name");
    for (std::size_t i = 0; i < values.size(); ++i) {
      // Five lanes, so that equal sizes lie beside one another.
      constexpr std::size_t kLanes = 5;
      constexpr double kLane = 14.0;
      const double lane = stats::real(i % kLanes) - 2.0;
      picture.mark(across(values[i]), y + kLane * lane, 6.0, approach, part.source);
    }
    std::sort(values.begin(), values.end());
    const double x = across(stats::sorted_quantile(values, 0.5));
    picture.line(x, y - 44.0, x, y + 44.0, "median");
  }
  return {picture};
}

}  // namespace driftbench::classroom
