// One pass over the rows; nothing of a row is kept but its numbers.
#include "stats/holes_table.h"

#include "base/text.h"
#include "base/utf8.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <set>
#include <utility>

namespace driftbench::stats {
namespace {

using base::ErrorCode;
using base::Result;

constexpr std::array<std::string_view, 7> kComponents{"entry_md_mm", "entry_bl_mm", "depth_mm",
                                                      "apex_md_mm",  "apex_bl_mm",  "tilt_md_deg",
                                                      "tilt_bl_deg"};

// Columns whose values should not be mixed in one analysis.
constexpr std::array<std::string_view, 2> kKindColumns{"source", "measured"};

constexpr double kLargest = 1e6;
constexpr std::size_t kMaxShown_bytes = 40;

// Where the columns stand that are read.
struct Columns {
  std::size_t operator_name = 0;
  std::size_t approach = 0;
  std::optional<std::size_t> entry_md;
  std::optional<std::size_t> entry_bl;
  std::optional<std::size_t> measure;
  std::array<std::optional<std::size_t>, kKindColumns.size()> kinds;
};

std::optional<std::size_t> position(const std::vector<std::string>& header, std::string_view name) {
  const auto found = std::find(header.begin(), header.end(), name);
  return found == header.end() ? std::nullopt
                               : std::optional(static_cast<std::size_t>(found - header.begin()));
}

class HolesReader {
 public:
  HolesReader(std::string_view file_name, const std::optional<std::string>& measure_column)
      : file_name_(file_name), measure_column_(measure_column) {}

  Result<void> accept_header(const std::vector<std::string>& header) {
    const auto operator_column = position(header, "operator");
    const auto approach_column = position(header, "approach");
    if (!operator_column.has_value() || !approach_column.has_value()) {
      return failure(1, fmt::format("no column {}", operator_column ? "approach" : "operator"),
                     "the columns operator and approach");
    }
    const auto component_count =
        std::count_if(kComponents.begin(), kComponents.end(),
                      [&](std::string_view name) { return position(header, name).has_value(); });
    if (component_count < 2) {
      return failure(1, fmt::format("{} of the measured components", component_count),
                     "two or more columns of entry_md_mm, entry_bl_mm, depth_mm, apex_md_mm, "
                     "apex_bl_mm, tilt_md_deg, tilt_bl_deg");
    }
    columns_.operator_name = *operator_column;
    columns_.approach = *approach_column;
    columns_.entry_md = position(header, kComponents[0]);
    columns_.entry_bl = position(header, kComponents[1]);
    for (std::size_t i = 0; i < kKindColumns.size(); ++i) {
      columns_.kinds[i] = position(header, kKindColumns[i]);
    }
    if (measure_column_.has_value()) {
      columns_.measure = position(header, *measure_column_);
      if (!columns_.measure.has_value()) {
        return failure(1, fmt::format("no column \"{}\"", shown(*measure_column_)),
                       "the column that is to be compared");
      }
      table_.measure = *measure_column_;
      table_.is_column_measure = true;
    }
    return {};
  }

  Result<void> accept_row(const base::CsvRow& row) {
    Hole hole;
    const Result<std::uint32_t> who = operator_of(row);
    const Result<Approach> approach = approach_of(row);
    const Result<std::optional<double>> md = number_of(row, columns_.entry_md, kComponents[0]);
    const Result<std::optional<double>> bl = number_of(row, columns_.entry_bl, kComponents[1]);
    const Result<std::optional<double>> measure = number_of(row, columns_.measure, table_.measure);
    const base::Error* error = !who        ? &who.error()
                               : !approach ? &approach.error()
                               : !md       ? &md.error()
                               : !bl       ? &bl.error()
                               : !measure  ? &measure.error()
                                           : nullptr;
    if (error != nullptr) {
      return tl::unexpected<base::Error>(*error);
    }
    hole.operator_index = *who;
    hole.approach = *approach;
    if (md->has_value() && bl->has_value()) {
      hole.entry = math::Vec2(**md, **bl);
    }
    if (columns_.measure.has_value()) {
      hole.measure = *measure;
    } else if (hole.entry.has_value()) {
      hole.measure = std::hypot(hole.entry->x, hole.entry->y);
    }
    note_missing(row.line, md->has_value(), bl->has_value(), hole.measure.has_value());
    note_kinds(row);
    table_.holes.push_back(hole);
    return {};
  }

