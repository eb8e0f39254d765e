// The bench: front look, side look, rack, press, guide, and one line that says what the hands do.
#include "base/text.h"
#include "math/angle.h"
#include "ui/bench_layout.h"
#include "ui/bench_line.h"
#include "ui/check_film.h"
#include "ui/hand_words.h"
#include "ui/hint_words.h"
#include "ui/lean_pad.h"
#include "ui/marks.h"
#include "ui/motor_sound.h"
#include "ui/panels.h"
#include "ui/press_gauge.h"
#include "ui/rack.h"
#include "ui/seating_panel.h"
#include "ui/section_view.h"
#include "ui/strings.h"
#include "ui/widgets.h"
#include "ui/words.h"

#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

namespace driftbench::ui {

namespace {

// A new attempt (or one wound back) starts with the hand where the session has it.
void notice_new_session(Frame& frame) {
  BenchState& state = frame.state.bench;
  const session::SessionView& view = *frame.model.view;
  if (frame.state.last_screen != Screen::kBench || view.step < state.last_step ||
      state.last_step < 0) {
    state.controls.start(view);
    state.fingers = {};
    state.arrows_lean = false;
    state.chooser_drill = -1;
    state.finger_on_guide = false;
    state.shows_rack = false;
  }
  state.last_step = view.step;
}

// Upright windows and rack take turns: at a press here, or when a step of the work asks for it.
void take_turns(Frame& frame, Rect& bar) {
  BenchState& state = frame.state.bench;
  Button other{std::string(tr(state.shows_rack ? Str::kToGuide : Str::kToDrills))};
  other.id = "turn";
  if (bar_button(frame, bar, other)) {
    state.shows_rack = !state.shows_rack;
  }
}

void bench_bar(Frame& frame, const BenchLayout& layout) {
  Rect rest = top_bar(frame, layout.top_bar);
  Rect second = layout.is_upright ? cut_bottom(rest, 0.5F * rest.height) : Rect{};
  Rect& switches = layout.is_upright ? second : rest;
  const session::SessionView& view = *frame.model.view;
  Button leave{std::string(tr(Str::kLeave))};
  leave.kind = ButtonKind::kQuiet;
  if (bar_button(frame, rest, leave)) {
    frame.emit(GoToShelf{});
  }
  if (layout.is_upright && frame.model.setup->guide.has_value()) {
    take_turns(frame, rest);
  }
  sound_switch(frame, rest, !layout.is_upright);
  Button irrigation{std::string(tr(Str::kIrrigation)), "I"};
  irrigation.is_switch = true;
  irrigation.on = view.irrigation;
  irrigation.kind = ButtonKind::kQuiet;
  if (bar_button(frame, switches, irrigation)) {
    frame.send(record::Op::kIrrigation, {view.irrigation ? 0 : 1});
  }
  Button motor{std::string(tr(Str::kMotor)), std::string(tr(Str::kSpaceKey))};
  motor.is_switch = true;
  motor.on = std::abs(view.motor_rpm) >= 1.0;
  motor.enabled = view.drill_index >= 0 || view.implant.index >= 0;
  motor.kind = ButtonKind::kNormal;
  if (bar_button(frame, switches, motor)) {
    toggle_motor(frame);
  }
  // Where it is goes into the room that is left, small where that is little.
  const std::string where = place_words(frame);
  const auto fits = [&](const Face& face) {
    const ImVec2 size = text_size(face, where, rest.width);
    return size.x <= rest.width && size.y <= rest.height;
  };
  if (fits(frame.fonts.strong)) {
    text_middle(frame, rest, strong(frame), where);
  } else if (fits(frame.fonts.caption)) {
    text_middle(frame, rest, caption(frame), where);
  }
}

// Depth and lean, only where the lesson shows numbers.
void numbers(Frame& frame, const Rect& look) {
  const session::SessionView& view = *frame.model.view;
  const bool has_implant = view.implant.index >= 0;
  if (!frame.model.setup->show.numbers || (view.drill_index < 0 && !has_implant)) {
    return;
  }
  const math::Vec3& axis = view.pose.axis_out_unit;
  const double along = math::dot(axis, frame.model.setup->plan.axis_out_unit);
  const double lean_deg =
      math::to_degrees(math::Radians(std::acos(std::clamp(along, -1.0, 1.0)))).value;
  const std::string words =
      has_implant ? say(Str::kLiveImplant, base::fixed(view.implant.platform_depth_mm, 1),
                        base::fixed(lean_deg, 1))
      : view.shoulder_depth_mm < 0.0
          ? say(Str::kLiveAbove, base::fixed(-view.shoulder_depth_mm, 1), base::fixed(lean_deg, 1))
          : say(Str::kLiveOfPlan, base::fixed(view.shoulder_depth_mm, 1),
                base::fixed(frame.model.setup->plan.depth_mm, 1), base::fixed(lean_deg, 1));
  // A narrow look has its title above.
  const bool is_narrow = look.width < frame.px(420.0F);
  const float margin = frame.px(is_narrow ? 10.0F : 18.0F);
  const ImVec2 at{look.x + margin, look.y + frame.px(is_narrow ? 38.0F : 14.0F)};
  plate_text(frame, at, words, Align::kLeft, is_narrow ? look.width - 2.0F * margin : 0.0F);
  frame.items.add_text(Role::kStatus, words, {at.x, at.y, frame.px(240.0F), frame.px(18.0F)});
}

// What the probe found, and whether time runs slower than the clock.
void look_messages(Frame& frame, const Rect& look) {
  const session::SessionView& view = *frame.model.view;
  std::string words = probe_words(view);
  if (frame.model.real_time_share < 0.9 && words.empty()) {
    words = say(Str::kSlow, base::fixed(100.0 * frame.model.real_time_share, 0));
  }
  if (words.empty()) {
    return;
  }
  const float width = look.width - frame.px(24.0F);
  const float height = text_size(frame.fonts.caption, words, width).y;
  const float y = look.y + look.height - frame.px(16.0F) - height;
  plate_text(frame, {look.x + 0.5F * look.width, y}, words, Align::kCentre, width);
  frame.items.add_text(Role::kStatus, words, {look.x, y, look.width, height});
}

Look look_at(const BenchLayout& layout, double x, double y) {
  const auto px = static_cast<float>(x);
  const auto py = static_cast<float>(y);
  if (contains(layout.front, px, py)) {
    return Look::kFront;
  }
  return contains(layout.side, px, py) ? Look::kSide : Look::kNone;
}

// What pointers did since the last frame; without a platform that tells, where Dear ImGui has one.
std::vector<PointerReading> readings_of(const Model& model) {
  if (model.has_pointer_readings) {
    return model.pointers;
  }
  const ImGuiIO& io = ImGui::GetIO();
  PointerReading mouse;
  mouse.cancelled = !ImGui::IsMousePosValid();
  mouse.x_px = mouse.cancelled ? 0.0 : static_cast<double>(io.MousePos.x);
  mouse.y_px = mouse.cancelled ? 0.0 : static_cast<double>(io.MousePos.y);
  mouse.left = io.MouseDown[0];
  mouse.right = io.MouseDown[1];
  return {mouse};
}

bool is_in_contact(const session::SessionView& view) {
  return view.load.in_contact || !view.is_out;
}

FingerHold held_at(const BenchLayout& layout, const PointerReading& reading) {
  const auto x = static_cast<float>(reading.x_px);
  const auto y = static_cast<float>(reading.y_px);
  if (contains(layout.gauge, x, y)) {
    return FingerHold::kPress;
  }
  if (contains(layout.lean, x, y)) {
    return FingerHold::kLean;
  }
  const Look look = look_at(layout, reading.x_px, reading.y_px);
  return look == Look::kFront  ? FingerHold::kFront
         : look == Look::kSide ? FingerHold::kSide
                               : FingerHold::kNothing;
}

void finger_input(Frame& frame, const BenchLayout& layout) {
  BenchFingers& fingers = frame.state.bench.fingers;
  if (!frame.model.touch) {
    fingers.release();
    return;
  }
  for (const PointerReading& reading : readings_of(frame.model)) {
    fingers.feed({reading.pointer_id, reading.x_px, reading.y_px,
                  reading.left && !reading.cancelled, held_at(layout, reading)},
                 is_in_contact(*frame.model.view), frame.state.bench.controls);
  }
}

/// Whether the pointer has come to the drill in a look; where that is not known, it has.
bool is_at_drill(const Frame& frame, Look look, const PointerReading& reading) {
  constexpr double kReach_px = 56.0;
  const auto& tip = look == Look::kSide ? frame.model.side_tip : frame.model.front_tip;
  return !tip.has_value() || std::hypot(reading.x_px - tip->x_px, reading.y_px - tip->y_px) <=
                                 kReach_px * static_cast<double>(frame.scale);
}

// Both looks from where they are taken now, and the motion of the hand with them.
void aim_looks(Frame& frame) {
  BenchState& state = frame.state.bench;
  frame.rects.front_turn = state.fingers.front();
  frame.rects.side_turn = state.fingers.side();
  constexpr double kSide_deg = 90.0;
  if (frame.model.left_handed) {
    frame.rects.side_turn.heading_deg -= 2.0 * kSide_deg;  // from the left
  }
  state.controls.look_from(
      {frame.rects.front_turn.heading_deg, kSide_deg + frame.rects.side_turn.heading_deg});
}

void pointer_input(Frame& frame, const BenchLayout& layout, bool over_look) {
  BenchControls& controls = frame.state.bench.controls;
  const ImGuiIO& io = ImGui::GetIO();
  const session::SessionView& view = *frame.model.view;
  const bool in_contact = is_in_contact(view);
  const bool is_empty = view.drill_index < 0 && view.implant.index < 0;
  for (const PointerReading& reading : readings_of(frame.model)) {
    PointerSample sample;
    sample.x_px = reading.x_px;
    sample.y_px = reading.y_px;
    // An empty hand holds nothing: a drill taken by its key waits to be met.
    const bool away = reading.cancelled || !over_look || frame.model.touch || is_empty;
    sample.look = away ? Look::kNone : look_at(layout, reading.x_px, reading.y_px);
    // A pen is the handpiece: it has hold of the drill wherever it hovers.
    sample.at_drill = reading.pen.has_value() || is_at_drill(frame, sample.look, reading);
    sample.press_button = reading.left;
    sample.lean_button = reading.right || io.KeyShift;
    sample.began = reading.began;
    sample.pen = reading.pen;
    controls.pointer(sample, in_contact);
  }
  if (over_look && std::abs(io.MouseWheel) > 0.0F) {
    const int level = level_of_press(frame.model.press_level_n);
    const int wanted = std::clamp(level + (io.MouseWheel > 0.0F ? 1 : -1), 0, kPressLevels - 1);
    if (wanted != level) {
      frame.emit(SetPressLevel{press_of_level_n(wanted)});
    }
  }
}

// Where the hand takes hold, until it has.
void hold_mark(const Frame& frame, const std::optional<PagePoint>& tip, const Rect& look) {
  if (!tip.has_value()) {
    return;
  }
  const ImVec2 at{static_cast<float>(tip->x_px), static_cast<float>(tip->y_px)};
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->PushClipRect({look.x, look.y}, {look.x + look.width, look.y + look.height}, true);
  list->AddCircle(at, frame.px(18.0F), color_of(kBlack), 0, frame.px(4.0F));
  list->AddCircle(at, frame.px(18.0F), color_of(kWhite), 0, frame.px(2.0F));
  list->PopClipRect();
}

// A small title on a picture, so that nobody has to guess which look it is.
void look_title(const Frame& frame, const Rect& look, std::string_view title) {
  plate_text(frame, {look.x + look.width - frame.px(16.0F), look.y + frame.px(10.0F)}, title,
             Align::kRight);
}

// Side by side.
void live_sections(Frame& frame, Rect box) {
  const float gap = frame.px(8.0F);
  const Rect md = cut_left(box, 0.5F * (box.width - gap));
  cut_left(box, gap);
  both_sections(frame, md, box, {true, frame.model.setup->show.plan, false});
}

}  // namespace

void bench(Frame& frame, const Rect& page) {
  if (frame.model.view == nullptr || frame.model.setup == nullptr) {
    nothing_to_show(frame, page);
    return;
  }
  notice_new_session(frame);
  const lesson::AttemptSetup& setup = *frame.model.setup;
  BenchState& state = frame.state.bench;
  const BenchLayout layout =
      bench_layout(page,
                   {setup.show.section, setup.guide.has_value(), frame.model.touch,
                    frame.model.left_handed, state.shows_rack},
                   frame.scale);
  frame.rects.front = layout.front;
  frame.rects.side = layout.side;
  finger_input(frame, layout);
  aim_looks(frame);

  const Touch front = picture(frame, layout.front, frame.model.front, tr(Str::kFrontLook),
                              tr(Str::kLookHelp), hand_words(*frame.model.view, setup.kit));
  numbers(frame, layout.front);
  look_messages(frame, layout.front);
  if (frame.model.muted) {
    sound_trace(frame, layout.front);
  }
  look_title(frame, layout.front, tr(Str::kFrontLook));
  if (state.is_reaching) {
    hold_mark(frame, frame.model.front_tip, layout.front);
  }
  const Touch side =
      picture(frame, layout.side, frame.model.side, tr(Str::kSideLook), tr(Str::kLookHelp));
  look_title(frame, layout.side,
             tr(frame.model.left_handed ? Str::kSideLookFromLeft : Str::kSideLookFrom));
  if (state.is_reaching) {
    hold_mark(frame, frame.model.side_tip, layout.side);
  }
  check_film(frame, layout.side);
  if (layout.section.height > 0.0F) {
    live_sections(frame, layout.section);
  }
  if (layout.seating.height > 0.0F) {
    seating_panel(frame, layout.seating);
  } else {
    take_finger_off(frame);
  }
  if (layout.rack.height > 0.0F) {
    rack(frame, layout.rack);
  }
  if (frame.model.touch) {
    lean_pad(frame, layout.lean);
  }
  press_gauge(frame, layout.gauge);
  bench_line(frame, layout);
  bench_bar(frame, layout);

  const ImGuiContext& context = *ImGui::GetCurrentContext();
  const bool hand_has_keys =
      context.NavDisableHighlight || context.NavId == front.id || context.NavId == side.id;
  if (!context.NavDisableHighlight || ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
    state.hand_ring = false;
  }
  if (state.hand_ring) {
    focus_ring(frame, inset(layout.front, frame.px(4.0F)), kRadiusSmall_px);
  }
  const bool over_look = front.hovered || side.hovered || front.held || side.held;
  pointer_input(frame, layout, over_look);
  state.is_reaching = over_look && !frame.model.touch && frame.model.view->drill_index >= 0 &&
                      !state.controls.has_hold();
  bench_keys(frame, hand_has_keys);
  state.controls.pad(frame.model.pad);
  if (const auto command = state.controls.command(frame.model.press_level_n)) {
    frame.emit(Send{*command});
  }
}

}  // namespace driftbench::ui
