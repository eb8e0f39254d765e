// The tooth to come over a planned implant: its crown as a ghost, the way of the screw through it.
#pragma once

#include "lesson/specimen_case.h"

#include <array>

namespace driftbench::ui {

/// Crown of average size, upright over the middle of the site.
///
/// Frame: jaw frame. Source: specimen::average_tooth(); place and shape are own assumptions
struct GhostCrown {
  double bottom_mm = 0.0;  ///< height of the planned gum margin
  double top_mm = 0.0;
  double neck_md_mm = 0.0, crown_md_mm = 0.0;
  double neck_bl_mm = 0.0, crown_bl_mm = 0.0;

  /// Outline in a section: across (md or bl) and height, from one corner round to the other.
  [[nodiscard]] std::array<std::array<double, 2>, 8> outline(bool along_arch) const;
};

[[nodiscard]] GhostCrown ghost_crown(const lesson::SpecimenCase& specimen);

/// Where the implant's axis leaves through the top of the crown. Frame: jaw frame.
[[nodiscard]] math::Vec3 screw_exit_mm(const GhostCrown& crown, const lesson::CasePlan& plan);

/// Depth of the platform below the planned gum margin.
[[nodiscard]] double below_margin_mm(const GhostCrown& crown, const lesson::CasePlan& plan);

}  // namespace driftbench::ui
