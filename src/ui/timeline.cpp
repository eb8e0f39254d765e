#include "ui/timeline.h"

#include "base/text.h"
#include "drilling/params.h"
#include "ui/explain_words.h"
#include "ui/marks.h"
#include "ui/strings.h"
#include "ui/timeline_traces.h"

#include <array>
#include <cmath>

namespace driftbench::ui {

namespace {

constexpr float kMoments_px = 24.0F;      // strip of moment marks
constexpr float kAxis_px = 24.0F;         // seconds
constexpr float kLabel_px = 196.0F;       // lane names with the value at the scrubber
constexpr float kLabelLeast_px = 144.0F;  // where the value stands below the name

std::int64_t end_of(const Frame& frame) {
  return std::max<std::int64_t>(1, frame.model.end_step);
}

float x_of(const Frame& frame, const Rect& lanes, std::int64_t step) {
  return lanes.x + lanes.width * static_cast<float>(static_cast<double>(step) /
                                                    static_cast<double>(end_of(frame)));
}

struct Lane {
  TraceKind kind = TraceKind::kDepth;
  Str name = Str::kLaneDepth;
  Str unit = Str::kMmValue;
  double low = 0.0;
  double high = 1.0;
  bool downward = false;  // larger values lower on the screen
  Rgb color;
};

float y_of(const Rect& lane, const Lane& spec, double value) {
  const double share = std::clamp((value - spec.low) / (spec.high - spec.low), 0.0, 1.0);
  const float from_top = static_cast<float>(spec.downward ? share : 1.0 - share);
  return lane.y + lane.height * from_top;
}

void draw_lane(Frame& frame, const Rect& lane, const Lane& spec) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  fill(frame, lane, frame.colors.raised, 4.0F);
  const int columns = std::max(1, static_cast<int>(lane.width));
  const auto trace = trace_columns(spec.kind, frame.model.view->samples, *frame.model.setup,
                                   end_of(frame), columns);
  if (spec.kind == TraceKind::kDepth) {
    const float y = y_of(lane, spec, frame.model.setup->plan.depth_mm);
    dashes(frame, {lane.x, y}, {lane.x + lane.width, y}, frame.colors.muted, 1.0F);
  }
  ImVec2 before;
  bool has_before = false;
  for (int i = 0; i < columns; ++i) {
    const TraceColumn& column = trace[static_cast<std::size_t>(i)];
    if (!column.filled) {
      continue;
    }
    const float x = lane.x + static_cast<float>(i) + 0.5F;
    const float top = y_of(lane, spec, column.high);
    const float bottom = y_of(lane, spec, column.low);
    const ImVec2 here{x, 0.5F * (top + bottom)};
    if (has_before) {
      list->AddLine(before, here, color_of(spec.color), frame.px(1.8F));
    }
    if (std::abs(top - bottom) > 1.0F) {
      list->AddLine({x, top}, {x, bottom}, color_of(spec.color), 1.0F);
    }
    before = here;
    has_before = true;
  }
}

void lane_label(Frame& frame, const Rect& box, const Lane& spec) {
  // A sample of the line, the name, and the value where the scrubber stands.
  ImGui::GetWindowDrawList()->AddRectFilled(
      {box.x, box.y + 0.5F * box.height - frame.px(8.0F)},
      {box.x + frame.px(4.0F), box.y + 0.5F * box.height + frame.px(8.0F)}, color_of(spec.color));
  Rect words = box;
  cut_left(words, frame.px(12.0F));
  cut_right(words, frame.px(10.0F));
  TextStyle name = caption(frame);
  // Below the name where there is no room beside it.
  const bool is_below = box.width < frame.px(kLabel_px);
  if (is_below) {
    words.y += 0.5F * (words.height - 2.0F * name.face.size_px);
    words.height = name.face.size_px;
  }
  text_middle(frame, words, name, tr(spec.name));
  if (is_below) {
    words.y += words.height;
  }
  if (frame.model.scrub_sample != nullptr) {
    const double value = trace_value(spec.kind, *frame.model.scrub_sample, *frame.model.setup);
    TextStyle style{frame.fonts.caption_strong, frame.colors.text,
                    is_below ? Align::kLeft : Align::kRight, Role::kStatus};
    const bool is_above = spec.kind == TraceKind::kDepth && value < 0.0;
    text_middle(frame, words, style,
                say(is_above ? Str::kMmAbove : spec.unit, base::fixed(std::abs(value), 1)));
  }
}

void draw_axis(const Frame& frame, const Rect& lanes) {
  const double total_s = static_cast<double>(end_of(frame)) * drilling::kStep_s;
  const double tick = tick_seconds(total_s);
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float base_y = lanes.y + lanes.height;
  for (int i = 0; i * tick <= total_s; ++i) {
    const float x = lanes.x + lanes.width * static_cast<float>(i * tick / total_s);
    list->AddLine({x, base_y}, {x, base_y + frame.px(5.0F)}, color_of(frame.colors.muted));
    const std::string label = i == 0 ? say(Str::kSeconds, 0) : figure(i * tick, tick < 1.0 ? 1 : 0);
    const ImVec2 size = text_size(frame.fonts.caption, label);
    if (x + size.x <= lanes.x + lanes.width + frame.px(8.0F)) {
      draw_text(frame.fonts.caption, frame.colors.muted,
                {i == 0 ? x : x - 0.5F * size.x, base_y + frame.px(4.0F)}, label);
    }
  }
}

void draw_stretches(const Frame& frame, const Rect& strip) {
  for (const DrillStretch& stretch : drill_stretches(frame.model.view->samples)) {
    const auto& drills = frame.model.setup->kit.drills;
    const auto index = static_cast<std::size_t>(stretch.drill_index);
    if (index >= drills.size()) {
      continue;
    }
    const float from = x_of(frame, strip, stretch.from_step);
    const float to = x_of(frame, strip, stretch.to_step);
    const std::string label =
        "\xE2\x8C\x80 " + say(Str::kMmValue, base::fixed(drills[index].diameter_mm, 1));
    const ImVec2 size = text_size(frame.fonts.caption, label);
    ImGui::GetWindowDrawList()->AddLine({from, strip.y + frame.px(2.0F)},
                                        {from, strip.y + strip.height},
                                        color_of(frame.colors.outline), frame.px(1.0F));
    if (to - from > size.x + frame.px(8.0F)) {
      draw_text(frame.fonts.caption, frame.colors.muted, {from + frame.px(5.0F), strip.y}, label);
    }
  }
}

// A flag for each moment; pressing one goes there.
void moment_flags(Frame& frame, const Rect& strip, const Rect& lanes) {
  if (frame.model.moments == nullptr) {
    return;
  }
  ImDrawList* list = ImGui::GetWindowDrawList();
  float free_from = strip.x - 1.0F;
  int number = 0;
  for (const scoring::Moment& moment : *frame.model.moments) {
    const float size = frame.px(24.0F);
    const float true_x = x_of(frame, strip, moment.step);
    const float x = std::max(true_x, free_from + 0.5F * size);
    free_from = x + 0.5F * size;
    const Rect flag{x - 0.5F * size, strip.y, size, strip.height};
    const std::string name =
        say(Str::kMomentAt, moment_label(moment),
            base::fixed(static_cast<double>(moment.step) * drilling::kStep_s, 2));
    ScreenItem about;
    about.role = Role::kButton;
    about.label = name;
    const Touch touch = item(frame, flag, name + "##moment" + std::to_string(number), about);
    ++number;
    const Rgb ink = touch.hovered || touch.focused ? frame.colors.accent : frame.colors.text;
    const float base_y = strip.y + strip.height;
    list->AddTriangleFilled({x - frame.px(6.0F), strip.y + frame.px(6.0F)},
                            {x + frame.px(6.0F), strip.y + frame.px(6.0F)}, {x, base_y},
                            color_of(ink));
    list->AddLine({x, base_y}, {true_x, lanes.y}, color_of(ink, 0.7F), frame.px(1.0F));
    list->AddLine({true_x, lanes.y}, {true_x, lanes.y + lanes.height}, color_of(ink, 0.35F),
                  frame.px(1.0F));
    if (touch.pressed) {
      frame.emit(ScrubTo{moment.step});
    }
    if (touch.focused) {
      focus_ring(frame, flag, 4.0F);
    }
    tooltip(frame, touch, name);
  }
}

void scrubber(Frame& frame, const Rect& lanes) {
  const std::int64_t end = end_of(frame);
  const std::int64_t at = std::clamp<std::int64_t>(frame.model.scrub_step, 0, end);
  ScreenItem about;
  about.role = Role::kSlider;
  about.value = say(Str::kSeconds, base::fixed(static_cast<double>(at) * drilling::kStep_s, 2));
  about.description = tr(Str::kScrubHelp);
  const Touch touch = item(frame, lanes, tr(Str::kScrubber), about);

  // Dragging, arrows (0.1 s, with Shift one sample), Home and End.
  std::int64_t wanted = at;
  if (touch.held && ImGui::IsMouseDown(ImGuiMouseButton_Left)) {
    const double share = static_cast<double>((ImGui::GetIO().MousePos.x - lanes.x) / lanes.width);
    wanted = static_cast<std::int64_t>(std::lround(share * static_cast<double>(end)));
  }
  const ArrowKeys keys = arrow_keys(touch);
  int steps = keys.right + keys.up;
  if (frame.state.adjust.has_value() && frame.state.adjust->id == touch.id) {
    steps += frame.state.adjust->steps;
    frame.state.adjust.reset();
  }
  constexpr std::int64_t kCoarse_steps = 100;
  wanted += steps * (keys.fine ? drilling::kStepsPerSample : kCoarse_steps);
  if (keys.home) {
    wanted = 0;
  }
  if (keys.end) {
    wanted = end;
  }
  wanted = std::clamp<std::int64_t>(wanted, 0, end);
  if (wanted != at) {
    frame.emit(ScrubTo{wanted});
  }

  const float x = x_of(frame, lanes, at);
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddLine({x, lanes.y - frame.px(2.0F)}, {x, lanes.y + lanes.height + frame.px(2.0F)},
                color_of(frame.colors.accent), frame.px(2.5F));
  list->AddCircleFilled({x, lanes.y + lanes.height}, frame.px(8.0F), color_of(frame.colors.page));
  list->AddCircleFilled({x, lanes.y + lanes.height}, frame.px(6.5F), color_of(frame.colors.accent));
  if (touch.focused) {
    focus_ring(frame, lanes, 4.0F);
  }
}

double highest(const Frame& frame, TraceKind kind, double at_least) {
  double result = at_least;
  for (const drilling::LoadSample& sample : frame.model.view->samples) {
    result = std::max(result, trace_value(kind, sample, *frame.model.setup));
  }
  return result;
}

}  // namespace