  HoleTable take() {
    for (std::size_t i = 0; i < kKindColumns.size(); ++i) {
      if (kinds_[i].size() > 1) {
        const std::vector<std::string> found(kinds_[i].begin(), kinds_[i].end());
        table_.warnings.push_back(
            fmt::format("{}: found {} in the column {}, expected one kind; they are computed "
                        "together",
                        file_name_, base::join(found, " and "), kKindColumns[i]));
      }
    }
    return std::move(table_);
  }

 private:
  static std::string shown(std::string_view text) {
    return std::string(base::utf8_prefix(text, kMaxShown_bytes));
  }

  [[nodiscard]] tl::unexpected<base::Error> failure(int line, std::string_view found,
                                                    std::string_view expected) const {
    const std::string where = fmt::format("{}:{}", file_name_, line);
    return base::fail(ErrorCode::kParse,
                      fmt::format("{}: found {}, expected {}", where, found, expected), where);
  }

  Result<std::uint32_t> operator_of(const base::CsvRow& row) {
    const std::string_view name = base::trim(row.cells[columns_.operator_name]);
    if (name.empty()) {
      return failure(row.line, "an empty cell in the column operator", "a name");
    }
    const auto next = static_cast<std::uint32_t>(table_.operators.size());
    const auto known = operator_indices_.find(name);
    if (known != operator_indices_.end()) {
      return known->second;
    }
    operator_indices_.emplace(std::string(name), next);
    table_.operators.emplace_back(name);
    return next;
  }

  [[nodiscard]] Result<Approach> approach_of(const base::CsvRow& row) const {
    const std::string_view word = base::trim(row.cells[columns_.approach]);
    for (std::size_t i = 0; i < kApproachNames.size(); ++i) {
      if (kApproachNames[i] == word) {
        return static_cast<Approach>(i);
      }
    }
    return failure(row.line, fmt::format("\"{}\" in the column approach", shown(word)),
                   "freehand, pilot or sleeve");
  }

  // The number of a cell; nothing for an empty cell or a column that is not there.
  [[nodiscard]] Result<std::optional<double>> number_of(const base::CsvRow& row,
                                                        const std::optional<std::size_t>& column,
                                                        std::string_view name) const {
    if (!column.has_value()) {
      return std::optional<double>();
    }
    const std::string_view cell = base::trim(row.cells[*column]);
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

  void note_missing(int line, bool has_md, bool has_bl, bool has_measure) {
    std::vector<std::string> missing;
    if (!has_md && columns_.entry_md.has_value()) {
      missing.emplace_back(kComponents[0]);
    }
    if (!has_bl && columns_.entry_bl.has_value()) {
      missing.emplace_back(kComponents[1]);
    }
    if (!has_measure && columns_.measure.has_value()) {
      missing.push_back(table_.measure);
    }
    if (missing.empty()) {
      return;
    }
    ++table_.left_out_count;
    if (table_.left_out.size() < kMaxLeftOut) {
      table_.left_out.push_back({line, "found no " + base::join(missing, ", ")});
    }
  }

  void note_kinds(const base::CsvRow& row) {
    constexpr std::size_t kMaxKinds = 4;
    for (std::size_t i = 0; i < kKindColumns.size(); ++i) {
      if (columns_.kinds[i].has_value() && kinds_[i].size() < kMaxKinds) {
        const std::string_view word = base::trim(row.cells[*columns_.kinds[i]]);
        if (!word.empty() && kinds_[i].find(word) == kinds_[i].end()) {
          kinds_[i].insert(shown(word));
        }
      }
    }
  }

  std::string_view file_name_;
  std::optional<std::string> measure_column_;
  Columns columns_;
  HoleTable table_;
  std::map<std::string, std::uint32_t, std::less<>> operator_indices_;
  std::array<std::set<std::string, std::less<>>, kKindColumns.size()> kinds_;
};

}  // namespace

Result<HoleTable> read_holes(std::string_view text, std::string_view file_name,
                             const std::optional<std::string>& measure_column) {
  HolesReader reader(file_name, measure_column);
  const Result<void> read = base::visit_csv(
      text, file_name, kHolesLimits,
      [&reader](const std::vector<std::string>& header) { return reader.accept_header(header); },
      [&reader](base::CsvRow&& row) { return reader.accept_row(row); });
  if (!read) {
    return tl::unexpected<base::Error>(read.error());
  }
  return reader.take();
}

}  // namespace driftbench::stats
