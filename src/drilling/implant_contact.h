// How the wall of a hole holds an implant: embedded thread, pressure, hold along the axis.
#pragma once

#include "drilling/implant.h"
#include "drilling/step.h"

#include <vector>

namespace driftbench::drilling {

// Constants of MODEL section 11; every one an own assumption unless a source is named.

/// Steel or titanium on foam, sliding, as for a drill. Own assumption.
inline constexpr double kThreadFriction = 0.3;
/// Energy per formed volume over strength: compacted, not cut. Own assumption: with it common
/// insertion torques come out.
inline constexpr double kFormingEnergy_frac = 4.0;
/// Slip at which a thread pulls with half its hold. Numerical.
inline constexpr double kThreadCreep_mm_per_s = 0.02;
/// Turning slower than this counts as still. Numerical.
inline constexpr double kStill_rev_per_s = 0.001;

/// The wall around an implant at one pose.
struct ThreadHold {
  double engaged_mm2 = 0.0;         ///< envelope whose thread is in the wall
  double shear_n = 0.0;             ///< hold of an undamaged thread along the axis (eq. 21)
  double plough_n = 0.0;            ///< to push the thread in without turning it (eq. 22)
  double wall_n = 0.0;              ///< sum of the wall's pressure forces
  double friction_nmm = 0.0;        ///< torque of the sliding thread (eq. 24)
  double forming_nmm_per_mm = 0.0;  ///< energy per mm of advance (eq. 25)
  double strength_area_n = 0.0;     ///< strength times engaged area, for the mean
  math::Vec3 force_n{};             ///< of the wall's spring back on the implant
  math::Vec3 moment_nmm{};          ///< about the centre of the end
};

/// Reads the wall into a hold and adds its resistance against sideways motion to `contacts`.
///
/// Frame: site frame. Cost: up to nine trilinear reads per element near material
[[nodiscard]] ThreadHold find_wall(const ImplantBody& body, const DrillPose& pose,
                                   const DrillFrame& frame, double grip, const StepModel& model,
                                   const volume::Volume& volume, std::vector<Contact>& contacts);

/// Adds the floor's resistance against the flat end to `contacts`.
void add_floor(const ImplantBody& body, const DrillPose& pose, const DrillFrame& frame,
               double rev_per_s, const StepModel& model, const volume::Volume& volume,
               std::vector<Contact>& contacts);

}  // namespace driftbench::drilling
