#include "session/attempt_state.h"

#include "base/hash64.h"
#include "scoring/process.h"

#include <algorithm>
#include <span>

namespace driftbench::session {
namespace {

/// Free way above specimen or guide when a drill is drawn out. Own assumption.
constexpr double kClear_mm = 4.0;

void add_pose(base::Hash64& hash, const drilling::DrillPose& pose) {
  for (const math::Vec3& v : {pose.tip_mm, pose.axis_out_unit}) {
    hash.add(v.x);
    hash.add(v.y);
    hash.add(v.z);
  }
}

/// The coverage of every voxel that was ever changed.
void add_coverage(base::Hash64& hash, const AttemptState& state) {
  const volume::VoxelBox& box = state.touched;
  if (box.empty()) {
    return;
  }
  const std::size_t run = static_cast<std::size_t>(box.x_end - box.x_begin);
  for (int z = box.z_begin; z < box.z_end; ++z) {
    for (int y = box.y_begin; y < box.y_end; ++y) {
      const std::size_t at = state.volume.grid.index(box.x_begin, y, z);
      hash.add_bytes(std::span(state.volume.coverage.data() + at, run));
    }
  }
}

/// Adds nothing as long as no implant was asked for.
void add_implant(base::Hash64& hash, const ImplantState& implant) {
  if (!implant.was_asked) {
    return;
  }
  hash.add(implant.index);
  hash.add(implant.seat_index);
  hash.add((implant.is_seated ? 1 : 0) + (implant.has_stalled ? 2 : 0));
  add_pose(hash, implant.seat);
  for (const double number :
       {implant.thread.damaged_mm2, implant.thread.grip, implant.engaged_mm2,
        implant.torque_limit_nmm, implant.peak_torque_nmm, implant.final_torque_nmm}) {
    hash.add(number);
  }
}

}  // namespace

const specimen::Drill* drill_in_hand(const AttemptModel& model, const AttemptState& state) {
  return state.drill_index < 0
             ? nullptr
             : &model.setup.kit.drills[static_cast<std::size_t>(state.drill_index)];
}

const specimen::Key* key_in_sleeve(const AttemptModel& model, const AttemptState& state) {
  return state.key_index < 0 ? nullptr
                             : &model.setup.kit.keys[static_cast<std::size_t>(state.key_index)];
}

double clearance_mm(const AttemptModel& model, const AttemptState& state) {
  double top_mm = model.surface_top_mm;
  if (state.guide && state.guide->is_placed()) {
    const specimen::Key* key = key_in_sleeve(model, state);
    const double collar_mm = key == nullptr ? 0.0 : key->collar_mm;
    top_mm = std::max(top_mm, state.guide->sleeve().tip_mm.z + model.sleeve->height_mm + collar_mm);
  }
  return top_mm + kClear_mm;
}

bool has_tool(const AttemptState& state) {
  return state.drill_index >= 0 || state.implant.index >= 0;
}

void hold_above_site(const AttemptModel& model, double heat_degc, AttemptState& state) {
  state.motor_target_rpm = 0.0;
  state.motor_rpm = 0.0;
  state.lifting = false;
  state.hand.settle(state.command);
  state.drill = drilling::DrillState{};
  state.drill.heat_degc = heat_degc;
  state.drill.pose.axis_out_unit =
      math::unit(math::Vec3(state.command.lean_rad.x, state.command.lean_rad.y, 1.0));
  state.drill.pose.tip_mm =
      math::Vec3(state.command.tip_mm.x, state.command.tip_mm.y, clearance_mm(model, state));
}

bool is_out(const AttemptModel& model, const AttemptState& state) {
  return !has_tool(state) ||
         state.drill.pose.tip_mm.z >= clearance_mm(model, state) - 0.5 * kClear_mm;
}

double shoulder_depth_mm(const AttemptModel& model, const AttemptState& state) {
  const specimen::Drill* drill = drill_in_hand(model, state);
  const specimen::Plan& plan = model.setup.plan;
  if (drill == nullptr) {
    return -clearance_mm(model, state);
  }
  return scoring::shoulder_depth_mm(state.drill.pose, *drill, plan.entry_mm, -plan.axis_out_unit);
}

std::uint64_t hash_of(const AttemptState& state) {
  base::Hash64 hash;
  hash.add(state.step);
  add_pose(hash, state.drill.pose);
  for (const double speed : state.drill.velocity) {
    hash.add(speed);
  }
  add_pose(hash, state.drill.body_stamped);
  for (const math::Vec3& v :
       {state.drill.tip_stamped_mm, state.drill.cut_force_n, state.drill.cut_moment_nmm}) {
    hash.add(v.x);
    hash.add(v.y);
    hash.add(v.z);
  }
  hash.add(state.drill.has_stamped ? 1 : 0);
  hash.add(state.drill.rub_ns_per_mm);
  hash.add(state.drill.area_factor);
  hash.add(state.drill.swept_mean_mm3);
  hash.add(state.drill.lost_mean_mm3);
  hash.add(state.drill.heat_degc);
  state.hand.add_to(hash);
  if (state.guide) {
    state.guide->add_to(hash);
  }
  for (const double number :
       {state.command.tip_mm.x, state.command.tip_mm.y, state.command.lean_rad.x,
        state.command.lean_rad.y, state.command.press_n, state.motor_target_rpm, state.motor_rpm,
        state.stop_length_mm, state.finger_mm.x, state.finger_mm.y, state.finger_n}) {
    hash.add(number);
  }
  hash.add(state.drill_index);
  hash.add(state.key_index);
  hash.add((state.irrigation ? 1 : 0) + (state.lifting ? 2 : 0) + (state.guide_held ? 4 : 0));
  hash.add(static_cast<int>(state.phase));
  add_implant(hash, state.implant);
  if (state.pin) {
    add_pose(hash, state.pin->pose);
  }
  hash.add(state.volume.lost_coverage);
  add_coverage(hash, state);
  return hash.value();
}

}  // namespace driftbench::session
