// Cells of a foreign table become cells of holes.csv, row by row.
#include "classroom/mapped_rows.h"

#include "base/text.h"
#include "base/utf8.h"
#include "classroom/words.h"
#include "stats/holes_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace driftbench::classroom {
namespace {

using base::Result;

constexpr double kLargest = 1e6;
constexpr std::size_t kMaxText_bytes = 200;
constexpr std::size_t kMaxUnknown_words = 12;
constexpr std::int64_t kMaxPeriod = 1'000'000;

using Refused = tl::unexpected<base::Error>;

Refused no_number(std::string_view expected) {
  return base::fail(base::ErrorCode::kParse, std::string(expected));
}

const Unit& own_unit(const Target& target) {
  for (const Unit& unit : kUnits) {
    if (unit.dimension == target.dimension) {
      return unit;
    }
  }
  return kUnits[0];
}

/// A choice with the place of its column.
struct Origin {
  const Choice* choice = nullptr;
  std::size_t column = 0;
};

class RowMapper {
 public:
  RowMapper(const ForeignTable& table, const Mapping& mapping, MappedRows& out)
      : table_(table), out_(out) {
    for (const Choice& choice : mapping) {
      const auto found = std::find(table.header.begin(), table.header.end(), choice.column);
      if (choice.column.empty()) {
        by_target_[choice.target->name] = {&choice, table.header.size()};
      } else if (found != table.header.end()) {
        by_target_[choice.target->name] = {&choice,
                                           static_cast<std::size_t>(found - table.header.begin())};
      } else {
        out_.missing.push_back(fmt::format("found no column \"{}\" in {}, which the mapping names",
                                           choice.column, table.file));
      }
    }
    for (const std::string_view needed : {"operator", "approach"}) {
      if (!by_target_.contains(needed)) {
        out_.missing.push_back(
            fmt::format("found no column for {}, expected one, or a word for all rows", needed));
      }
    }
    const auto components =
        std::count_if(stats::kComponents.begin(), stats::kComponents.end(),
                      [this](std::string_view name) { return by_target_.contains(name); });
    if (components < 2) {
      out_.missing.push_back(fmt::format(
          "found {} of the measured components, expected two at least: entry, depth, apex or tilt",
          components));
    }
  }

  /// Cells in the order of our columns, or a sentence.
  [[nodiscard]] Result<std::vector<std::string>> cells_of(const base::CsvRow& row) {
    if (row.cells.size() != table_.header.size()) {
      return failure(row, fmt::format("{} cells", row.cells.size()),
                     fmt::format("{}, as in the first row", table_.header.size()));
    }
    std::vector<std::string> cells;
    int measured = 0;
    for (const Target& target : kTargets) {
      Result<std::string> cell = cell_of(row, target);
      if (!cell) {
        return Refused(cell.error());
      }
      const bool is_component = std::find(stats::kComponents.begin(), stats::kComponents.end(),
                                          target.name) != stats::kComponents.end();
      measured += is_component && !cell->empty() ? 1 : 0;
      cells.push_back(std::move(*cell));
    }
    if (measured == 0) {
      return failure(row, "no measured component", "a number in one of their columns");
    }
    return cells;
  }

 private:
  [[nodiscard]] Refused failure(const base::CsvRow& row, std::string_view found,
                                std::string_view expected) const {
    return base::csv_failure(table_.file, row.line, found, expected);
  }

  [[nodiscard]] Refused wrong_cell(const base::CsvRow& row, const Choice& choice,
                                   std::string_view cell, std::string_view expected) const {
    return failure(row,
                   cell.empty() ? fmt::format("an empty cell in the column \"{}\"", choice.column)
                                : fmt::format("\"{}\" in the column \"{}\"",
                                              stats::HolesCells::shown(cell), choice.column),
                   expected);
  }

  [[nodiscard]] Result<std::string> cell_of(const base::CsvRow& row, const Target& target) {
    const auto found = by_target_.find(target.name);
    if (found == by_target_.end()) {
      return std::string(target.name == "source" ? kSourceNames[1] : "");
    }
    const Choice& choice = *found->second.choice;
    const std::string_view cell =
        base::trim(choice.column.empty() ? std::string_view(choice.constant)
                                         : std::string_view(row.cells[found->second.column]));
    if (target.dimension == Dimension::kWord) {
      return word_of(row, choice, cell);
    }
    if (cell.empty()) {
      return std::string();
    }
    if (target.dimension == Dimension::kWhole) {
      const std::optional<std::int64_t> whole = base::parse_integer(cell);
      if (!whole.has_value() || *whole < 1 || *whole > kMaxPeriod) {
        return wrong_cell(row, choice, cell, "a whole number from 1, or an empty cell");
      }
      return std::to_string(*whole);
    }
    const Unit& unit = choice.unit == nullptr ? own_unit(target) : *choice.unit;
    const Result<double> number = read_foreign_number(cell, unit);
    if (!number) {
      return wrong_cell(row, choice, cell, number.error().message);
    }
    return base::number(choice.is_reversed ? -*number : *number);
  }

