#include "classroom/holes_rows.h"

#include "base/csv.h"
#include "base/text.h"
#include "stats/holes_cells.h"

#include <fmt/format.h>

#include <optional>
#include <vector>

namespace driftbench::classroom {
namespace {

using base::CsvRow;
using base::Result;

constexpr std::int64_t kMaxPeriod = 1'000'000;
constexpr std::size_t kMaxText_bytes = 200;

using Refused = tl::unexpected<base::Error>;

class RowReader {
 public:
  explicit RowReader(const std::string& file) : file_(file), cells_(file) {}

  [[nodiscard]] Result<void> take_header(const std::vector<std::string>& header) {
    return cells_.take_header(header);
  }

  [[nodiscard]] Result<Entry> read(const CsvRow& row) const {
    Entry entry;
    entry.file = file_;
    entry.line = row.line;
    for (const auto& [name, member] : kTexts) {
      const std::string_view cell = cell_of(row, name);
      if (cell.size() > kMaxText_bytes) {
        return cells_.failure(row.line, fmt::format("{} bytes in the column {}", cell.size(), name),
                              fmt::format("at most {}", kMaxText_bytes));
      }
      entry.*member = std::string(cell);
    }
    if (entry.learner.empty()) {
      return cells_.failure(row.line, "an empty cell in the column operator", "a code name");
    }
    if (const Result<void> words = read_words(row, entry); !words) {
      return Refused(words.error());
    }
    for (const auto& [name, member] : kMeasureColumns) {
      const Result<std::optional<double>> number = cells_.number(row, cells_.column(name), name);
      if (!number) {
        return Refused(number.error());
      }
      entry.measures.*member = *number;
    }
    return entry;
  }

 private:
  static constexpr std::array<std::pair<std::string_view, std::string Entry::*>, 8> kTexts{
      {{"attempt_id", &Entry::attempt_id},
       {"operator", &Entry::learner},
       {"cohort", &Entry::cohort},
       {"implant_through_guide", &Entry::implant_through_guide},
       {"measured", &Entry::measured},
       {"site", &Entry::site},
       {"specimen", &Entry::specimen},
       {"boundary_deg", &Entry::boundary_deg}}};

  [[nodiscard]] std::string_view cell_of(const CsvRow& row, std::string_view name) const {
    return stats::HolesCells::text(row, cells_.column(name));
  }

  /// Approach, source and period.
  [[nodiscard]] Result<void> read_words(const CsvRow& row, Entry& entry) const {
    const Result<stats::Approach> approach = cells_.approach(row);
    if (!approach) {
      return Refused(approach.error());
    }
    entry.approach = *approach;
    const std::string_view source = cell_of(row, "source");
    if (!source.empty() && source != kSourceNames[0] && source != kSourceNames[1]) {
      return cells_.failure(
          row.line, fmt::format("\"{}\" in the column source", stats::HolesCells::shown(source)),
          "simulated or bench");
    }
    entry.source = source == kSourceNames[0] ? Source::kSimulated : Source::kBench;
    if (const std::string_view period = cell_of(row, "period"); !period.empty()) {
      const std::optional<std::int64_t> number = base::parse_integer(period);
      if (!number.has_value() || *number < 1 || *number > kMaxPeriod) {
        return cells_.failure(
            row.line, fmt::format("\"{}\" in the column period", stats::HolesCells::shown(period)),
            "a whole number from 1, or an empty cell");
      }
      entry.period = static_cast<int>(*number);
    }
    return {};
  }

  const std::string& file_;
  stats::HolesCells cells_;
};

}  // namespace

Result<void> visit_holes(std::string_view text, const std::string& file_name,
                         const std::function<Result<void>(Entry&&)>& on_row,
                         const std::function<void(std::string)>& on_refused) {
  RowReader reader(file_name);
  return base::visit_csv(
      text, file_name, stats::kHolesLimits,
      [&](const std::vector<std::string>& header) { return reader.take_header(header); },
      [&](CsvRow&& row) -> Result<void> {
        Result<Entry> entry = reader.read(row);
        if (!entry) {
          on_refused(entry.error().message);
          return {};
        }
        return on_row(std::move(*entry));
      });
}

}  // namespace driftbench::classroom
