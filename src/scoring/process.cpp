#include "scoring/process.h"

#include "drilling/params.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>

namespace driftbench::scoring {

double tip_to_shoulder_mm(const specimen::Drill& drill) {
  return drill.kind == specimen::DrillKind::kStarter
             ? 0.5 * drill.diameter_mm
             : specimen::point_height_mm(drill.diameter_mm, drill.point_angle_deg);
}

double shoulder_depth_mm(const drilling::DrillPose& pose, const specimen::Drill& drill,
                         const math::Vec3& planned_entry_mm, const math::Vec3& planned_down_unit) {
  const math::Vec3 shoulder = pose.tip_mm + tip_to_shoulder_mm(drill) * pose.axis_out_unit;
  return math::dot(shoulder - planned_entry_mm, planned_down_unit);
}

ProcessMeasures measure_process(std::span<const drilling::LoadSample> samples,
                                const specimen::Plan& plan,
                                std::span<const specimen::Drill> drills) {
  ProcessMeasures measures;
  std::optional<std::int64_t> first_contact;
  std::int64_t last_contact = 0;
  std::optional<double> deepest;
  double peak_torque_nmm = 0.0;
  for (const drilling::LoadSample& sample : samples) {
    const double side = math::length(sample.side_force_n);
    if (side > measures.peak_side_n) {
      measures.peak_side_n = side;
      measures.peak_side_step = sample.step;
    }
    measures.peak_press_n = std::max(measures.peak_press_n, sample.press_n);
    peak_torque_nmm = std::max(peak_torque_nmm, sample.torque_nmm);
    measures.peak_heat_degc = std::max(measures.peak_heat_degc, sample.heat_degc);
    if (sample.in_contact) {
      first_contact = first_contact.value_or(sample.step);
      last_contact = sample.step;
    }
    const std::size_t drill = static_cast<std::size_t>(sample.drill_index);
    if (sample.drill_index >= 0 && drill < drills.size()) {
      const double depth =
          shoulder_depth_mm(sample.pose, drills[drill], plan.entry_mm, -plan.axis_out_unit);
      deepest = std::max(deepest.value_or(depth), depth);
    }
  }
  measures.peak_torque_nmm = peak_torque_nmm;
  if (first_contact) {
    measures.time_s = static_cast<double>(last_contact - *first_contact) * drilling::kStep_s;
  }
  if (first_contact && deepest) {
    measures.deepest_shoulder_mm = *deepest;
    measures.plunge_mm = std::max(*deepest - plan.depth_mm, 0.0);
  }
  return measures;
}

}  // namespace driftbench::scoring
