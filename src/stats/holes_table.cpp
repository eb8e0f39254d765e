// One pass over the rows; nothing of a row is kept but its numbers.
#include "stats/holes_table.h"

#include "base/text.h"
#include "stats/holes_cells.h"

#include <fmt/format.h>

#include <cmath>
#include <functional>
#include <map>
#include <set>
#include <utility>

namespace driftbench::stats {
namespace {

using base::Result;

// Columns whose values should not be mixed in one analysis.
constexpr std::array<std::string_view, 2> kKindColumns{"source", "measured"};

// Where the columns stand that are read.
struct Columns {
  std::optional<std::size_t> operator_name;
  std::optional<std::size_t> entry_md;
  std::optional<std::size_t> entry_bl;
  std::optional<std::size_t> measure;
  std::array<std::optional<std::size_t>, kKindColumns.size()> kinds;
};

class HolesReader {
 public:
  HolesReader(std::string_view file_name, const std::optional<std::string>& measure_column)
      : file_name_(file_name), cells_(file_name), measure_column_(measure_column) {}

  Result<void> accept_header(const std::vector<std::string>& header) {
    if (Result<void> taken = cells_.take_header(header); !taken) {
      return taken;
    }
    columns_.operator_name = cells_.column("operator");
    columns_.entry_md = cells_.column(kComponents[0]);
    columns_.entry_bl = cells_.column(kComponents[1]);
    for (std::size_t i = 0; i < kKindColumns.size(); ++i) {
      columns_.kinds[i] = cells_.column(kKindColumns[i]);
    }
    if (measure_column_.has_value()) {
      columns_.measure = cells_.column(*measure_column_);
      if (!columns_.measure.has_value()) {
        return cells_.failure(1,
                              fmt::format("no column \"{}\"", HolesCells::shown(*measure_column_)),
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
    const Result<Approach> approach = cells_.approach(row);
    const Result<std::optional<double>> md = cells_.number(row, columns_.entry_md, kComponents[0]);
    const Result<std::optional<double>> bl = cells_.number(row, columns_.entry_bl, kComponents[1]);
    const Result<std::optional<double>> measure =
        cells_.number(row, columns_.measure, table_.measure);
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
  Result<std::uint32_t> operator_of(const base::CsvRow& row) {
    const std::string_view name = HolesCells::text(row, columns_.operator_name);
    if (name.empty()) {
      return cells_.failure(row.line, "an empty cell in the column operator", "a name");
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
      if (kinds_[i].size() < kMaxKinds) {
        const std::string_view word = HolesCells::text(row, columns_.kinds[i]);
        if (!word.empty() && kinds_[i].find(word) == kinds_[i].end()) {
          kinds_[i].insert(HolesCells::shown(word));
        }
      }
    }
  }

  std::string_view file_name_;
  HolesCells cells_;
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
