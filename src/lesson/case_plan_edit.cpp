#include "lesson/case_plan_edit.h"

#include "math/angle.h"
#include "math/elementary.h"
#include "specimen/shape_functions.h"

#include <algorithm>
#include <cmath>

namespace driftbench::lesson {
namespace {

constexpr double kDegrees = 180.0 / math::kPi;

double limited(double value, double low, double high, double steps_per_unit) {
  return std::clamp(std::round(value * steps_per_unit) / steps_per_unit, low, high);
}

}  // namespace

CasePlan clamped(const CasePlan& plan) {
  CasePlan inside = plan;
  for (int i = 0; i < 3; ++i) {
    inside.entry_mm[i] = limited(plan.entry_mm[i], -kPlanReach_mm, kPlanReach_mm, 20.0);
  }
  inside.lean_md_deg = limited(plan.lean_md_deg, -kPlanMostLean_deg, kPlanMostLean_deg, 10.0);
  inside.lean_bl_deg = limited(plan.lean_bl_deg, -kPlanMostLean_deg, kPlanMostLean_deg, 10.0);
  inside.diameter_mm = limited(plan.diameter_mm, kPlanDiameterLow_mm, kPlanDiameterHigh_mm, 10.0);
  inside.length_mm = limited(plan.length_mm, kPlanLengthLow_mm, kPlanLengthHigh_mm, 2.0);
  return inside;
}

math::Vec3 axis_out_of(const CasePlan& plan) {
  return math::unit(math::Vec3(-specimen::tangent_of(plan.lean_md_deg),
                               -specimen::tangent_of(plan.lean_bl_deg), 1.0));
}

math::Vec3 apex_of(const CasePlan& plan) {
  return plan.entry_mm - plan.length_mm * axis_out_of(plan);
}

CasePlan moved(const CasePlan& plan, const math::Vec3& by_mm) {
  CasePlan next = plan;
  next.entry_mm += by_mm;
  return next;
}

CasePlan aimed_at(const CasePlan& plan, const math::Vec3& toward_mm) {
  const math::Vec3 down = toward_mm - plan.entry_mm;
  if (!(down.z < -0.5)) {
    return plan;
  }
  CasePlan next = plan;
  next.lean_md_deg = math::atan2(down.x, -down.z) * kDegrees;
  next.lean_bl_deg = math::atan2(down.y, -down.z) * kDegrees;
  return next;
}

void PlanHistory::change(const CasePlan& next, std::uint32_t gesture) {
  take({clamped(next), guide()}, gesture);
}

void PlanHistory::change(const GuidePlan& next) {
  take({now(), clamped(next)}, 0);
}

void PlanHistory::take(const State& next, std::uint32_t gesture) {
  if (next == states_[at_]) {
    return;
  }
  states_.resize(at_ + 1);
  if (gesture != 0 && gesture == gesture_ && at_ > 0) {
    states_.back() = next;
    return;
  }
  gesture_ = gesture;
  if (states_.size() == kMost) {
    states_.erase(states_.begin());
  }
  states_.push_back(next);
  at_ = states_.size() - 1;
}

void PlanHistory::undo() {
  if (can_undo()) {
    --at_;
    gesture_ = 0;
  }
}

void PlanHistory::redo() {
  if (can_redo()) {
    ++at_;
    gesture_ = 0;
  }
}

}  // namespace driftbench::lesson
