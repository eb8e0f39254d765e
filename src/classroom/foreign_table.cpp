// Finds the separator and the encoding of a table, then its records.
#include "classroom/foreign_table.h"

#include "base/csv_records.h"
#include "base/text.h"
#include "base/utf8.h"
#include "stats/holes_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <set>
#include <utility>

namespace driftbench::classroom {
namespace {

using base::CsvRow;
using base::Result;

constexpr std::size_t kLooked_rows = 20;
constexpr std::size_t kLongestName_bytes = 80;
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

/// Windows-1252 as Latin-1; what differs (0x80 to 0x9F) becomes a question mark but for the dash.
std::string from_latin1(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size() + bytes.size() / 8);
  constexpr unsigned char kDash = 0x96;
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x80) {
      text.push_back(c);
    } else if (byte == kDash) {
      text.push_back('-');
    } else if (byte < 0xA0) {
      text.push_back('?');
    } else {
      text.push_back(static_cast<char>(0xC0U | (byte >> 6U)));
      text.push_back(static_cast<char>(0x80U | (byte & 0x3FU)));
    }
  }
  return text;
}

/// Columns of the first row when most of the first rows have as many; 0 when they have not.
std::size_t even_columns(std::string_view text, char separator) {
  base::CsvRecords records(text, "", separator);
  std::size_t columns = 0;
  std::size_t same = 0;
  std::size_t looked = 0;
  while (looked < kLooked_rows) {
    const Result<CsvRow> row = records.next();
    if (!row) {
      return 0;
    }
    if (row->cells.empty()) {
      break;
    }
    columns = looked == 0 ? row->cells.size() : columns;
    same += row->cells.size() == columns ? 1U : 0U;
    ++looked;
  }
  return 2 * same > looked ? columns : 0;
}

std::optional<char> separator_of(std::string_view text) {
  std::size_t most = 1;
  std::optional<char> best;
  for (const char separator : {';', '\t', ','}) {
    const std::size_t columns = even_columns(text, separator);
    if (columns > most) {
      most = columns;
      best = separator;
    }
  }
  return best;
}

std::vector<std::string> names_of(const CsvRow& row) {
  std::vector<std::string> names;
  std::set<std::string> used;
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    std::string name(base::utf8_prefix(base::trim(row.cells[i]), kLongestName_bytes));
    std::replace_if(
        name.begin(), name.end(), [](char c) { return c == '\n' || c == '\r' || c == '\t'; }, ' ');
    if (name.empty()) {
      name = fmt::format("column {}", i + 1);
    }
    const std::string wanted = name;
    for (int n = 2; !used.insert(name).second; ++n) {
      name = fmt::format("{} ({})", wanted, n);
    }
    names.push_back(std::move(name));
  }
  return names;
}

bool is_blank(const CsvRow& row) {
  return std::all_of(row.cells.begin(), row.cells.end(),
                     [](const std::string& cell) { return base::trim(cell).empty(); });
}

}  // namespace

bool is_own_table(std::string_view text) {
  const std::string_view first = text.substr(0, text.find_first_of("\r\n"));
  stats::HolesCells cells("");
  return base::visit_csv(
             first, "", stats::kHolesLimits,
             [&cells](const std::vector<std::string>& header) { return cells.take_header(header); },
             [](CsvRow&&) -> Result<void> { return {}; })
      .has_value();
}

Result<ForeignTable> read_foreign_table(std::string_view bytes, const std::string& file) {
  const auto failure = [&file](int line, std::string_view found, std::string_view expected,
                               base::ErrorCode code = base::ErrorCode::kParse) {
    return base::csv_failure(file, line, found, expected, code);
  };
  if (bytes.size() > kForeignLimits.max_bytes) {
    return failure(1, fmt::format("{} bytes", bytes.size()),
                   fmt::format("at most {}", kForeignLimits.max_bytes),
                   base::ErrorCode::kOutOfRange);
  }
  if (bytes.find('\0') != std::string_view::npos) {
    return failure(1, "zero bytes: text in UTF-16, or no text at all",
                   "a table saved as CSV UTF-8");
  }
  if (bytes.starts_with(kByteOrderMark)) {
    bytes.remove_prefix(kByteOrderMark.size());
  }
  ForeignTable table;
  table.file = file;
  table.is_latin1 = !base::is_utf8(bytes);
  const std::string converted = table.is_latin1 ? from_latin1(bytes) : std::string();
  const std::string_view text = table.is_latin1 ? std::string_view(converted) : bytes;
  if (base::trim(text).empty()) {
    return failure(1, "an empty file", "a first row with the names of the columns");
  }
  const std::optional<char> separator = separator_of(text);
  if (!separator.has_value()) {
    return failure(1, "no columns that commas, semicolons or tabs separate evenly",
                   "a table, its first row with the names of the columns");
  }
  table.separator = *separator;
  base::CsvRecords records(text, file, *separator);
  while (true) {
    Result<CsvRow> row = records.next();
    if (!row) {
      return tl::unexpected<base::Error>(row.error());
    }
    if (row->cells.empty()) {
      return table;
    }
    if (is_blank(*row)) {
      continue;
    }
    if (!table.header.empty()) {
      if (table.rows.size() >= kForeignLimits.max_rows) {
        return failure(row->line, fmt::format("more than {} rows", kForeignLimits.max_rows),
                       fmt::format("at most {}", kForeignLimits.max_rows),
                       base::ErrorCode::kOutOfRange);
      }
      table.rows.push_back(std::move(*row));
      continue;
    }
    if (row->cells.size() > kForeignLimits.max_columns) {
      return failure(row->line, fmt::format("{} columns", row->cells.size()),
                     fmt::format("at most {}", kForeignLimits.max_columns),
                     base::ErrorCode::kOutOfRange);
    }
    table.header = names_of(*row);
    table.header_line = row->line;
  }
}

}  // namespace driftbench::classroom
