// The invented instrument kit: drills, sleeve, keys, implant.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace driftbench::specimen {

enum class DrillKind {
  kTwist,      ///< cuts at its point; its margins hardly cut
  kStarter,    ///< round bur that marks the entry
  kSideCutter  ///< cuts along its side too, can be steered
};

/// One drill. Lengths and depth lines are to the full-diameter shoulder.
struct Drill {
  std::string id;
  DrillKind kind = DrillKind::kTwist;
  double diameter_mm = 0.0;
  double point_angle_deg = 118.0;  ///< included angle of the point
  double tip_length_mm = 0.0;      ///< extra length of the point beyond the shoulder, as printed
  double shank_diameter_mm = 2.35;
  double body_length_mm = 0.0;          ///< cutting body above the shoulder
  double collar_diameter_mm = 0.0;      ///< guiding collar of the shank, below the stop
  double collar_length_mm = 0.0;        ///< 0: none; the cutting body runs in sleeve or key
  double speed_rpm = 0.0;               ///< usual speed
  std::vector<double> stop_lengths_mm;  ///< stop-to-shoulder lengths the kit has, for guided use
  std::vector<double> depth_lines_mm;   ///< printed lines above the shoulder

  friend bool operator==(const Drill&, const Drill&) = default;
};

/// Tube fixed in the guide.
struct Sleeve {
  std::string id;
  double bore_mm = 0.0;
  double height_mm = 0.0;
  double outer_diameter_mm = 0.0;

  friend bool operator==(const Sleeve&, const Sleeve&) = default;
};

/// Insert that narrows the sleeve to one drill. Its spigot fills the sleeve, its collar rests on
/// top.
struct Key {
  std::string id;
  std::string drill_id;
  double spigot_diameter_mm = 0.0;  ///< runs in the sleeve's bore
  double bore_mm = 0.0;             ///< the drill runs here
  double collar_mm = 0.0;           ///< thickness above the sleeve

  friend bool operator==(const Key&, const Key&) = default;
};

/// Shape of an implant's thread. Where a kit gives none, thread_of() has usual proportions.
struct ImplantThread {
  double core_diameter_mm = 0.0;  ///< between the threads, in the cylindrical part
  double apex_diameter_mm = 0.0;  ///< over the threads, at the very end
  double taper_mm = 0.0;          ///< length of the tapered end
  double pitch_mm = 0.6;          ///< from crest to crest; own assumption
  double lead_mm_per_rev = 1.2;   ///< advance in one turn (two thread starts); own assumption
  double speed_rpm = 25.0;        ///< usual speed of insertion (15 to 30: teaching value)

  friend bool operator==(const ImplantThread&, const ImplantThread&) = default;
};

/// Generic parametric implant.
struct Implant {
  std::string id;
  double diameter_mm = 0.0;  ///< over the threads
  double length_mm = 0.0;    ///< platform to apex
  std::optional<ImplantThread> thread;

  friend bool operator==(const Implant&, const Implant&) = default;
};

/// The implant's thread as the kit gives it, or one of usual proportions: core 0.8 and apex 0.72 of
/// the diameter, the lower half tapered.
///
/// Source: own assumption
[[nodiscard]] ImplantThread thread_of(const Implant& implant);

struct Kit {
  std::string id;
  std::string name;
  std::vector<Drill> drills;
  std::vector<Sleeve> sleeves;
  std::vector<Key> keys;
  std::vector<Implant> implants;

  friend bool operator==(const Kit&, const Kit&) = default;
};

/// The handpiece's head, and the bare shank between stop and head; own assumption.
inline constexpr double kHeadRadius_mm = 4.1;
inline constexpr double kHeadHeight_mm = 13.2;
inline constexpr double kFreeShank_mm = 3.4;

/// Height of a conical point: (d/2) / tan(angle/2).
///
/// Source: geometry; 118 deg, 2.0 mm -> 0.601 mm
[[nodiscard]] double point_height_mm(double diameter_mm, double point_angle_deg);

}  // namespace driftbench::specimen
