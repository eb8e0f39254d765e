// Signed measures in words: directions of a site, depth, lean, tolerance reasons.
#pragma once

#include "lesson/attempt_setup.h"
#include "scoring/results.h"

#include <string>

namespace driftbench::ui {

/// The words for the two anatomical directions of one site.
///
/// In a block md and bl are the soft and the dense half where the hint runs along the boundary's
/// normal, else the operator's left, right, near and far.
struct SiteWords {
  std::string md_plus;  ///< at an edge of a picture: "Soft half"
  std::string md_minus;
  std::string bl_plus;
  std::string bl_minus;
  std::string toward_md_plus;  ///< in a sentence: "toward the soft half"
  std::string toward_md_minus;
  std::string toward_bl_plus;
  std::string toward_bl_minus;
};

[[nodiscard]] SiteWords site_words(const lesson::AttemptSetup& setup);

/// Distances below this are "on the line": a tenth of a millimetre is what an eye can tell.
inline constexpr double kOnLine_mm = 0.05;
inline constexpr double kUpright_deg = 0.05;

/// "1.2 mm toward the soft half", or "on the planned line" below 0.05.
[[nodiscard]] std::string along_md(const SiteWords& words, double md_mm);
[[nodiscard]] std::string along_bl(const SiteWords& words, double bl_mm);

/// Both parts, or "at the planned point" when neither is off.
[[nodiscard]] std::string off_centre(const SiteWords& words, double md_mm, double bl_mm);

/// "0.4 mm too deep", "0.4 mm too shallow", "at the planned depth".
[[nodiscard]] std::string depth_words(double depth_error_mm);

/// "apex leans 3.1° toward the soft half", or "no lean".
[[nodiscard]] std::string lean_md(const SiteWords& words, double tilt_md_deg);
[[nodiscard]] std::string lean_bl(const SiteWords& words, double tilt_bl_deg);

/// Direction of a vector: the nearest edge, or two when it lies between them (> 22.5° from both).
/// Empty for a zero vector.
[[nodiscard]] std::string direction_words(const SiteWords& words, double md, double bl);

/// Why an attempt is outside: "Entry 1.4 mm off, limit 1.0 mm."
[[nodiscard]] std::string reason_words(const scoring::Reason& reason);

/// "Free-hand", "Drill-guided" ...
[[nodiscard]] std::string approach_words(specimen::Approach approach, bool implant_through_guide);

/// "dense foam 40 pcf (stands for D1) | soft foam ...": what the block is made of.
[[nodiscard]] std::string block_words(const specimen::BlockSpec& block);

/// A block as above, or the tooth whose place in a jaw is drilled, with both its numbers.
[[nodiscard]] std::string specimen_words(const specimen::Specimen& specimen);

/// Fixed decimals, with a true minus sign left out: the words carry the sign.
[[nodiscard]] std::string amount(double value, int decimals);

}  // namespace driftbench::ui
