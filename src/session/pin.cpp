#include "session/pin.h"

#include "session/probe.h"
#include "session/refusal.h"

namespace driftbench::session {

base::Result<void> stand_pin(bool is_in, const AttemptModel& model, AttemptState& state) {
  if (!is_in) {
    state.pin.reset();
    return {};
  }
  if (!is_out(model, state)) {
    return refuse("Lift the drill out before you put the pin in.");
  }
  if (state.guide && state.guide->is_placed()) {
    return refuse("Take the guide off the block: it stands in the pin's way.");
  }
  if (state.implant.is_seated) {
    return refuse("An implant sits in the hole: there is no room for the pin.");
  }
  const double floor_mm = probed(model, state).floor_mm;
  if (floor_mm < kPinNeeds_mm) {
    return refuse("Drill a few millimetres first: the pin needs a hole to stand in.");
  }
  const math::Vec3& axis = state.deepest.axis_out_unit;
  const double entry_z = model.setup.plan.entry_mm.z;
  const double to_floor_mm = (entry_z - floor_mm - state.deepest.tip_mm.z) / axis.z;
  const auto last = static_cast<std::size_t>(state.used_drills.back());
  state.pin = PinView{{state.deepest.tip_mm + to_floor_mm * axis, axis},
                      model.setup.kit.drills[last].diameter_mm,
                      floor_mm};
  return {};
}

}  // namespace driftbench::session
