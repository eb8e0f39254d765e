// A table of holes as somebody else made it: any separator, any names of columns.
#pragma once

#include "base/csv.h"
#include "base/result.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::classroom {

/// Sizes up to which a foreign table is read.
inline constexpr base::CsvLimits kForeignLimits{std::size_t{32} << 20U, 200'000, 256};

struct ForeignTable {
  std::string file;
  char separator = ',';
  bool is_latin1 = false;           ///< the bytes were no UTF-8 and were read as Windows-1252
  std::vector<std::string> header;  ///< names, each once; an empty one became "column 3"
  std::vector<base::CsvRow> rows;   ///< as many cells as the header, or fewer or more
  int header_line = 1;
};

/// Whether statistics can read the table as it is: separated by commas, with the names of
/// holes.csv.
[[nodiscard]] bool is_own_table(std::string_view text);

/// Reads a table whose columns are separated by commas, semicolons or tabs: by the one that the
/// first lines have most evenly. Text that is no UTF-8 is read as Windows-1252, as spreadsheets
/// write it.
///
/// Errors: kParse for text that is no table (UTF-16, one column only, an open quote); kOutOfRange
///         above kForeignLimits
[[nodiscard]] base::Result<ForeignTable> read_foreign_table(std::string_view text,
                                                            const std::string& file);

}  // namespace driftbench::classroom
