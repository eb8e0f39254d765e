#include "ui/bench_line.h"

#include "lesson/instruments.h"
#include "ui/check_film.h"
#include "ui/hint_words.h"
#include "ui/implant_panel.h"
#include "ui/panels.h"
#include "ui/rack.h"
#include "ui/strings.h"
#include "ui/widgets.h"

#include <algorithm>

namespace driftbench::ui {
namespace {

// The planned drill that has not cut yet.
void name_next_drill(const Frame& frame, HandNow& hand) {
  const lesson::AttemptSetup& setup = *frame.model.setup;
  const auto missing = lesson::missing_drills(setup, frame.model.view->used_drills);
  if (!missing.empty()) {
    hand.next_drill = drill_name(setup.kit.drills[static_cast<std::size_t>(missing.front())]);
    hand.next_drill_key = std::to_string(missing.front() + 1);
  }
}

HandNow hand_now(const Frame& frame) {
  const BenchState& bench = frame.state.bench;
  HandNow hand;
  if (frame.model.step_by_step) {
    hand.steering = bench.arrows_lean ? Steering::kStepsLean : Steering::kSteps;
  } else if (frame.model.touch) {
    hand.steering = Steering::kTouch;
  }
  hand.is_pressing = bench.controls.is_pressing();
  hand.is_reaching = bench.is_reaching;
  hand.is_choosing_length = bench.chooser_drill >= 0;
  name_next_drill(frame, hand);
  return hand;
}

// What the hands do now, and below it what comes next; that alone where both have no room.
void hint_lines(Frame& frame, Rect rest) {
  const HintLine hint = hint_line(*frame.model.view, hand_now(frame));
  const float cap = frame.px(26.0F);
  const float beside =
      hint.key.empty() ? 0.0F : key_cap_width(frame, hint.key, cap) + frame.px(10.0F);
  const float gap = frame.px(4.0F);
  const TextStyle now{frame.fonts.caption, frame.colors.muted, Align::kLeft, Role::kStatus};
  TextStyle next{frame.fonts.strong, frame.colors.text, Align::kLeft, Role::kStatus};
  const float now_height = text_size(now.face, hint.now, rest.width).y + gap;
  float next_height = text_size(next.face, hint.next, rest.width - beside).y;
  if (next_height > rest.height) {
    next.face = frame.fonts.caption_strong;
    next_height = text_size(next.face, hint.next, rest.width - beside).y;
  }
  const bool has_both = now_height + next_height <= rest.height;
  const float height = has_both ? now_height + next_height : next_height;
  cut_top(rest, std::max(0.0F, 0.5F * (rest.height - height)));
  if (has_both) {
    text(frame, cut_top(rest, now_height), now, hint.now);
  } else {
    frame.items.add_text(Role::kStatus, hint.now, {rest.x, rest.y, rest.width, 1.0F});
  }
  if (!hint.key.empty()) {
    key_cap(frame, {rest.x, rest.y - frame.px(2.0F)}, cap, hint.key, frame.colors.text);
    cut_left(rest, beside);
  }
  text(frame, rest, next, hint.next);
}

}  // namespace

void bench_line(Frame& frame, const BenchLayout& layout) {
  const Rect& bar = layout.bottom_line;
  const session::SessionView& view = *frame.model.view;
  fill(frame, bar, frame.colors.surface, 0.0F);
  ImGui::GetWindowDrawList()->AddLine({bar.x, bar.y}, {bar.x + bar.width, bar.y},
                                      color_of(frame.colors.line));
  Rect rest = inset(bar, frame.px(layout.is_upright ? kGapSmall_px : kGap_px), frame.px(6.0F));
  Rect hints = layout.is_upright ? cut_top(rest, frame.px(42.0F)) : Rect{};
  Rect second = layout.is_upright ? cut_top(rest, 0.5F * rest.height) : Rect{};
  Rect& tools = layout.is_upright ? second : rest;

  Button finish{std::string(tr(Str::kFinish)), std::string(tr(Str::kEnterKey))};
  finish.description = tr(Str::kFinishHelp);
  if (view.hint == session::Hint::kFinish) {
    finish.kind = ButtonKind::kPrimary;
  }
  if (bar_button(frame, rest, finish)) {
    frame.send(record::Op::kFinish);
  }
  cut_right(rest, frame.px(kGap_px));
  const bool has_implant = view.implant.index >= 0;
  Button probe{std::string(tr(Str::kProbe)), "P"};
  probe.enabled = view.is_out;
  probe.description = tr(Str::kProbeHelp);
  if (has_implant) {
    implant_buttons(frame, tools);
  } else if (bar_button(frame, tools, probe)) {
    frame.send(record::Op::kProbe);
  }
  const bool is_pilot_done = !view.used_drills.empty() && !view.guide.placed;
  if (is_pilot_done && !has_implant) {
    Button pin{std::string(tr(view.pin.has_value() ? Str::kPinOut : Str::kPin)), "V"};
    pin.enabled = view.is_out;
    pin.description = tr(Str::kPinHelp);
    pin.id = "pin";
    if (bar_button(frame, tools, pin)) {
      frame.send(record::Op::kPin, {view.pin.has_value() ? 0 : 1});
    }
  }
  film_button(frame, rest);
  Button lift{std::string(tr(view.lifting ? Str::kLower : Str::kLift)), "R"};
  lift.enabled = view.drill_index >= 0 || has_implant;
  lift.id = "lift";
  if (bar_button(frame, rest, lift)) {
    frame.send(record::Op::kLift, {view.lifting ? 0 : 1});
  }

  hint_lines(frame, layout.is_upright ? hints : rest);
}

}  // namespace driftbench::ui
