// Names and units of every number in the results, once for writing, reading and comparing.
#pragma once

#include "lesson/fields.h"
#include "scoring/results.h"

#include <array>

namespace driftbench::record {

/// Wide enough for any finite measure; narrower limits would judge a record while reading it.
inline constexpr base::NumberRange kAnyNumber{-1e12, 1e12};

template <class T>
using Field = lesson::NumberField<T>;

inline constexpr std::array<Field<scoring::Deviation>, 14> kDeviationFields{{
    {"entry_global_mm", &scoring::Deviation::entry_global_mm, kAnyNumber, "mm"},
    {"entry_lateral_mm", &scoring::Deviation::entry_lateral_mm, kAnyNumber, "mm"},
    {"entry_piercing_mm", &scoring::Deviation::entry_piercing_mm, kAnyNumber, "mm"},
    {"depth_mm", &scoring::Deviation::depth_mm, kAnyNumber, "mm"},
    {"apex_global_mm", &scoring::Deviation::apex_global_mm, kAnyNumber, "mm"},
    {"apex_lateral_mm", &scoring::Deviation::apex_lateral_mm, kAnyNumber, "mm"},
    {"apex_depth_mm", &scoring::Deviation::apex_depth_mm, kAnyNumber, "mm"},
    {"angle_deg", &scoring::Deviation::angle_deg, kAnyNumber, "deg"},
    {"entry_md_mm", &scoring::Deviation::entry_md_mm, kAnyNumber, "mm"},
    {"entry_bl_mm", &scoring::Deviation::entry_bl_mm, kAnyNumber, "mm"},
    {"apex_md_mm", &scoring::Deviation::apex_md_mm, kAnyNumber, "mm"},
    {"apex_bl_mm", &scoring::Deviation::apex_bl_mm, kAnyNumber, "mm"},
    {"tilt_md_deg", &scoring::Deviation::tilt_md_deg, kAnyNumber, "deg"},
    {"tilt_bl_deg", &scoring::Deviation::tilt_bl_deg, kAnyNumber, "deg"},
}};

inline constexpr std::array<Field<scoring::HoleSlice>, 7> kSliceFields{{
    {"depth_mm", &scoring::HoleSlice::depth_mm, kAnyNumber, "mm"},
    {"md_mm", &scoring::HoleSlice::md_mm, kAnyNumber, "mm"},
    {"bl_mm", &scoring::HoleSlice::bl_mm, kAnyNumber, "mm"},
    {"diameter_mm", &scoring::HoleSlice::diameter_mm, kAnyNumber, "mm"},
    {"major_mm", &scoring::HoleSlice::major_mm, kAnyNumber, "mm"},
    {"minor_mm", &scoring::HoleSlice::minor_mm, kAnyNumber, "mm"},
    {"major_heading_deg", &scoring::HoleSlice::major_heading_deg, kAnyNumber, "deg"},
}};

inline constexpr std::array<Field<scoring::HoleMeasures>, 6> kHoleFields{{
    {"depth_error_mm", &scoring::HoleMeasures::depth_error_mm, kAnyNumber, "mm"},
    {"hole_diameter_mm", &scoring::HoleMeasures::hole_diameter_mm, kAnyNumber, "mm"},
    {"oversize_mm", &scoring::HoleMeasures::oversize_mm, kAnyNumber, "mm"},
    {"ovality_mm", &scoring::HoleMeasures::ovality_mm, kAnyNumber, "mm"},
    {"axis_residual_mm", &scoring::HoleMeasures::axis_residual_mm, kAnyNumber, "mm"},
    {"removed_mm3", &scoring::HoleMeasures::removed_mm3, kAnyNumber, "mm3"},
}};

inline constexpr std::array<Field<scoring::ClearanceMeasure>, 3> kClearanceFields{{
    {"planned_mm", &scoring::ClearanceMeasure::planned_mm, kAnyNumber, "mm"},
    {"achieved_mm", &scoring::ClearanceMeasure::achieved_mm, kAnyNumber, "mm"},
    {"keep_mm", &scoring::ClearanceMeasure::keep_mm, kAnyNumber, "mm"},
}};

inline constexpr std::array<Field<scoring::NextTouch>, 1> kNextTouchFields{{
    {"error_factor", &scoring::NextTouch::error_factor, kAnyNumber, ""},
}};

inline constexpr std::array<Field<scoring::ProcessMeasures>, 6> kProcessFields{{
    {"time_s", &scoring::ProcessMeasures::time_s, kAnyNumber, "s"},
    {"peak_side_n", &scoring::ProcessMeasures::peak_side_n, kAnyNumber, "N"},
    {"peak_press_n", &scoring::ProcessMeasures::peak_press_n, kAnyNumber, "N"},
    {"deepest_shoulder_mm", &scoring::ProcessMeasures::deepest_shoulder_mm, kAnyNumber, "mm"},
    {"plunge_mm", &scoring::ProcessMeasures::plunge_mm, kAnyNumber, "mm"},
    {"peak_heat_degc", &scoring::ProcessMeasures::peak_heat_degc, kAnyNumber, "degC"},
}};

inline constexpr std::array<Field<scoring::ImplantMeasures>, 7> kImplantFields{{
    {"depth_error_mm", &scoring::ImplantMeasures::depth_error_mm, kAnyNumber, "mm"},
    {"peak_torque_nmm", &scoring::ImplantMeasures::peak_torque_nmm, kAnyNumber, "N mm"},
    {"final_torque_nmm", &scoring::ImplantMeasures::final_torque_nmm, kAnyNumber, "N mm"},
    {"grip_frac", &scoring::ImplantMeasures::grip_frac, kAnyNumber, ""},
    {"peak_side_n", &scoring::ImplantMeasures::peak_side_n, kAnyNumber, "N"},
    {"peak_press_n", &scoring::ImplantMeasures::peak_press_n, kAnyNumber, "N"},
    {"time_s", &scoring::ImplantMeasures::time_s, kAnyNumber, "s"},
}};

inline constexpr std::array<Field<scoring::Reason>, 3> kReasonFields{{
    {"found", &scoring::Reason::found, kAnyNumber, ""},
    {"low", &scoring::Reason::low, kAnyNumber, ""},
    {"high", &scoring::Reason::high, kAnyNumber, ""},
}};

inline constexpr std::array<Field<scoring::SelfEstimate>, 5> kEstimateFields{{
    {"entry_md_mm", &scoring::SelfEstimate::entry_md_mm, {-50.0, 50.0}, "mm"},
    {"entry_bl_mm", &scoring::SelfEstimate::entry_bl_mm, {-50.0, 50.0}, "mm"},
    {"depth_error_mm", &scoring::SelfEstimate::depth_error_mm, {-50.0, 50.0}, "mm"},
    {"tilt_md_deg", &scoring::SelfEstimate::tilt_md_deg, {-90.0, 90.0}, "deg"},
    {"tilt_bl_deg", &scoring::SelfEstimate::tilt_bl_deg, {-90.0, 90.0}, "deg"},
}};

}  // namespace driftbench::record
