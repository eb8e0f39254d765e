#include "classroom/tables.h"

#include "base/csv.h"
#include "base/text.h"
#include "classroom/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace driftbench::classroom {
namespace {

std::string header_of(std::span<const Column> columns) {
  std::vector<std::string> names;
  for (const Column& column : columns) {
    names.emplace_back(column.name);
  }
  return base::csv_line(names);
}

std::string cell_of(const std::optional<double>& value) {
  return value.has_value() ? base::number(*value) : std::string();
}

std::string hole_row(const Entry& entry) {
  std::vector<std::string> cells{
      safe_cell(entry.attempt_id),
      safe_cell(entry.learner),
      safe_cell(entry.cohort),
      std::string(stats::kApproachNames[static_cast<std::size_t>(entry.approach)]),
      safe_cell(entry.implant_through_guide),
      safe_cell(entry.measured),
      safe_cell(entry.site),
      safe_cell(entry.specimen),
      base::parse_number(entry.boundary_deg).has_value() ? entry.boundary_deg
                                                         : safe_cell(entry.boundary_deg),
      entry.period.has_value() ? std::to_string(*entry.period) : std::string()};
  for (const auto& [name, member] : kMeasureColumns) {
    cells.push_back(cell_of(entry.measures.*member));
  }
  cells.emplace_back(kSourceNames[static_cast<std::size_t>(entry.source)]);
  return base::csv_line(cells);
}

/// Cells of one learner; what is missing leaves a reason.
class LearnerRow {
 public:
  void text(std::string_view cell) { cells_.push_back(safe_cell(cell)); }

  void count(std::size_t number) { cells_.push_back(std::to_string(number)); }

  void number(std::string_view name, const base::Result<double>& value) {
    if (value) {
      cells_.push_back(base::number(*value));
      return;
    }
    cells_.emplace_back();
    const auto same = std::find_if(reasons_.begin(), reasons_.end(), [&](const auto& reason) {
      return reason.second == value.error().message;
    });
    if (same == reasons_.end()) {
      reasons_.emplace_back(std::string(name), value.error().message);
    } else {
      same->first += fmt::format(", {}", name);
    }
  }

  std::string take() {
    std::vector<std::string> reasons;
    for (const auto& [names, reason] : reasons_) {
      reasons.push_back(fmt::format("{}: {}", names, reason));
    }
    cells_.push_back(base::join(reasons, "; "));
    return base::csv_line(cells_);
  }

  void period(const std::optional<int>& value) {
    cells_.push_back(value.has_value() ? std::to_string(*value) : std::string());
  }

 private:
  std::vector<std::string> cells_;
  std::vector<std::pair<std::string, std::string>> reasons_;
};

std::string learner_row(const Class& whole, Source source, const LearnerSummary& summary) {
  const std::string& code = whole.learners[summary.learner];
  const auto name = whole.names.has_value() ? whole.names->find(code) : Names::const_iterator();
  std::size_t equal = 0;
  std::optional<int> first;
  std::optional<int> last;
  for (const Entry* entry : summary.entries) {
    equal += entry->standing == Standing::kEqual ? 1U : 0U;
    if (entry->period.has_value()) {
      first = std::min(first.value_or(*entry->period), *entry->period);
      last = std::max(last.value_or(*entry->period), *entry->period);
    }
  }
  LearnerRow row;
  row.text(code);
  row.text(whole.names.has_value() && name != whole.names->end() ? name->second : "");
  row.text(kSourceNames[static_cast<std::size_t>(source)]);
  row.text(stats::kApproachNames[static_cast<std::size_t>(summary.approach)]);
  row.count(summary.entries.size());
  row.count(summary.judged);
  row.count(summary.inside);
  row.count(summary.events);
  row.number("bias_md_mm", summary.bias.map(&math::Vec2::x));
  row.number("bias_bl_mm", summary.bias.map(&math::Vec2::y));
  row.number("bias_mm", summary.bias_mm);
  row.number("spread_mm", summary.spread_mm);
  row.number("depth_mean_mm", summary.depth_mean_mm);
  row.number("depth_sd_mm", summary.depth_sd_mm);
  row.number("angle_mean_deg", summary.angle_mean_deg);
  row.number("hole_diameter_mean_mm", summary.diameter_mean_mm);
  row.number("time_median_s", summary.time_median_s);
  row.number("estimate_error_mm", summary.estimate_error_mm);
  constexpr std::array<std::string_view, 3> kCurve{"curve_level_mm", "curve_gain_mm", "curve_rate"};
  for (std::size_t i = 0; i < kCurve.size(); ++i) {
    row.number(kCurve[i], summary.learning.map(
                              [i](const stats::CurveFit<3>& fit) { return fit.parameters[i]; }));
  }
  row.count(equal);
  row.count(summary.entries.size() - equal);
  row.period(first);
  row.period(last);
  return row.take();
}

}  // namespace

std::string holes_csv(const Class& whole) {
  std::string text = header_of(holes_columns());
  for (const Part& part : whole.parts) {
    for (const Entry* entry : part.entries) {
      text += hole_row(*entry);
    }
  }
  return text;
}

std::string learners_csv(const Class& whole) {
  std::string text = header_of(learners_columns());
  for (const Part& part : whole.parts) {
    for (const LearnerSummary& summary : part.learners) {
      text += learner_row(whole, part.source, summary);
    }
  }
  return text;
}

}  // namespace driftbench::classroom