float timeline_height(const Frame& frame, float room_px) {
  return std::clamp(0.25F * room_px, frame.px(176.0F), frame.px(250.0F));
}

void timeline(Frame& frame, const Rect& box) {
  if (frame.model.view == nullptr || frame.model.setup == nullptr) {
    return;
  }
  card(frame, box);
  Rect inner = inset(box, frame.px(kGap_px), frame.px(8.0F));
  constexpr float kWide_px = 560.0F;
  Rect labels =
      cut_left(inner, frame.px(box.width < frame.px(kWide_px) ? kLabelLeast_px : kLabel_px));

  // Play stands left of the moments, beside what it moves.
  Rect head = cut_top(labels, frame.px(kMoments_px + 18.0F));
  Button play;
  play.label = frame.model.playing ? tr(Str::kPauseReplay) : tr(Str::kPlayReplay);
  play.id = "play";
  play.name = tr(frame.model.playing ? Str::kPauseReplayName : Str::kPlayReplayName);
  if (button(frame, {head.x, head.y, head.width - frame.px(14.0F), frame.px(kButtonSmall_px)},
             play)) {
    frame.emit(PlayReplay{!frame.model.playing});
  }

  Rect drills = cut_top(inner, frame.px(18.0F));
  Rect moments = cut_top(inner, frame.px(kMoments_px));
  cut_bottom(inner, frame.px(kAxis_px));
  cut_bottom(labels, frame.px(kAxis_px));
  const Rect lanes = inner;

  const double deepest =
      std::max(highest(frame, TraceKind::kDepth, 0.0), frame.model.setup->plan.depth_mm) + 0.5;
  const std::array all{
      Lane{TraceKind::kDepth, Str::kLaneDepth, Str::kMmValue, -0.5, deepest, true,
           frame.colors.depth},
      Lane{TraceKind::kPress, Str::kLanePress, Str::kNewtonValue, 0.0,
           highest(frame, TraceKind::kPress, 10.0) * 1.05, false, frame.colors.press},
      Lane{TraceKind::kSide, Str::kLaneSide, Str::kNewtonValue, 0.0,
           highest(frame, TraceKind::kSide, 2.0) * 1.05, false, frame.colors.side}};
  const float gap = frame.px(4.0F);
  const float height = (lanes.height - 2.0F * gap) / 3.0F;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const float y = lanes.y + static_cast<float>(i) * (height + gap);
    draw_lane(frame, {lanes.x, y, lanes.width, height}, all[i]);
    lane_label(frame, {labels.x, y, labels.width, height}, all[i]);
  }
  draw_axis(frame, lanes);
  draw_stretches(frame, drills);
  moment_flags(frame, moments, lanes);
  scrubber(frame, lanes);
}

}  // namespace driftbench::ui
