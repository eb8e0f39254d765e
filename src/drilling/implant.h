// An implant as the step sees it: a slightly tapered body with a thread, sampled into elements.
#pragma once

#include "drilling/tool.h"
#include "math/vec.h"
#include "specimen/kit.h"

#include <vector>

namespace driftbench::drilling {

/// One piece of the thread's envelope in the implant's frame (apex centre at the origin, +z toward
/// the platform). The normal is radial: along its own thread an implant meets no wedge.
struct ThreadElement {
  math::Vec3 position_mm{};  ///< on the envelope
  math::Vec3 normal{};       ///< outward, unit
  double area_mm2 = 0.0;     ///< of the envelope
  double radius_mm = 0.0;    ///< of the envelope here
  double core_mm = 0.0;      ///< radius of the core here
  double taper = 0.0;        ///< rise of the radius per mm toward the platform
};

/// One piece of the flat end.
struct ApexElement {
  math::Vec3 position_mm{};
  double area_mm2 = 0.0;
  double radius_mm = 0.0;
};

/// Implant geometry, fixed for an attempt.
struct ImplantBody {
  Tool outline;                       ///< what runs through a guide: no elements
  std::vector<ThreadElement> thread;  ///< rings from the end up
  int ring_elements = 0;              ///< elements of one ring
  std::vector<ApexElement> apex;
  double length_mm = 0.0;
  double pitch_mm = 0.0;
  double lead_mm_per_rev = 0.0;
};

/// Samples an implant of the kit; a mirror of the envelope is the envelope.
///
/// Source: geometry; shape where the kit gives none: specimen::thread_of()
[[nodiscard]] ImplantBody make_implant_body(const specimen::Implant& implant);

}  // namespace driftbench::drilling
