// The numbers of a jaw section with the ranges that they must lie in: one table a part, for the
// check and for files.
#pragma once

#include "specimen/jaw.h"

#include <array>
#include <string_view>

namespace driftbench::specimen {

/// One number of a part, both ends included. Some ends are narrower for the part beside others, see
/// validated().
template <class T>
struct SizeLimit {
  std::string_view name;  ///< as in files
  double T::*member;
  double low;
  double high;
  std::string_view unit;
};

inline constexpr std::array<SizeLimit<JawSpec>, 4> kSectionLimits{
    {{"length_mm", &JawSpec::length_mm, 14.0, 70.0, "mm"},
     {"depth_mm", &JawSpec::depth_mm, 10.0, 60.0, "mm"},
     {"arch_radius_mm", &JawSpec::arch_radius_mm, 0.0, 500.0, "mm"},
     {"voxel_mm", &JawSpec::voxel_mm, 0.1, 0.5, "mm"}}};

inline constexpr std::array<SizeLimit<RidgeSpec>, 15> kRidgeLimits{
    {{"height_mm", &RidgeSpec::height_mm, 12.0, 45.0, "mm"},
     {"crest_width_mm", &RidgeSpec::crest_width_mm, 0.8, 16.0, "mm"},
     {"upper_width_mm", &RidgeSpec::upper_width_mm, 1.5, 20.0, "mm"},
     {"body_width_mm", &RidgeSpec::body_width_mm, 4.0, 24.0, "mm"},
     {"body_depth_mm", &RidgeSpec::body_depth_mm, 5.0, 29.0, "mm"},
     {"base_width_mm", &RidgeSpec::base_width_mm, 4.0, 24.0, "mm"},
     {"lean_mm", &RidgeSpec::lean_mm, -15.0, 15.0, "mm"},
     {"crest_slope_deg", &RidgeSpec::crest_slope_deg, -45.0, 45.0, "deg"},
     {"rise_mm", &RidgeSpec::rise_mm, -2.0, 6.0, "mm"},
     {"undercut_depth_mm", &RidgeSpec::undercut_depth_mm, 0.0, 6.0, "mm"},
     {"undercut_level_mm", &RidgeSpec::undercut_level_mm, 4.0, 20.0, "mm"},
     {"undercut_angle_deg", &RidgeSpec::undercut_angle_deg, 35.0, 85.0, "deg"},
     {"facial_hollow_mm", &RidgeSpec::facial_hollow_mm, 0.0, 4.0, "mm"},
     {"facial_hollow_level_mm", &RidgeSpec::facial_hollow_level_mm, 3.0, 20.0, "mm"},
     {"palate_flare_mm", &RidgeSpec::palate_flare_mm, 0.0, 15.0, "mm"}}};

inline constexpr std::array<SizeLimit<CortexSpec>, 4> kCortexLimits{
    {{"facial_mm", &CortexSpec::facial_mm, 0.2, 5.0, "mm"},
     {"lingual_mm", &CortexSpec::lingual_mm, 0.2, 5.0, "mm"},
     {"crest_mm", &CortexSpec::crest_mm, 0.2, 5.0, "mm"},
     {"base_mm", &CortexSpec::base_mm, 0.2, 6.0, "mm"}}};

inline constexpr std::array<SizeLimit<CanalSpec>, 7> kCanalLimits{
    {{"diameter_mm", &CanalSpec::diameter_mm, 1.0, 5.0, "mm"},
     {"wall_mm", &CanalSpec::wall_mm, 0.0, 2.0, "mm"},
     {"depth_mm", &CanalSpec::depth_mm, 1.0, 30.0, "mm"},
     {"lateral_mm", &CanalSpec::lateral_mm, -6.0, 6.0, "mm"},
     {"rise_deg", &CanalSpec::rise_deg, -30.0, 30.0, "deg"},
     {"drift_deg", &CanalSpec::drift_deg, -30.0, 30.0, "deg"},
     {"sag_mm", &CanalSpec::sag_mm, -4.0, 4.0, "mm"}}};

inline constexpr std::array<SizeLimit<ForamenSpec>, 4> kForamenLimits{
    {{"at_mm", &ForamenSpec::at_mm, -25.0, 25.0, "mm"},
     {"depth_mm", &ForamenSpec::depth_mm, 4.0, 25.0, "mm"},
     {"diameter_mm", &ForamenSpec::diameter_mm, 1.0, 6.0, "mm"},
     {"loop_mm", &ForamenSpec::loop_mm, 0.0, 6.0, "mm"}}};

inline constexpr std::array<SizeLimit<NasopalatineSpec>, 5> kNasopalatineLimits{
    {{"at_mm", &NasopalatineSpec::at_mm, -20.0, 20.0, "mm"},
     {"lateral_mm", &NasopalatineSpec::lateral_mm, -5.0, 15.0, "mm"},
     {"lean_deg", &NasopalatineSpec::lean_deg, -45.0, 45.0, "deg"},
     {"diameter_mm", &NasopalatineSpec::diameter_mm, 1.0, 8.0, "mm"},
     {"wall_mm", &NasopalatineSpec::wall_mm, 0.0, 2.0, "mm"}}};

inline constexpr std::array<SizeLimit<LumenSpec>, 8> kLumenLimits{
    {{"floor_mm", &LumenSpec::floor_mm, 1.5, 59.0, "mm"},
     {"lowest_mm", &LumenSpec::lowest_mm, -30.0, 30.0, "mm"},
     {"bow_radius_mm", &LumenSpec::bow_radius_mm, 5.0, 1000.0, "mm"},
     {"mesial_end_mm", &LumenSpec::mesial_end_mm, -40.0, 20.0, "mm"},
     {"lateral_mm", &LumenSpec::lateral_mm, -15.0, 20.0, "mm"},
     {"width_mm", &LumenSpec::width_mm, 2.0, 25.0, "mm"},
     {"cortex_mm", &LumenSpec::cortex_mm, 0.2, 3.0, "mm"},
     {"membrane_mm", &LumenSpec::membrane_mm, 0.1, 6.0, "mm"}}};

inline constexpr std::array<SizeLimit<ToothSpec>, 6> kToothLimits{
    {{"at_mm", &ToothSpec::at_mm, -40.0, 40.0, "mm"},
     {"lateral_mm", &ToothSpec::lateral_mm, -8.0, 8.0, "mm"},
     {"neck_mm", &ToothSpec::neck_mm, -3.0, 8.0, "mm"},
     {"lean_md_deg", &ToothSpec::lean_md_deg, -35.0, 35.0, "deg"},
     {"lean_bl_deg", &ToothSpec::lean_bl_deg, -40.0, 40.0, "deg"},
     {"scale", &ToothSpec::scale, 0.7, 1.3, ""}}};

inline constexpr std::array<SizeLimit<ImplantRoot>, 3> kImplantRootLimits{
    {{"diameter_mm", &ImplantRoot::diameter_mm, 2.0, 7.0, "mm"},
     {"length_mm", &ImplantRoot::length_mm, 4.0, 20.0, "mm"},
     {"platform_mm", &ImplantRoot::platform_mm, 0.5, 6.0, "mm"}}};

inline constexpr std::array<SizeLimit<CancellousSpec>, 1> kCancellousLimits{
    {{"contrast", &CancellousSpec::contrast, 0.0, 0.9, ""}}};

inline constexpr std::array<SizeLimit<GumSpec>, 3> kGumLimits{
    {{"crest_mm", &GumSpec::crest_mm, 0.3, 8.0, "mm"},
     {"side_mm", &GumSpec::side_mm, 0.3, 6.0, "mm"},
     {"reach_mm", &GumSpec::reach_mm, 4.0, 20.0, "mm"}}};

}  // namespace driftbench::specimen
