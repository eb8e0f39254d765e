#include "ui/seating_panel.h"

#include "lesson/instruments.h"
#include "ui/strings.h"

#include <array>
#include <cmath>

namespace driftbench::ui {

namespace {

constexpr double kFinger_n = 15.0;        // of a finger on a foot; own assumption
constexpr double kSeenGap_mm = 0.05;      // what an eye sees in a window; own assumption
constexpr float kWindowScale_px = 22.0F;  // per millimetre of gap, in every window

/// A foot of the guide as the operator sees it from above.
struct Foot {
  std::size_t index = 0;  ///< in GuideView::gap_mm
  double x = 0.0;         ///< sign of its place
  double y = 0.0;
  Str name = Str::kFootFarLeft;
};

constexpr std::array kFeet{
    Foot{1, -1.0, 1.0, Str::kFootFarLeft}, Foot{0, 1.0, 1.0, Str::kFootFarRight},
    Foot{2, -1.0, -1.0, Str::kFootNearLeft}, Foot{3, 1.0, -1.0, Str::kFootNearRight}};

// Looking through the window from the side: the block below, the guide's foot above it.
void draw_window(const Frame& frame, const Rect& glass, double gap_mm, bool placed) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const Palette& c = frame.colors;
  fill(frame, glass, kWhite, 4.0F);
  const ImVec2 low{glass.x, glass.y};
  const ImVec2 high{glass.x + glass.width, glass.y + glass.height};
  list->PushClipRect(low, high, true);
  const float block_y = glass.y + glass.height - frame.px(9.0F);
  list->AddRectFilled({glass.x, block_y}, high, IM_COL32(0xC9, 0xB4, 0x8A, 0xFF));
  list->AddLine({glass.x, block_y}, {high.x, block_y}, color_of(kBlack), frame.px(1.5F));
  if (placed) {
    const float foot_y = block_y - static_cast<float>(gap_mm) * frame.px(kWindowScale_px);
    list->AddRectFilled({glass.x, glass.y}, {high.x, foot_y}, IM_COL32(0x55, 0x6B, 0x7B, 0xFF));
    list->AddLine({glass.x, foot_y}, {high.x, foot_y}, color_of(kBlack), frame.px(1.5F));
  }
  list->PopClipRect();
  list->AddRect(low, high, color_of(c.outline), frame.px(4.0F), 0, frame.px(1.5F));
}

bool foot_pad(Frame& frame, const Rect& pad, const Foot& foot) {
  const session::GuideView& guide = frame.model.view->guide;
  ScreenItem about;
  about.role = Role::kButton;
  about.enabled = guide.placed;
  about.label = say(Str::kPressFoot, tr(foot.name));
  about.value = !guide.placed
                    ? std::string()
                    : std::string(tr(guide.gap_mm[foot.index] > kSeenGap_mm ? Str::kWindowGap
                                                                            : Str::kWindowNoGap));
  about.description = tr(Str::kPressFootHelp);
  const Touch touch = item(frame, pad, "foot" + std::to_string(foot.index), about);
  fill(frame, pad, touch.held ? frame.colors.raised_hover : frame.colors.raised, 6.0F);
  Rect inner = inset(pad, frame.px(6.0F), frame.px(4.0F));
  const Rect label = cut_bottom(inner, frame.px(18.0F));
  draw_window(frame, inner, guide.gap_mm[foot.index], guide.placed);
  TextStyle style{frame.fonts.caption, guide.placed ? frame.colors.text : frame.colors.muted,
                  Align::kCentre};
  const ImVec2 size = text_size(style.face, tr(foot.name));
  draw_text(style.face, style.color,
            {label.x + 0.5F * (label.width - size.x), label.y + 0.5F * (label.height - size.y)},
            tr(foot.name));
  if (touch.held) {
    ImGui::GetWindowDrawList()->AddRect({pad.x, pad.y}, {pad.x + pad.width, pad.y + pad.height},
                                        color_of(frame.colors.accent), frame.px(6.0F), 0,
                                        frame.px(3.0F));
  }
  if (touch.focused) {
    focus_ring(frame, pad, 6.0F);
  }
  tooltip(frame, touch, tr(Str::kPressFootHelp));
  return touch.held;
}

}  // namespace

