// Tooth numbers (FDI and US), where a tooth stands, and its average size.
#pragma once

#include "base/result.h"

#include <optional>

namespace driftbench::specimen {

/// True for 11..18, 21..28, 31..38, 41..48 (FDI, ISO 3950).
[[nodiscard]] bool is_fdi(int fdi);

/// Number of the same tooth in the US system, 1..32: 1..16 from the upper right third molar to the
/// upper left, 17..32 from the lower left to the lower right. Contract: is_fdi(fdi).
[[nodiscard]] int us_tooth_number(int fdi);

/// Contract of the following: is_fdi(fdi).
[[nodiscard]] int quadrant_of(int fdi);  ///< 1..4
[[nodiscard]] int position_of(int fdi);  ///< 1 central incisor .. 8 third molar
[[nodiscard]] bool is_upper(int fdi);

/// Whether the anatomical frame (+distal, +lingual, +out of the bone) is left-handed there:
/// quadrants 2 and 4. The core frame is right-handed, so such a section is mirrored at the border.
[[nodiscard]] bool is_mirrored(int fdi);

/// Average lengths of a tooth.
struct ToothSize {
  double crown_mm;     ///< height of the crown
  double root_mm;      ///< of the (buccal) root
  double crown_md_mm;  ///< mesio-distal width of the crown
  double neck_md_mm;
  double crown_bl_mm;  ///< bucco-lingual width of the crown
  double neck_bl_mm;
};

/// Average size of a tooth; third molars as second ones.
///
/// Unit:   mm. Contract: is_fdi(fdi)
/// Source: the carving table of the standard dental-anatomy text (Wheeler's), table 1-1; rounded
///         values as commonly reproduced
[[nodiscard]] const ToothSize& average_tooth(int fdi);

}  // namespace driftbench::specimen
