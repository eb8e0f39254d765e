#include "ui/slice_grip.h"

#include "lesson/case_plan_edit.h"

#include <imgui_internal.h>

#include <cmath>

namespace driftbench::ui {
namespace {

constexpr double kScrub_mm = 0.25;   // of one notch of the wheel
constexpr double kKeyStep_mm = 0.5;  // of an arrow key; with Shift the fine step
constexpr double kKeyFine_mm = 0.1;
constexpr double kTurn_deg = 5.0;
constexpr double kHandleNear_mm = 2.0;  // a handle farther from the plane cannot be held there
constexpr float kGrab_px = 14.0F;
constexpr std::size_t kMostMeasurements = 8;

float distance_px(ImVec2 a, ImVec2 b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

bool grips_point(Frame& frame, const SliceMap& map, SliceKind kind, ImVec2 mouse) {
  StudyState& state = frame.state.study;
  for (std::size_t i = 0; i < state.measurements.size(); ++i) {
    const Measurement& measured = state.measurements[i];
    for (std::size_t k = 0; measured.slice == kind && k < measured.points_mm.size(); ++k) {
      if (distance_px(map.of(measured.points_mm[k]), mouse) < frame.px(kGrab_px)) {
        state.grip = StudyGrip::kPoint;
        state.grip_measurement = i;
        state.grip_point = k;
        return true;
      }
    }
  }
  return false;
}

bool grips_implant(Frame& frame, const SliceMap& map, SliceKind kind, ImVec2 mouse) {
  StudyState& state = frame.state.study;
  const StudyView& study = *frame.model.study;
  const lesson::CasePlan& plan = study.plan->now();
  const math::Vec3 apex = study.pose->to_core(lesson::apex_of(plan));
  if (kind != SliceKind::kAxial && std::abs(map.plane.in_plane(apex).z) < kHandleNear_mm &&
      distance_px(map.of(apex), mouse) < frame.px(kGrab_px)) {
    state.grip = StudyGrip::kApex;
    return true;
  }
  specimen::RevolvedBody body = lesson::implant_body(plan);
  const math::Vec3 under = study.pose->to_jaw(map.under(mouse));
  if (specimen::signed_distance_mm(body, under) < 0.3) {
    state.grip = StudyGrip::kImplant;
    return true;
  }
  return false;
}

void add_point(StudyState& state, SliceKind kind, const math::Vec3& p) {
  std::vector<Measurement>& all = state.measurements;
  if (all.empty() || all.back().is_complete() || all.back().slice != kind ||
      all.back().tool != state.tool) {
    if (!all.empty() && !all.back().is_complete()) {
      all.pop_back();
    }
    if (all.size() == kMostMeasurements) {
      all.erase(all.begin());
    }
    all.push_back({kind, state.tool, {}});
  }
  all.back().points_mm.push_back(p);
}

void begin(Frame& frame, const SliceMap& map, SliceKind kind, ImVec2 mouse) {
  StudyState& state = frame.state.study;
  ++state.gesture;
  state.grip_from_mm = map.under(mouse);
  state.grip_plan = frame.model.study->plan->now();
  if (grips_point(frame, map, kind, mouse)) {
    return;
  }
  if (state.tool != StudyTool::kLook) {
    add_point(state, kind, map.under(mouse));
    state.grip = StudyGrip::kPoint;
    state.grip_measurement = state.measurements.size() - 1;
    state.grip_point = state.measurements.back().points_mm.size() - 1;
    return;
  }
  if (!grips_implant(frame, map, kind, mouse)) {
    state.grip = StudyGrip::kCross;
  }
}

void drag(Frame& frame, const SliceMap& map, ImVec2 mouse) {
  StudyState& state = frame.state.study;
  const specimen::JawPose& pose = *frame.model.study->pose;
  const math::Vec3 under = map.under(mouse);
  const math::Vec3 by = pose.direction_to_jaw(under - state.grip_from_mm);
  switch (state.grip) {
    case StudyGrip::kCross:
      state.cross.point_mm = under;
      break;
    case StudyGrip::kImplant:
      frame.emit(EditPlan{lesson::moved(state.grip_plan, by), state.gesture});
      break;
    case StudyGrip::kApex:
      frame.emit(EditPlan{lesson::aimed_at(state.grip_plan, lesson::apex_of(state.grip_plan) + by),
                          state.gesture});
      break;
    case StudyGrip::kPoint:
      if (state.grip_measurement < state.measurements.size() &&
          state.grip_point < state.measurements[state.grip_measurement].points_mm.size()) {
        state.measurements[state.grip_measurement].points_mm[state.grip_point] = under;
      }
      break;
    case StudyGrip::kNone:
      break;
  }
}

void keys(Frame& frame, const SliceMap& map, SliceKind kind, const Touch& touch) {
  StudyState& state = frame.state.study;
  const ArrowKeys arrows = arrow_keys(touch);
  const double step = arrows.fine ? kKeyFine_mm : kKeyStep_mm;
  state.cross.point_mm += step * arrows.right * map.plane.right_unit;
  state.cross.point_mm += step * arrows.up * map.plane.up_unit;
  if (!touch.focused) {
    return;
  }
  for (const ImGuiKey key : {ImGuiKey_PageUp, ImGuiKey_PageDown}) {
    ImGui::SetKeyOwner(key, touch.id);
    if (ImGui::IsKeyPressed(key, touch.id, ImGuiInputFlags_Repeat)) {
      state.cross.point_mm += (key == ImGuiKey_PageUp ? step : -step) * map.plane.away_unit;
    }
  }
  if (key_hit(ImGuiKey_Comma) || key_hit(ImGuiKey_Period)) {
    state.cross.turn_deg += key_hit(ImGuiKey_Period) ? kTurn_deg : -kTurn_deg;
  }
  const bool by_key = touch.pressed && !ImGui::IsMouseReleased(ImGuiMouseButton_Left);
  if (by_key && state.tool != StudyTool::kLook) {
    add_point(state, kind, state.cross.point_mm);
  }
  if (key_hit(ImGuiKey_Escape) && !state.measurements.empty() &&
      !state.measurements.back().is_complete()) {
    state.measurements.pop_back();
  }
  if ((key_hit(ImGuiKey_Delete) || key_hit(ImGuiKey_Backspace)) && !state.measurements.empty()) {
    state.measurements.pop_back();
  }
}

}  // namespace

void slice_grip(Frame& frame, const SliceMap& map, SliceKind kind, const Touch& touch) {
  StudyState& state = frame.state.study;
  const ImGuiIO& io = ImGui::GetIO();
  if (touch.held && ImGui::IsMouseDown(ImGuiMouseButton_Left)) {
    if (ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
      begin(frame, map, kind, io.MousePos);
    }
    drag(frame, map, io.MousePos);
  }
  if (ImGui::IsMouseReleased(ImGuiMouseButton_Left)) {
    state.grip = StudyGrip::kNone;
  }
  if (touch.hovered && io.MouseWheel != 0.0F) {
    state.cross.point_mm += kScrub_mm * static_cast<double>(io.MouseWheel) * map.plane.away_unit;
  }
  keys(frame, map, kind, touch);
}

}  // namespace driftbench::ui
