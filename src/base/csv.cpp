// RFC 4180 tables: header, rows, limits; the writing of one record.
#include "base/csv.h"

#include "base/csv_records.h"
#include "base/text.h"
#include "base/utf8.h"

#include <fmt/format.h>

#include <set>
#include <utility>

namespace driftbench::base {
namespace {

constexpr std::size_t kMaxShown_bytes = 40;

Result<std::vector<std::string>> read_header(CsvRecords& reader, const CsvLimits& limits) {
  Result<CsvRow> row = reader.next();
  if (!row) {
    return tl::unexpected<Error>(row.error());
  }
  if (row->cells.empty()) {
    return reader.failure(1, "an empty file", "a first row with the names of the columns");
  }
  if (row->cells.size() > limits.max_columns) {
    return reader.failure(row->line, fmt::format("{} columns", row->cells.size()),
                          fmt::format("at most {}", limits.max_columns), ErrorCode::kOutOfRange);
  }
  if (row->cells.size() == 1 && row->cells.front().find(';') != std::string::npos) {
    return reader.failure(row->line, "semicolons between the columns", "commas");
  }
  std::set<std::string> names;
  for (std::string& cell : row->cells) {
    cell = std::string(trim(cell));
    if (cell.empty()) {
      return reader.failure(row->line, "a column without a name", "a name for every column");
    }
    if (!names.insert(cell).second) {
      return reader.failure(
          row->line,
          fmt::format("the column name \"{}\" twice", utf8_prefix(cell, kMaxShown_bytes)),
          "every name once");
    }
  }
  return std::move(row->cells);
}

}  // namespace

std::optional<std::size_t> CsvTable::column(std::string_view name) const {
  for (std::size_t i = 0; i < header.size(); ++i) {
    if (header[i] == name) {
      return i;
    }
  }
  return std::nullopt;
}

Result<void> visit_csv(
    std::string_view text, std::string_view file_name, const CsvLimits& limits,
    const std::function<Result<void>(const std::vector<std::string>& header)>& on_header,
    const std::function<Result<void>(CsvRow&& row)>& on_row) {
  text = without_byte_order_mark(text);
  CsvRecords reader(text, file_name);
  if (text.size() > limits.max_bytes) {
    return reader.failure(1, fmt::format("{} bytes", text.size()),
                          fmt::format("at most {}", limits.max_bytes), ErrorCode::kOutOfRange);
  }
  if (!is_utf8(text) || text.find('\0') != std::string_view::npos) {
    return reader.failure(1, "bytes that are not UTF-8 text", "a table saved as CSV UTF-8");
  }
  const Result<std::vector<std::string>> header = read_header(reader, limits);
  if (!header) {
    return tl::unexpected<Error>(header.error());
  }
  Result<void> accepted = on_header(*header);
  for (std::size_t row_count = 0; accepted; ++row_count) {
    Result<CsvRow> row = reader.next();
    if (!row) {
      return tl::unexpected<Error>(row.error());
    }
    if (row->cells.empty()) {
      break;
    }
    if (row->cells.size() != header->size()) {
      return reader.failure(row->line, fmt::format("{} cells", row->cells.size()),
                            fmt::format("{}, as in the first row", header->size()));
    }
    if (row_count >= limits.max_rows) {
      return reader.failure(row->line, fmt::format("more than {} rows", limits.max_rows),
                            fmt::format("at most {}", limits.max_rows), ErrorCode::kOutOfRange);
    }
    accepted = on_row(std::move(*row));
  }
  return accepted;
}

Result<CsvTable> parse_csv(std::string_view text, std::string_view file_name,
                           const CsvLimits& limits) {
  CsvTable table;
  const Result<void> read = visit_csv(
      text, file_name, limits,
      [&table](const std::vector<std::string>& header) -> Result<void> {
        table.header = header;
        return {};
      },
      [&table](CsvRow&& row) -> Result<void> {
        table.rows.push_back(std::move(row));
        return {};
      });
  if (!read) {
    return tl::unexpected<Error>(read.error());
  }
  return table;
}

tl::unexpected<Error> csv_failure(std::string_view file_name, int line, std::string_view found,
                                  std::string_view expected, ErrorCode code) {
  const std::string where = fmt::format("{}:{}", file_name, line);
  return fail(code, fmt::format("{}: found {}, expected {}", where, found, expected), where);
}

std::string csv_line(std::span<const std::string> cells) {
  if (cells.size() == 1 && cells.front().empty()) {
    return "\"\"\r\n";  // a bare line end would read as an empty line
  }
  std::string line;
  bool is_first = true;
  for (const std::string& cell : cells) {
    if (!is_first) {
      line.push_back(',');
    }
    is_first = false;
    if (cell.find_first_of(",\"\r\n") == std::string::npos) {
      line += cell;
      continue;
    }
    line.push_back('"');
    for (const char c : cell) {
      if (c == '"') {
        line.push_back('"');
      }
      line.push_back(c);
    }
    line.push_back('"');
  }
  return line + "\r\n";
}

}  // namespace driftbench::base