void place_guide(Frame& frame) {
  frame.send(record::Op::kPlaceGuide, {frame.model.view->guide.placed ? 0 : 1});
}

void hold_guide(Frame& frame) {
  if (frame.model.view->guide.placed) {
    const bool held = frame.model.view->guide.held;
    bool& shows_rack = frame.state.bench.shows_rack;
    shows_rack = shows_rack || !held;  // a guide that is held is ready for a drill
    frame.send(record::Op::kHoldGuide, {held ? 0 : 1});
  }
}

void toggle_key(Frame& frame) {
  const session::SessionView& view = *frame.model.view;
  if (view.guide.key_index >= 0) {
    frame.send(record::Op::kKey, {-1});
    return;
  }
  const std::int32_t key = key_index_of(*frame.model.setup, view.drill_index);
  if (key >= 0 && view.guide.placed) {
    frame.send(record::Op::kKey, {key});
  }
}

void take_finger_off(Frame& frame) {
  if (frame.state.bench.finger_on_guide) {
    frame.send(record::Op::kPressGuide);
    frame.state.bench.finger_on_guide = false;
  }
}

void seating_panel(Frame& frame, const Rect& box) {
  card(frame, box);
  const session::GuideView& guide = frame.model.view->guide;
  Rect inner = inset(box, frame.px(14.0F), frame.px(10.0F));

  // Left: the three things that are done with the guide, in the order in which they are done.
  Rect steps = cut_left(inner, std::max(frame.px(190.0F), 0.27F * inner.width));
  cut_left(inner, frame.px(14.0F));
  const float gap = frame.px(6.0F);
  const float height = (steps.height - 2.0F * gap) / 3.0F;
  Button place{std::string(tr(guide.placed ? Str::kTakeGuideOff : Str::kPlaceGuide)), "G"};
  place.id = "guide on";
  if (button(frame, cut_top(steps, height), place)) {
    place_guide(frame);
  }
  cut_top(steps, gap);
  Button hold{std::string(tr(Str::kHoldGuide)), "H"};
  hold.is_switch = true;
  hold.on = guide.held;
  hold.enabled = guide.placed;
  if (button(frame, cut_top(steps, height), hold)) {
    hold_guide(frame);
  }
  cut_top(steps, gap);
  Button key{std::string(tr(Str::kKeyIn)), "K"};
  key.is_switch = true;
  key.on = guide.key_index >= 0;
  key.enabled = guide.placed && (key.on || frame.model.view->drill_index >= 0);
  if (button(frame, cut_top(steps, height), key)) {
    toggle_key(frame);
  }

  // Right: what the windows show, as the operator sees the four feet from above.
  // A narrow panel leaves the words out: the feet say what they do when they are pointed at.
  constexpr float kWithWords_px = 360.0F;
  if (inner.width >= frame.px(kWithWords_px)) {
    const Rect help = cut_left(inner, 0.26F * inner.width);
    text_middle(frame, help, caption(frame), tr(Str::kWindowsHelp));
    cut_left(inner, frame.px(12.0F));
  }
  bool pressing = false;
  const double reach = 0.5 * frame.model.setup->guide->foot_span_mm;
  for (const Foot& foot : kFeet) {
    const float width = 0.5F * (inner.width - gap);
    const float tall = 0.5F * (inner.height - gap);
    const Rect pad{inner.x + (foot.x > 0.0 ? width + gap : 0.0F),
                   inner.y + (foot.y < 0.0 ? tall + gap : 0.0F), width, tall};
    if (foot_pad(frame, pad, foot) && guide.placed) {
      pressing = true;
      if (!frame.state.bench.finger_on_guide) {
        frame.send(record::Op::kPressGuide,
                   {static_cast<std::int32_t>(std::lround(foot.x * reach * 1e3)),
                    static_cast<std::int32_t>(std::lround(foot.y * reach * 1e3)),
                    static_cast<std::int32_t>(std::lround(kFinger_n * 1e3))});
        frame.state.bench.finger_on_guide = true;
      }
    }
  }
  if (!pressing) {
    take_finger_off(frame);
  }
}

}  // namespace driftbench::ui
