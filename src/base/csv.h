// Reading and writing comma-separated tables (RFC 4180, UTF-8, first row = names).
#pragma once

#include "base/result.h"

#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::base {

/// One record of a table.
struct CsvRow {
  int line = 0;  ///< line of the file on which the record starts, from 1
  std::vector<std::string> cells;
};

/// A table whose rows all have as many cells as the header.
struct CsvTable {
  std::vector<std::string> header;
  std::vector<CsvRow> rows;

  /// Position of a column by its exact name.
  [[nodiscard]] std::optional<std::size_t> column(std::string_view name) const;
};

/// Sizes above which a table is refused.
struct CsvLimits {
  std::size_t max_bytes = std::size_t{32} << 20U;
  std::size_t max_rows = 200'000;
  std::size_t max_columns = 256;
};

/// Reads a table. Quoted cells, both line ends and a leading byte-order mark are accepted; wholly
/// empty lines are skipped.
///
/// Errors: kParse with "file:line: found ..., expected ..." for an open or misplaced quote, a row
/// of
///         other length than the header, a repeated or empty column name, text that is not UTF-8;
///         kOutOfRange above a limit
/// Source: RFC 4180, section 2
[[nodiscard]] Result<CsvTable> parse_csv(std::string_view text, std::string_view file_name,
                                         const CsvLimits& limits = {});

/// Reads a table row by row without keeping it: `on_header` once, then `on_row` for every row. A
/// failure of either ends the reading and is passed on.
///
/// Errors: as parse_csv
[[nodiscard]] Result<void> visit_csv(
    std::string_view text, std::string_view file_name, const CsvLimits& limits,
    const std::function<Result<void>(const std::vector<std::string>& header)>& on_header,
    const std::function<Result<void>(CsvRow&& row)>& on_row);

/// The failure of a table at a line: "file:line: found ..., expected ...".
[[nodiscard]] tl::unexpected<Error> csv_failure(std::string_view file_name, int line,
                                                std::string_view found, std::string_view expected,
                                                ErrorCode code = ErrorCode::kParse);

/// One record with its line end (CR LF); cells are quoted where commas, quotes or line ends need
/// it.
///
/// Source: RFC 4180, section 2
[[nodiscard]] std::string csv_line(std::span<const std::string> cells);

}  // namespace driftbench::base
