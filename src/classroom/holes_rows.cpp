#include "classroom/holes_rows.h"

#include "base/csv.h"
#include "base/text.h"
#include "base/utf8.h"

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <optional>
#include <vector>

namespace driftbench::classroom {
namespace {

using base::CsvRow;
using base::Result;

constexpr double kLargest = 1e6;
constexpr std::int64_t kMaxPeriod = 1'000'000;
constexpr std::size_t kMaxText_bytes = 200;
constexpr std::size_t kMaxShown_bytes = 40;

using Refused = tl::unexpected<base::Error>;

class RowReader {
 public:
  RowReader(const std::string& file, const std::vector<std::string>& header) : file_(file) {
    for (std::size_t i = 0; i < header.size(); ++i) {
      columns_.emplace(header[i], i);
    }
  }

  [[nodiscard]] Result<void> check_header() const {
    std::size_t components = 0;
    for (std::size_t i = 0; i < kComponentCount; ++i) {
      components += columns_.count(std::string(kMeasureColumns[i].first));
    }
    for (const char* name : {"operator", "approach"}) {
      if (columns_.count(name) == 0) {
        return wrong(1, fmt::format("no column {}", name), "the columns operator and approach");
      }
    }
    if (components < 2) {
      return wrong(1, fmt::format("{} of the measured components", components),
                   "two or more columns of entry_md_mm, entry_bl_mm, depth_mm, apex_md_mm, "
                   "apex_bl_mm, tilt_md_deg, tilt_bl_deg");
    }
    return {};
  }

  [[nodiscard]] Result<Entry> read(const CsvRow& row) const {
    Entry entry;
    entry.file = file_;
    entry.line = row.line;
    for (const auto& [name, member] : kTexts) {
      const std::string_view cell = cell_of(row, name);
      if (cell.size() > kMaxText_bytes) {
        return wrong(row.line, fmt::format("{} bytes in the column {}", cell.size(), name),
                     fmt::format("at most {}", kMaxText_bytes));
      }
      entry.*member = std::string(cell);
    }
    if (entry.learner.empty()) {
      return wrong(row.line, "an empty cell in the column operator", "a code name");
    }
    if (const Result<void> words = read_words(row, entry); !words) {
      return Refused(words.error());
    }
    for (const auto& [name, member] : kMeasureColumns) {
      const std::string_view cell = cell_of(row, name);
      if (cell.empty()) {
        continue;
      }
      const std::optional<double> number = base::parse_number(cell);
      if (!number.has_value() || std::abs(*number) > kLargest) {
        return wrong(row.line, fmt::format("\"{}\" in the column {}", shown(cell), name),
                     "a number from -1000000 to 1000000, or an empty cell");
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

  static std::string shown(std::string_view text) {
    return std::string(base::utf8_prefix(text, kMaxShown_bytes));
  }

  [[nodiscard]] Refused wrong(int line, std::string_view found, std::string_view expected) const {
    const std::string where = fmt::format("{}:{}", file_, line);
    return base::fail(base::ErrorCode::kParse,
                      fmt::format("{}: found {}, expected {}", where, found, expected), where);
  }

  [[nodiscard]] std::string_view cell_of(const CsvRow& row, std::string_view name) const {
    const auto found = columns_.find(name);
    return found == columns_.end() ? std::string_view() : base::trim(row.cells[found->second]);
  }

  /// Approach, source and period.
  [[nodiscard]] Result<void> read_words(const CsvRow& row, Entry& entry) const {
    const std::string_view approach = cell_of(row, "approach");
    std::size_t i = 0;
    while (i < stats::kApproachNames.size() && stats::kApproachNames[i] != approach) {
      ++i;
    }
    if (i == stats::kApproachNames.size()) {
      return wrong(row.line, fmt::format("\"{}\" in the column approach", shown(approach)),
                   "freehand, pilot or sleeve");
    }
    entry.approach = static_cast<stats::Approach>(i);
    const std::string_view source = cell_of(row, "source");
    if (!source.empty() && source != kSourceNames[0] && source != kSourceNames[1]) {
      return wrong(row.line, fmt::format("\"{}\" in the column source", shown(source)),
                   "simulated or bench");
    }
    entry.source = source == kSourceNames[0] ? Source::kSimulated : Source::kBench;
    if (const std::string_view period = cell_of(row, "period"); !period.empty()) {
      const std::optional<std::int64_t> number = base::parse_integer(period);
      if (!number.has_value() || *number < 1 || *number > kMaxPeriod) {
        return wrong(row.line, fmt::format("\"{}\" in the column period", shown(period)),
                     "a whole number from 1, or an empty cell");
      }
      entry.period = static_cast<int>(*number);
    }
    return {};
  }

  const std::string& file_;
  std::map<std::string, std::size_t, std::less<>> columns_;
};

}  // namespace

Result<void> visit_holes(std::string_view text, const std::string& file_name,
                         const std::function<Result<void>(Entry&&)>& on_row,
                         const std::function<void(std::string)>& on_refused) {
  std::optional<RowReader> reader;
  return base::visit_csv(
      text, file_name, stats::kHolesLimits,
      [&](const std::vector<std::string>& header) {
        reader.emplace(file_name, header);
        return reader->check_header();
      },
      [&](CsvRow&& row) -> Result<void> {
        Result<Entry> entry = reader->read(row);
        if (!entry) {
          on_refused(entry.error().message);
          return {};
        }
        return on_row(std::move(*entry));
      });
}

}  // namespace driftbench::classroom