  [[nodiscard]] Result<std::string> word_of(const base::CsvRow& row, const Choice& choice,
                                            std::string_view cell) {
    if (cell.size() > kMaxText_bytes) {
      return failure(row, fmt::format("{} bytes in the column \"{}\"", cell.size(), choice.column),
                     fmt::format("at most {}", kMaxText_bytes));
    }
    const std::string_view name = choice.target->name;
    if (name == "approach") {
      return approach_cell(row, choice, cell);
    }
    if (name == "operator" && cell.empty()) {
      return wrong_cell(row, choice, cell, "a code name");
    }
    if (name == "source" && cell.empty()) {
      return std::string(kSourceNames[1]);
    }
    if (name == "source" && cell != kSourceNames[0] && cell != kSourceNames[1]) {
      return wrong_cell(row, choice, cell, "simulated or bench");
    }
    return safe_cell(cell);
  }

  [[nodiscard]] Result<std::string> approach_cell(const base::CsvRow& row, const Choice& choice,
                                                  std::string_view cell) {
    std::optional<stats::Approach> approach;
    for (const auto& [word, meaning] : choice.words) {
      if (word == cell) {
        approach = meaning;
      }
    }
    if (!approach.has_value()) {
      approach = approach_of_word(cell);
    }
    if (!approach.has_value()) {
      const std::string word(cell);
      if (!cell.empty() && out_.unknown_words.size() < kMaxUnknown_words &&
          std::find(out_.unknown_words.begin(), out_.unknown_words.end(), word) ==
              out_.unknown_words.end()) {
        out_.unknown_words.push_back(word);
      }
      return wrong_cell(row, choice, cell, "a word that stands for freehand, pilot or sleeve");
    }
    return std::string(stats::kApproachNames[static_cast<std::size_t>(*approach)]);
  }

  const ForeignTable& table_;
  MappedRows& out_;
  std::map<std::string_view, Origin> by_target_;
};

}  // namespace

Result<double> read_foreign_number(std::string_view cell, const Unit& unit) {
  // Digits, signs and separators; then perhaps a unit.
  std::string digits;
  std::size_t at = 0;
  int separators = 0;
  constexpr std::string_view kMinus = "\xE2\x88\x92";  // U+2212
  while (at < cell.size()) {
    const char c = cell[at];
    if (cell.substr(at).starts_with(kMinus)) {
      digits.push_back('-');
      at += kMinus.size();
      continue;
    }
    const bool is_exponent = (c == 'e' || c == 'E') && at + 1 < cell.size() && !digits.empty() &&
                             (cell[at + 1] == '-' || cell[at + 1] == '+' ||
                              (cell[at + 1] >= '0' && cell[at + 1] <= '9'));
    if (c == ',' || c == '.') {
      ++separators;
      digits.push_back('.');
    } else if ((c >= '0' && c <= '9') || c == '-' || c == '+' || is_exponent) {
      digits.push_back(c);
    } else {
      break;
    }
    ++at;
  }
  if (separators > 1) {
    return no_number("a number with one decimal point or comma and no thousands");
  }
  const std::optional<double> number = base::parse_number(digits);
  if (!number.has_value() || std::fabs(*number) > kLargest) {
    return no_number("a number from -1000000 to 1000000, or an empty cell");
  }
  const std::string_view rest = base::trim(cell.substr(at));
  if (rest.empty()) {
    return *number * unit.in_ours;
  }
  const std::string_view name = rest == "°"                    ? "deg"
                                : rest == "µm" || rest == "μm" ? "um"
                                : rest == "in"                 ? "inch"
                                                               : rest;
  const Unit* own = find_unit(name);
  if (own == nullptr || own->dimension != unit.dimension) {
    return no_number("a number, with no unit or one of its kind");
  }
  return *number * own->in_ours;
}

MappedRows map_rows(const ForeignTable& table, const Mapping& mapping) {
  MappedRows out;
  RowMapper mapper(table, mapping, out);
  if (!out.missing.empty()) {
    return out;
  }
  std::vector<std::string> header;
  for (const Target& target : kTargets) {
    header.emplace_back(target.name);
  }
  out.holes_csv = base::csv_line(header);
  int line = 2;
  for (const base::CsvRow& row : table.rows) {
    Result<std::vector<std::string>> cells = mapper.cells_of(row);
    if (!cells) {
      out.problems.add(cells.error().message);
      continue;
    }
    // Empty lines keep the lines of the table, so that later sentences name them.
    for (; line < row.line; ++line) {
      out.holes_csv += "\r\n";
    }
    const std::string text = base::csv_line(*cells);
    out.holes_csv += text;
    line += static_cast<int>(std::count(text.begin(), text.end(), '\n'));
    ++out.good;
  }
  return out;
}

}  // namespace driftbench::classroom
