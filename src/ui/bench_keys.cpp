// Every control of the bench by key.
#include "lesson/instruments.h"
#include "ui/implant_panel.h"
#include "ui/panels.h"
#include "ui/rack.h"
#include "ui/seating_panel.h"

#include <imgui_internal.h>

#include <array>
#include <cmath>

namespace driftbench::ui {

namespace {

int stepped(ImGuiKey plus, ImGuiKey minus) {
  const auto pressed = [](ImGuiKey key) {
    return ImGui::IsKeyPressed(key, ImGuiKeyOwner_Any, ImGuiInputFlags_Repeat) ? 1 : 0;
  };
  return pressed(plus) - pressed(minus);
}

void level_keys(Frame& frame) {
  const int level = level_of_press(frame.model.press_level_n);
  int wanted = level + stepped(ImGuiKey_RightBracket, ImGuiKey_LeftBracket);
  wanted = std::clamp(wanted, 0, kPressLevels - 1);
  if (wanted != level) {
    frame.emit(SetPressLevel{press_of_level_n(wanted)});
  }
}

// Turns the head and brings it nearer; Home looks straight again.
void look_keys(Frame& frame) {
  BenchFingers& looks = frame.state.bench.fingers;
  constexpr double kTurn_deg = 5.0;
  constexpr double kNearer = 1.1;
  const double turn_deg = kTurn_deg * stepped(ImGuiKey_E, ImGuiKey_Q);
  const int nearer = stepped(ImGuiKey_PageUp, ImGuiKey_PageDown);
  const double zoom = nearer > 0 ? kNearer : nearer < 0 ? 1.0 / kNearer : 1.0;
  if (turn_deg != 0.0 || zoom != 1.0) {
    looks.turn(Look::kFront, turn_deg, 0.0, zoom);
    looks.turn(Look::kSide, turn_deg, 0.0, zoom);
  }
  if (key_hit(ImGuiKey_Home)) {
    looks.straighten();
  }
}

// Time stands still between the steps, so nothing has to be held: T stays, X presses for a moment.
void step_keys(Frame& frame) {
  bool& arrows_lean = frame.state.bench.arrows_lean;
  arrows_lean = arrows_lean != key_hit(ImGuiKey_T);
  if (key_hit(ImGuiKey_X)) {
    frame.emit(Peck{ImGui::GetIO().KeyShift});
  }
}

void take_by_key(Frame& frame, std::int32_t drill_index) {
  choose_drill(frame, drill_index);
  frame.state.bench.focus_chooser = frame.state.bench.chooser_drill >= 0;
}

void letter_keys(Frame& frame) {
  const session::SessionView& view = *frame.model.view;
  if (key_hit(ImGuiKey_I)) {
    frame.send(record::Op::kIrrigation, {view.irrigation ? 0 : 1});
  }
  if (key_hit(ImGuiKey_R)) {
    frame.send(record::Op::kLift, {view.lifting ? 0 : 1});
  }
  if (key_hit(ImGuiKey_P) && view.is_out) {
    frame.send(record::Op::kProbe);
  }
  if (key_hit(ImGuiKey_V) && view.is_out) {
    frame.send(record::Op::kPin, {view.pin.has_value() ? 0 : 1});
  }
  if (frame.model.setup->guide.has_value()) {
    if (key_hit(ImGuiKey_G)) {
      place_guide(frame);
    }
    if (key_hit(ImGuiKey_H)) {
      hold_guide(frame);
    }
    if (key_hit(ImGuiKey_K)) {
      toggle_key(frame);
    }
  }
  implant_keys(frame);
  if (key_hit(ImGuiKey_S) && !frame.model.is_hand_kept) {
    frame.emit(ToggleSteps{});
  }
  const auto drills = static_cast<std::int32_t>(frame.model.setup->kit.drills.size());
  if (key_hit(ImGuiKey_N) && drills > 0) {
    take_by_key(frame, (view.drill_index + 1) % drills);
  }
  constexpr std::array kDigits{ImGuiKey_1, ImGuiKey_2, ImGuiKey_3,
                               ImGuiKey_4, ImGuiKey_5, ImGuiKey_6};
  for (std::size_t i = 0; i < kDigits.size(); ++i) {
    if (key_hit(kDigits[i])) {
      take_by_key(frame, static_cast<std::int32_t>(i));
    }
  }
}

}  // namespace

void toggle_motor(Frame& frame) {
  const session::SessionView& view = *frame.model.view;
  if (std::abs(view.motor_rpm) >= 1.0) {
    frame.send(record::Op::kMotor, {0});
  } else if (view.drill_index >= 0) {
    const auto index = static_cast<std::size_t>(view.drill_index);
    const double speed_rpm = frame.model.setup->kit.drills[index].speed_rpm;
    frame.send(record::Op::kMotor, {static_cast<std::int32_t>(std::lround(speed_rpm))});
  } else {
    frame.send(record::Op::kMotor, {implant_speed_rpm(frame)});
  }
}

void give_keys_to_hand(Frame& frame) {
  ImGuiContext& context = *ImGui::GetCurrentContext();
  frame.state.bench.hand_ring = frame.state.bench.hand_ring || !context.NavDisableHighlight;
  context.NavDisableHighlight = true;
}

void bench_keys(Frame& frame, bool hand_has_keys) {
  BenchControls& controls = frame.state.bench.controls;
  const ImGuiIO& io = ImGui::GetIO();
  if (io.KeyCtrl || io.KeyAlt || io.KeySuper) {
    return;  // belongs to the browser
  }
  if (key_hit(ImGuiKey_Escape)) {
    controls.release();
    frame.state.bench.chooser_drill = -1;
    give_keys_to_hand(frame);
  }
  letter_keys(frame);
  level_keys(frame);
  look_keys(frame);

  KeyInput input;
  if (frame.model.step_by_step) {
    step_keys(frame);
    input.press = frame.model.is_pecking;
  } else {
    input.press = ImGui::IsKeyDown(ImGuiKey_X);
  }
  if (hand_has_keys) {
    // While the hand has the keys, arrows, Space and Enter do not walk through the buttons.
    const ImGuiID owner = ImGui::GetID("hand");
    for (const ImGuiKey key :
         {ImGuiKey_LeftArrow, ImGuiKey_RightArrow, ImGuiKey_UpArrow, ImGuiKey_DownArrow}) {
      ImGui::SetKeyOwner(key, owner);
    }
    const auto arrow = [owner](ImGuiKey key) {
      return ImGui::IsKeyPressed(key, owner, ImGuiInputFlags_Repeat) ? 1 : 0;
    };
    input.right = arrow(ImGuiKey_RightArrow) - arrow(ImGuiKey_LeftArrow);
    input.away = arrow(ImGuiKey_UpArrow) - arrow(ImGuiKey_DownArrow);
    input.fine = io.KeyShift;
    input.lean =
        frame.model.step_by_step ? frame.state.bench.arrows_lean : ImGui::IsKeyDown(ImGuiKey_T);
    if (key_hit(ImGuiKey_Space)) {
      toggle_motor(frame);
    }
    if (key_hit(ImGuiKey_Enter) || key_hit(ImGuiKey_KeypadEnter)) {
      frame.send(record::Op::kFinish);
    }
  }
  controls.keys(input);
}

}  // namespace driftbench::ui
