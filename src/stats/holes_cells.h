// Which columns a holes.csv must have, and what its cells mean: for all who read one.
#pragma once

#include "base/csv.h"
#include "base/result.h"
#include "stats/holes_table.h"

#include <array>
#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::stats {

/// Columns of the measured components, in the order of holes.csv.
inline constexpr std::array<std::string_view, 7> kComponents{
    "entry_md_mm", "entry_bl_mm", "depth_mm",   "apex_md_mm",
    "apex_bl_mm",  "tilt_md_deg", "tilt_bl_deg"};

/// Cells of one file by column. The name of the file must outlive it.
class HolesCells {
 public:
  explicit HolesCells(std::string_view file_name) : file_name_(file_name) {}

  /// Errors: kParse for a missing column: operator, approach, two components
  [[nodiscard]] base::Result<void> take_header(const std::vector<std::string>& header);

  /// Where a column stands.
  [[nodiscard]] std::optional<std::size_t> column(std::string_view name) const;

  /// A cell without the spaces around it; empty for a column that is not there.
  [[nodiscard]] static std::string_view text(const base::CsvRow& row,
                                             const std::optional<std::size_t>& column);

  /// Errors: kParse for a word that is no approach
  [[nodiscard]] base::Result<Approach> approach(const base::CsvRow& row) const;

  /// The number of a cell; nothing for an empty cell or a column that is not there.
  ///
  /// Errors: kParse for a number that is none or beyond +-1,000,000
  [[nodiscard]] base::Result<std::optional<double>> number(const base::CsvRow& row,
                                                           const std::optional<std::size_t>& column,
                                                           std::string_view name) const;

  /// The failure of a row of this file: kParse.
  [[nodiscard]] tl::unexpected<base::Error> failure(int line, std::string_view found,
                                                    std::string_view expected) const;

  /// The beginning of a cell, short enough for a sentence.
  [[nodiscard]] static std::string shown(std::string_view text);

 private:
  std::string_view file_name_;
  std::map<std::string, std::size_t, std::less<>> columns_;
};

}  // namespace driftbench::stats
