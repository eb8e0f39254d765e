// Constants of the hand, of cutting and of numerics, with their sources; see MODEL.md.
#pragma once

namespace driftbench::drilling {

/// The fixed step.
inline constexpr double kStep_s = 0.001;

/// Hand that holds the handpiece.
struct HandParams {
  double grip_height_mm = 25.0;  ///< grip above the tip; own assumption
  double lateral_stiffness_n_per_mm =
      1.2;  ///< at the grip; fingertip 0.2-0.8 and arm 0.1-0.8 N/mm are
            ///< published, braced two-point grasp above both: own assumption
  double wrist_stiffness_nmm_per_rad = 120.0;  ///< own assumption
  double lateral_damping_ns_per_mm =
      0.02;              ///< fingertip 1.5-6 N s/m published (0.0015-0.006); braced: own assumption
  double mass_kg = 0.2;  ///< handpiece and the hand that moves with it; own assumption
  double feed_damping_ns_per_mm =
      0.8;                        ///< limits free advance to about 20 mm/s at 16 N; own assumption
  double lowpass_hz = 3.0;        ///< voluntary hand motion lies below 2 Hz (98.9 % of power)
  double press_lowpass_hz = 5.0;  ///< own assumption
  double drift_mm = 0.10;         ///< SD of the slow wander of the hand; own assumption
  double drift_period_s = 4.0;    ///< its correlation time; own assumption (0.1-0.5 Hz)
  double drift_lean_rad = 0.004;  ///< SD of the slow wander of the lean; own assumption

  friend bool operator==(const HandParams&, const HandParams&) = default;
};

/// How one zone of the drill resists: p = sigma (yield_frac + chip / chip_scale).
struct ZoneLaw {
  double yield_frac = 0.0;     ///< share of the strength that must be overcome before it moves
  double chip_scale_mm = 0.0;  ///< chip thickness per revolution at which p rises by one sigma

  friend bool operator==(const ZoneLaw&, const ZoneLaw&) = default;
};

/// Cutting behaviour, per zone of the drill.
struct CuttingParams {
  ZoneLaw lip{0.02,
              0.75};  ///< anchored to published cortical thrust (3.2 mm, 0.096 mm/rev: 22 MPa)
  ZoneLaw chisel{0.30, 0.30};   ///< the centre indents; own assumption within the same anchor
  ZoneLaw margin{1.0, 0.06};    ///< margins hardly cut: over ten times the lips; own assumption
  ZoneLaw side_lip{0.06, 0.8};  ///< side-cutting bur and starter; own assumption
  double specific_energy_frac = 8.0;  ///< cutting energy per volume over strength; gives the torque
                                      ///< of MacAvelia et al. 2012 in the human femur
  double walk_frac = 0.125;  ///< share of the cutting force left over sideways: the other lip and
                             ///< the margins take the rest; own assumption
  double friction = 0.3;     ///< steel on foam, sliding; own assumption
  double idle_rev_per_s = 0.05;  ///< a still drill indents as if it turned this slowly; numerical
  double creep_speed_mm_per_s =
      0.005;  ///< speed at which yield is fully met (regularisation); numerical

  friend bool operator==(const CuttingParams&, const CuttingParams&) = default;
};

}  // namespace driftbench::drilling
