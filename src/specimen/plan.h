// What is to be drilled, and the guide that may help.
#pragma once

#include "math/vec.h"

#include <optional>
#include <string>
#include <vector>

namespace driftbench::specimen {

enum class Approach {
  kFreehand,  ///< no guide
  kPilot,     ///< first drill guided
  kSleeve     ///< all drills guided
};

/// Planned site. The site frame is built on it: entry is the origin, the axis is +z.
struct Plan {
  math::Vec3 entry_mm{0.0, 0.0, 0.0};
  math::Vec3 axis_out_unit{0.0, 0.0, 1.0};
  double depth_mm = 10.0;             ///< platform to the full-diameter floor
  math::Vec3 md_hint{1.0, 0.0, 0.0};  ///< 'distal' or, in a block, toward the second half
  math::Vec3 bl_hint{0.0, 1.0, 0.0};  ///< 'lingual'
  std::string implant_id;
  std::vector<std::string> drill_ids;  ///< planned sequence

  [[nodiscard]] math::Vec3 apex_mm() const { return entry_mm - depth_mm * axis_out_unit; }

  friend bool operator==(const Plan&, const Plan&) = default;
};

/// What a guide in a jaw rests on.
enum class SupportKind { kTeeth, kMucosa, kBone };

/// Support of a guide in a jaw; the numbers that follow from it are in guide_support.h.
struct GuideSupport {
  SupportKind on = SupportKind::kTeeth;
  int pins = 0;             ///< fixation pins into the bone
  bool bite_index = false;  ///< the opposing teeth put it in place; on gum only

  friend bool operator==(const GuideSupport&, const GuideSupport&) = default;
};

/// A guide that stands with four feet at the corners of a square.
struct Guide {
  std::string sleeve_id;
  double gap_mm = 3.5;         ///< planned platform to the sleeve's lower edge
  double foot_span_mm = 20.0;  ///< distance between neighbouring feet; with a support and 0: as
                               ///< the jaw gives it
  double seat_force_n = 8.0;   ///< load on a foot that closes its gap; own assumption
  double start_gap_max_mm =
      1.2;  ///< largest gap of a foot when the guide is put on; own assumption
  double support_stiffness_n_per_mm = 150.0;  ///< lateral, guide on its feet; own assumption
  double foot_stiffness_n_per_mm = 50.0;      ///< of one foot, along the axis; own assumption
  double fit_sd_mm = 0.0;        ///< SD per axis of making and fitting, where the sleeve's axis
                                 ///< meets the platform; 0: made exactly as planned
  double fit_tilt_sd_deg = 0.0;  ///< SD per axis of the sleeve's axis from the same causes
  std::optional<GuideSupport> support;     ///< in a jaw; none: four feet round the site
  std::optional<double> mouth_opening_mm;  ///< of the patient, between the incisors

  friend bool operator==(const Guide&, const Guide&) = default;
};

}  // namespace driftbench::specimen
