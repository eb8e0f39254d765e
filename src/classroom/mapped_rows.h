// The rows of a foreign table as rows of holes.csv, and what is wrong with the others.
#pragma once

#include "classroom/column_mapping.h"
#include "classroom/roster.h"

#include <cstddef>
#include <string>
#include <vector>

namespace driftbench::classroom {

/// Rows shown before anything is taken.
inline constexpr std::size_t kPreview_rows = 8;

struct MappedRows {
  std::vector<std::string>
      missing;  ///< what the mapping lacks, a sentence each; then nothing is good
  std::size_t good = 0;
  Sentences problems;                      ///< of rows, with file and line
  std::vector<std::string> unknown_words;  ///< of the column approach, each once, up to 12
  std::string holes_csv;                   ///< good rows on the lines that they have in the table
};

/// Puts every row into our columns: numbers with point or comma become ours by unit and sign; a
/// number may carry its own unit ("0.4 mm"). An empty cell is a value that was not measured. Rows
/// count as measured on real blocks unless a column says `simulated`.
[[nodiscard]] MappedRows map_rows(const ForeignTable& table, const Mapping& mapping);

/// The number of a cell in our unit; `unit` is that of its column.
///
/// Errors: kParse for text that is no number (two separators, thousands, a unit of another kind)
[[nodiscard]] base::Result<double> read_foreign_number(std::string_view cell, const Unit& unit);

}  // namespace driftbench::classroom
