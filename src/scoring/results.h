// The measures of one attempt, all signed where a sign exists.
#pragma once

#include "math/vec.h"
#include "specimen/structure.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::scoring {

/// Difference between an achieved and a planned placement (definitions: contracts, DEVELOPERS.md).
///
/// Unit:  mm, degrees. Sign: depth + deeper; md + distal (or toward the soft half); bl + lingual.
struct Deviation {
  double entry_global_mm = 0.0;   ///< 3-D distance of the entry points
  double entry_lateral_mm = 0.0;  ///< part of it perpendicular to the planned axis
  double entry_piercing_mm =
      0.0;                ///< planned entry to where the achieved axis pierces the platform plane
  double depth_mm = 0.0;  ///< entry, along the planned axis
  double apex_global_mm = 0.0;
  double apex_lateral_mm = 0.0;
  double apex_depth_mm = 0.0;
  double angle_deg = 0.0;
  double entry_md_mm = 0.0;
  double entry_bl_mm = 0.0;
  double apex_md_mm = 0.0;
  double apex_bl_mm = 0.0;
  double tilt_md_deg = 0.0;
  double tilt_bl_deg = 0.0;
};

/// One slice of the hole, perpendicular to the planned axis.
struct HoleSlice {
  double depth_mm = 0.0;  ///< below the planned platform
  double md_mm = 0.0;     ///< centroid
  double bl_mm = 0.0;
  double diameter_mm = 0.0;  ///< of the disc with the same area
  double major_mm = 0.0;     ///< axes of the ellipse with the same second moments
  double minor_mm = 0.0;
  double major_heading_deg = 0.0;  ///< from +md toward +bl, [0, 180)
};

/// The hole as found in the material, without knowing how it was made.
struct HoleMeasures {
  math::Vec3 entry_mm{0.0, 0.0, 0.0};  ///< fitted axis through the planned platform plane
  math::Vec3 apex_mm{0.0, 0.0, 0.0};   ///< fitted axis at the full-diameter floor
  Deviation deviation;
  double depth_error_mm = 0.0;    ///< (apex - planned apex) . down, + deeper
  double hole_diameter_mm = 0.0;  ///< mean equivalent diameter 1 to 3 mm below the rim
  double oversize_mm = 0.0;       ///< hole_diameter minus the last planned drill
  double ovality_mm = 0.0;        ///< mean of major minus minor over the same depths
  double axis_residual_mm = 0.0;  ///< rms distance of slice centroids from the fitted axis
  double removed_mm3 = 0.0;
  std::vector<HoleSlice> slices;  ///< from the rim down
};

/// What happened on the way.
struct ProcessMeasures {
  double time_s = 0.0;  ///< first contact to the last
  double peak_side_n = 0.0;
  std::int64_t peak_side_step = 0;
  double peak_press_n = 0.0;
  double deepest_shoulder_mm = 0.0;  ///< deepest the full diameter ever went, planned axis
  double plunge_mm = 0.0;  ///< deepest_shoulder past the planned depth, 0 when it stayed above
  double peak_heat_degc = 0.0;
  std::optional<double> peak_torque_nmm;  ///< of drilling; records of engine 1 have none
};

/// The implant where it sits. Torques are illustrative.
struct ImplantMeasures {
  math::Vec3 entry_mm{0.0, 0.0, 0.0};  ///< centre of the platform
  math::Vec3 apex_mm{0.0, 0.0, 0.0};   ///< centre of the end
  Deviation deviation;
  double depth_error_mm = 0.0;  ///< at the platform, + deeper
  double peak_torque_nmm = 0.0;
  double final_torque_nmm = 0.0;  ///< when it last turned inward
  double grip_frac = 1.0;         ///< share of the thread that holds; 0: stripped
  double peak_side_n = 0.0;
  double peak_press_n = 0.0;
  double time_s = 0.0;  ///< first contact to the last
};

/// The distance left to one structure of a jaw, with the drill's point and the implant counted.
struct ClearanceMeasure {
  specimen::Structure structure = specimen::Structure::kCanal;
  double planned_mm = 0.0;
  double achieved_mm = 0.0;  ///< negative: reached into it, or out of the bone
  double keep_mm = 0.0;      ///< the case's margin; 0: none
  bool is_implant = false;   ///< the implant came nearest, not a drill
  math::Vec3 at_mm{0.0};     ///< nearest place of the structure

  [[nodiscard]] bool is_kept() const { return achieved_mm >= keep_mm; }
};

/// A structure was touched, or the bone was left.
struct JawEvent {
  specimen::Structure structure = specimen::Structure::kCanal;
  bool is_going_on = false;  ///< work went on after the first event
  std::int64_t step = 0;
  math::Vec3 at_mm{0.0};
};

/// What a larger error of the same kind would have touched first.
struct NextTouch {
  specimen::Structure structure = specimen::Structure::kCanal;
  double error_factor = 1.0;  ///< so many times the error of this hole
};

/// What belongs to a jaw and to no block.
struct JawMeasures {
  std::vector<ClearanceMeasure> clearances;  ///< in the order of specimen::Structure
  std::vector<JawEvent> events;              ///< in order of time
  std::optional<NextTouch> next;             ///< none: three times the error touches nothing
};

/// One reason why an attempt is outside its tolerance.
struct Reason {
  std::string measure;  ///< "entry_lateral_mm" ...
  double found = 0.0;
  double low = 0.0;
  double high = 0.0;
};

/// All results of an attempt. `hole` is empty when there is nothing that could be measured.
struct Results {
  std::optional<HoleMeasures> hole;
  std::string no_hole_reason;              ///< set when `hole` is empty
  std::optional<ImplantMeasures> implant;  ///< placed; then it is judged, not the hole
  std::string no_implant_reason;           ///< set when one was wanted and none was placed
  ProcessMeasures process;
  std::optional<JawMeasures> jaw;  ///< in a jaw, once a drill went in
  bool inside_tolerance = false;
  std::vector<Reason> reasons;
};

/// What the learner thought, before anything was shown.
struct SelfEstimate {
  double entry_md_mm = 0.0;
  double entry_bl_mm = 0.0;
  double depth_error_mm = 0.0;
  double tilt_md_deg = 0.0;
  double tilt_bl_deg = 0.0;
  int confidence = 1;  ///< 0 low, 1 middle, 2 high
};

}  // namespace driftbench::scoring
