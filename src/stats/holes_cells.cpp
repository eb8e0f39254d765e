#include "stats/holes_cells.h"

#include "base/text.h"
#include "base/utf8.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace driftbench::stats {
namespace {

constexpr double kLargest = 1e6;
constexpr std::size_t kMaxShown_bytes = 40;

}  // namespace

base::Result<void> HolesCells::take_header(const std::vector<std::string>& header) {
  for (std::size_t i = 0; i < header.size(); ++i) {
    columns_.emplace(header[i], i);
  }
  for (const char* name : {"operator", "approach"}) {
    if (!column(name).has_value()) {
      return failure(1, fmt::format("no column {}", name), "the columns operator and approach");
    }
  }
  const auto component_count =
      std::count_if(kComponents.begin(), kComponents.end(),
                    [this](std::string_view name) { return column(name).has_value(); });
  if (component_count < 2) {
    return failure(1, fmt::format("{} of the measured components", component_count),
                   "two or more columns of entry_md_mm, entry_bl_mm, depth_mm, apex_md_mm, "
                   "apex_bl_mm, tilt_md_deg, tilt_bl_deg");
  }
  return {};
}

std::optional<std::size_t> HolesCells::column(std::string_view name) const {
  const auto found = columns_.find(name);
  return found == columns_.end() ? std::nullopt : std::optional(found->second);
}

std::string_view HolesCells::text(const base::CsvRow& row,
                                  const std::optional<std::size_t>& column) {
  return column.has_value() ? base::trim(row.cells[*column]) : std::string_view();
}

base::Result<Approach> HolesCells::approach(const base::CsvRow& row) const {
  const std::string_view word = text(row, column("approach"));
  for (std::size_t i = 0; i < kApproachNames.size(); ++i) {
    if (kApproachNames[i] == word) {
      return static_cast<Approach>(i);
    }
  }
  return failure(row.line, fmt::format("\"{}\" in the column approach", shown(word)),
                 "freehand, pilot or sleeve");
}

base::Result<std::optional<double>> HolesCells::number(const base::CsvRow& row,
                                                       const std::optional<std::size_t>& column,
                                                       std::string_view name) const {
  const std::string_view cell = text(row, column);
  if (cell.empty()) {
    return std::optional<double>();
  }
  const std::optional<double> number = base::parse_number(cell);
  if (!number.has_value() || std::abs(*number) > kLargest) {
    return failure(row.line, fmt::format("\"{}\" in the column {}", shown(cell), name),
                   "a number from -1000000 to 1000000, or an empty cell");
  }
  return number;
}

tl::unexpected<base::Error> HolesCells::failure(int line, std::string_view found,
                                                std::string_view expected) const {
  return base::csv_failure(file_name_, line, found, expected);
}

std::string HolesCells::shown(std::string_view text) {
  return std::string(base::utf8_prefix(text, kMaxShown_bytes));
}

}  // namespace driftbench::stats
