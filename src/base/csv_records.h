// Records of a separated table one after the other; who reads them decides what they mean.
#pragma once

#include "base/csv.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

namespace driftbench::base {

/// The text and the name of the file must outlive it.
class CsvRecords {
 public:
  CsvRecords(std::string_view text, std::string_view file_name, char separator = ',')
      : text_(text), file_name_(file_name), separator_(separator) {}

  /// The next record that is not an empty line; a row without cells at the end of the text.
  ///
  /// Errors: kParse for an open or misplaced quote
  /// Source: RFC 4180, section 2
  [[nodiscard]] Result<CsvRow> next();

  /// The line that next() will look at, from 1.
  [[nodiscard]] int line() const { return line_; }

  [[nodiscard]] tl::unexpected<Error> failure(int line, std::string_view found,
                                              std::string_view expected,
                                              ErrorCode code = ErrorCode::kParse) const {
    return csv_failure(file_name_, line, found, expected, code);
  }

 private:
  [[nodiscard]] bool is_at_line_end() const;
  void skip_line_end();
  void skip_empty_lines();
  Result<std::string> plain_cell();
  Result<std::string> quoted_cell();
  Result<std::string> end_of_quoted(std::string cell);

  std::string_view text_;
  std::string_view file_name_;
  char separator_;
  std::size_t at_ = 0;
  int line_ = 1;
};

}  // namespace driftbench::base
