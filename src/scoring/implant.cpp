#include "scoring/implant.h"

#include "drilling/params.h"
#include "scoring/deviation.h"

#include <algorithm>

namespace driftbench::scoring {

base::Result<ImplantMeasures> measure_implant(const drilling::DrillPose& pose,
                                              const specimen::Implant& implant,
                                              const specimen::Plan& plan,
                                              std::span<const drilling::LoadSample> samples) {
  ImplantMeasures measures;
  measures.entry_mm = pose.tip_mm + implant.length_mm * pose.axis_out_unit;
  measures.apex_mm = pose.tip_mm;
  const math::Vec3 planned_apex = plan.entry_mm - implant.length_mm * plan.axis_out_unit;
  const base::Result<Deviation> found = deviation(plan.entry_mm, planned_apex, measures.entry_mm,
                                                  measures.apex_mm, plan.md_hint, plan.bl_hint);
  if (!found) {
    return tl::unexpected<base::Error>(found.error());
  }
  measures.deviation = *found;
  measures.depth_error_mm = found->depth_mm;
  std::int64_t first_step = -1;
  std::int64_t last_step = -1;
  for (const drilling::LoadSample& sample : samples) {
    measures.peak_side_n = std::max(measures.peak_side_n, math::length(sample.side_force_n));
    measures.peak_press_n = std::max(measures.peak_press_n, sample.press_n);
    if (sample.in_contact) {
      first_step = first_step < 0 ? sample.step : first_step;
      last_step = sample.step;
    }
  }
  measures.time_s = static_cast<double>(last_step - first_step) * drilling::kStep_s;
  return measures;
}

Stability stability_of(double final_torque_nmm) {
  if (final_torque_nmm < kLowTorque_nmm) {
    return Stability::kLow;
  }
  return final_torque_nmm > kTightTorque_nmm ? Stability::kTight : Stability::kUsual;
}

}  // namespace driftbench::scoring
