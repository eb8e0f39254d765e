// The holes of a class as statistics need them, read from a holes.csv.
#pragma once

#include "base/csv.h"
#include "base/result.h"
#include "math/vec.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::stats {

/// How a hole was made, in the order of the reports.
enum class Approach : std::uint8_t { kFreehand, kPilot, kSleeve };

/// Words of the column `approach`, in the order of Approach.
inline constexpr std::array<std::string_view, 3> kApproachNames{"freehand", "pilot", "sleeve"};

/// Name of the measure when no column is chosen: sqrt(entry_md_mm^2 + entry_bl_mm^2).
inline constexpr std::string_view kEntryDistance = "entry_lateral_mm";

struct Hole {
  std::uint32_t operator_index = 0;
  Approach approach = Approach::kFreehand;
  std::optional<math::Vec2> entry;  ///< md and bl of the entry, mm
  std::optional<double> measure;    ///< what ISO 5725 and pairs look at
};

/// A hole that some of the statistics had to leave out.
struct LeftOut {
  int line = 0;
  std::string reason;
};

struct HoleTable {
  std::vector<std::string> operators;  ///< names, in the order in which they first appear
  std::vector<Hole> holes;
  std::string measure{kEntryDistance};
  bool is_column_measure = false;  ///< a column was chosen
  std::vector<LeftOut> left_out;   ///< the first kMaxLeftOut of them
  std::size_t left_out_count = 0;
  std::vector<std::string> warnings;  ///< like holes of two kinds in one table
};

inline constexpr std::size_t kMaxLeftOut = 200;

/// Sizes up to which a table of a large study is read: a million rows fit.
inline constexpr base::CsvLimits kHolesLimits{std::size_t{512} << 20U, 4'000'000, 256};

/// Reads the columns operator, approach, entry_md_mm, entry_bl_mm and, when given,
/// `measure_column`. Empty cells are missing values. Other columns are not looked at.
///
/// Errors: as base::visit_csv; kParse with "file:line: ..." for a missing column (operator,
///         approach, two components, the chosen one), an unknown approach, an operator without
///         name, a number that is none or beyond +-1,000,000
[[nodiscard]] base::Result<HoleTable> read_holes(std::string_view text, std::string_view file_name,
                                                 const std::optional<std::string>& measure_column);

}  // namespace driftbench::stats
