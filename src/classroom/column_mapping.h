// Which column of a foreign table is which of ours, in which unit, and what its plus sign means.
#pragma once

#include "base/result.h"
#include "classroom/foreign_table.h"
#include "stats/holes_table.h"

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace driftbench::classroom {

enum class Dimension : std::uint8_t { kWord, kWhole, kLength, kAngle, kTime };

/// A unit that a foreign table may use; `in_ours` of ours make one of it.
struct Unit {
  std::string_view name;
  Dimension dimension = Dimension::kWord;
  double in_ours = 1.0;
};

/// The first unit of a dimension is ours.
inline constexpr std::array<Unit, 8> kUnits{
    {{"mm", Dimension::kLength, 1.0},
     {"cm", Dimension::kLength, 10.0},
     {"inch", Dimension::kLength, 25.4},
     {"um", Dimension::kLength, 0.001},
     {"deg", Dimension::kAngle, 1.0},
     {"rad", Dimension::kAngle, 180.0 / 3.14159265358979323846},
     {"s", Dimension::kTime, 1.0},
     {"min", Dimension::kTime, 60.0}}};

/// One of our columns, as a foreign column may become it.
struct Target {
  std::string_view name;  ///< as in holes.csv
  Dimension dimension = Dimension::kWord;
  bool is_signed = false;  ///< its plus sign may mean the other direction
};

inline constexpr std::array<Target, 21> kTargets{{{"attempt_id"},
                                                  {"operator"},
                                                  {"cohort"},
                                                  {"approach"},
                                                  {"implant_through_guide"},
                                                  {"measured"},
                                                  {"site"},
                                                  {"specimen"},
                                                  {"boundary_deg", Dimension::kAngle},
                                                  {"period", Dimension::kWhole},
                                                  {"entry_md_mm", Dimension::kLength, true},
                                                  {"entry_bl_mm", Dimension::kLength, true},
                                                  {"depth_mm", Dimension::kLength, true},
                                                  {"apex_md_mm", Dimension::kLength, true},
                                                  {"apex_bl_mm", Dimension::kLength, true},
                                                  {"tilt_md_deg", Dimension::kAngle, true},
                                                  {"tilt_bl_deg", Dimension::kAngle, true},
                                                  {"angle_deg", Dimension::kAngle},
                                                  {"hole_diameter_mm", Dimension::kLength},
                                                  {"time_s", Dimension::kTime},
                                                  {"source"}}};

[[nodiscard]] const Target* find_target(std::string_view name);
[[nodiscard]] const Unit* find_unit(std::string_view name);

/// What one foreign column, or one constant, becomes.
struct Choice {
  std::string column;  ///< empty: every row gets `constant`
  const Target* target = nullptr;
  const Unit* unit = nullptr;  ///< of numbers; null: ours
  bool is_reversed = false;    ///< plus means the other direction
  std::string constant;
  /// Words of the column approach that are not understood by themselves.
  std::vector<std::pair<std::string, stats::Approach>> words;
};

using Mapping = std::vector<Choice>;

/// The approach that a word stands for: ours, and what people write ("free-hand", "guided", "FH").
[[nodiscard]] std::optional<stats::Approach> approach_of_word(std::string_view word);

/// A first proposal from the names of the columns and the units in them; each of ours at most once.
[[nodiscard]] Mapping guess_mapping(const ForeignTable& table);

/// A mapping as a table: column, as, unit, sign (+ or -), words (of approach,
/// "fh=freehand|g=sleeve"; of a row without a column, the constant).
[[nodiscard]] std::string write_mapping(const Mapping& mapping);

/// Errors: as base::parse_csv; kParse for an unknown word, one of ours twice, a unit of another
///         kind
[[nodiscard]] base::Result<Mapping> read_mapping(std::string_view text, const std::string& file);

}  // namespace driftbench::classroom
