#include "session/probe.h"

#include "volume/sample.h"

#include <algorithm>

namespace driftbench::session {
namespace {

constexpr double kStride_mm = 0.05;
constexpr double kWallReach_mm = 4.0;  // a probe's ball feels a wall no farther away
constexpr double kFirm = 0.5;          // coverage that stops the probe

}  // namespace

ProbeReading probed(const AttemptModel& model, const AttemptState& state) {
  ProbeReading reading;
  if (state.used_drills.empty()) {
    return reading;
  }
  const math::Vec3 down = -state.deepest.axis_out_unit;
  const double entry_z = model.setup.plan.entry_mm.z;
  // Start in the open above the deepest tip, where the hole meets the platform.
  const double start_mm = (entry_z - state.deepest.tip_mm.z) / state.deepest.axis_out_unit.z;
  const math::Vec3 start = state.deepest.tip_mm - start_mm * down;
  const double reach_mm = specimen::reach_of(model.setup.specimen).depth_mm;
  double travelled = 0.0;
  while (travelled < reach_mm &&
         volume::coverage_at(state.volume, start + travelled * down) < kFirm) {
    travelled += kStride_mm;
  }
  reading.floor_mm = entry_z - (start + travelled * down).z;

  const math::Vec3 middle = start + 0.5 * travelled * down;
  const math::Vec3 sides[] = {{1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {-1.0, 0.0, 0.0}, {0.0, -1.0, 0.0}};
  for (std::size_t k = 0; k < reading.wall_present.size(); ++k) {
    for (double reach = 0.0; reach <= kWallReach_mm; reach += kStride_mm) {
      if (volume::coverage_at(state.volume, middle + reach * sides[k]) >= kFirm) {
        reading.wall_present[k] = true;
        break;
      }
    }
  }
  return reading;
}

}  // namespace driftbench::session
