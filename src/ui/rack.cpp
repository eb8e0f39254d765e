#include "ui/rack.h"

#include "base/text.h"
#include "lesson/instruments.h"
#include "ui/implant_panel.h"
#include "ui/marks.h"
#include "ui/panels.h"
#include "ui/rack_slot.h"
#include "ui/strings.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::ui {

namespace {

constexpr float kChooser_px = 36.0F;       // below its words
constexpr float kChooserTouch_px = 92.0F;  // two rows for a finger
constexpr float kTwoRows_px = 62.0F;       // two rows in a narrow rack
constexpr float kOneRow_px = 300.0F;       // a narrower rack has two
constexpr float kChipGap_px = 4.0F;
constexpr float kChooserWords_px = 20.0F;  // at least
constexpr float kTitleRow_px = 20.0F;
constexpr float kWithTitle_px = 160.0F;  // a lower rack has no title
constexpr float kKeyAndCheck_px = 50.0F;
constexpr double kShank_mm = 9.0;  // part of the shank that is drawn

void take(Frame& frame, std::int32_t drill_index, double stop_length_mm) {
  frame.send(record::Op::kTakeDrill,
             {drill_index, static_cast<std::int32_t>(std::lround(stop_length_mm * 1e3))});
  if (frame.state.bench.chooser_drill >= 0) {
    frame.state.bench.chooser_drill = -1;
    give_keys_to_hand(frame);
  }
}

bool was_used(const Frame& frame, std::int32_t drill_index) {
  const auto& used = frame.model.view->used_drills;
  return std::find(used.begin(), used.end(), drill_index) != used.end();
}

// The drill stands on its point: tip, body with its depth lines, shank.
void draw_drill(const Frame& frame, const specimen::Drill& drill, float x, float tip_y,
                float per_mm) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const Palette& c = frame.colors;
  const float half = std::max(2.0F, 0.5F * static_cast<float>(drill.diameter_mm) * per_mm);
  const float shank = std::max(1.5F, 0.5F * static_cast<float>(drill.shank_diameter_mm) * per_mm);
  const float shoulder_y = tip_y - static_cast<float>(drill.tip_length_mm) * per_mm;
  const float top_y = shoulder_y - static_cast<float>(drill.body_length_mm) * per_mm;
  const float end_y = top_y - static_cast<float>(kShank_mm) * per_mm;
  list->AddRectFilled({x - shank, end_y}, {x + shank, top_y}, color_of(c.steel_dark));
  list->AddRectFilled({x - half, top_y}, {x + half, shoulder_y}, color_of(c.steel));
  if (drill.kind == specimen::DrillKind::kStarter) {
    list->AddCircleFilled({x, shoulder_y}, half, color_of(c.steel));
  } else {
    list->AddTriangleFilled({x - half, shoulder_y}, {x + half, shoulder_y}, {x, tip_y},
                            color_of(c.steel));
  }
  // Flutes: two slanted lines say which way it turns.
  for (float y = shoulder_y - 2.0F * half; y > top_y + half; y -= 2.6F * half) {
    list->AddLine({x - half, y}, {x + half, y - 1.2F * half}, color_of(c.steel_dark, 0.7F),
                  frame.px(1.2F));
  }
  for (const double line_mm : drill.depth_lines_mm) {
    const float y = shoulder_y - static_cast<float>(line_mm) * per_mm;
    list->AddLine({x - half, y}, {x + half, y}, color_of(kBlack), frame.px(2.5F));
  }
}

// What a drill is, when it is no ordinary one: along its side, since the slots are narrow.
void kind_words(const Frame& frame, const specimen::Drill& drill, const Rect& room, float x) {
  if (drill.kind == specimen::DrillKind::kTwist) {
    return;
  }
  const Str kind =
      drill.kind == specimen::DrillKind::kStarter ? Str::kKindStarter : Str::kKindSideCutter;
  if (text_size(frame.fonts.caption, tr(kind)).x > room.height + frame.px(kSlotLowerRow_px)) {
    return;
  }
  const ImVec2 centre{x - frame.px(15.0F), room.y + 0.5F * room.height};
  turned_text(frame.fonts.caption, frame.colors.muted, centre, tr(kind), true);
}

void drill_slot(Frame& frame, const Rect& slot, std::int32_t drill_index, float per_mm) {
  const specimen::Drill& drill =
      frame.model.setup->kit.drills[static_cast<std::size_t>(drill_index)];
  const bool in_hand = frame.model.view->drill_index == drill_index;
  const bool used = was_used(frame, drill_index);

  ScreenItem about;
  about.role = Role::kRadio;
  about.checked = in_hand;
  about.value = used ? std::string(tr(Str::kUsed)) : std::string();
  about.description = say(Str::kDrillPrinted, base::fixed(drill.tip_length_mm, 1),
                          base::fixed(drill.speed_rpm, 0)) +
                      " (" + std::to_string(drill_index + 1) + ")";
  const Touch touch = item(frame, slot, drill_name(drill) + "##" + drill.id, about);
  const bool chosen = in_hand || frame.state.bench.chooser_drill == drill_index;
  const SlotParts parts = slot_parts(frame, slot, chosen, touch);
  const float tip_y = parts.picture.y + parts.picture.height - frame.px(2.0F);
  draw_drill(frame, drill, parts.axis_x, tip_y, per_mm);
  kind_words(frame, drill, parts.picture, parts.axis_x);
  slot_figures(frame, parts, figure(drill.diameter_mm, 1), "+" + figure(drill.tip_length_mm, 1));
  if (!frame.model.touch) {
    slot_key(frame, slot, std::to_string(drill_index + 1));
  }
  if (used) {
    const std::string_view check = "\xE2\x9C\x93";
    const ImVec2 size = text_size(frame.fonts.body, check);
    // In a narrow slot it stands below the key.
    const bool is_below = !frame.model.touch && slot.width < frame.px(kKeyAndCheck_px);
    const float y = slot.y + frame.px(is_below ? kSlotKeyRow_px : 3.0F);
    draw_text(frame.fonts.body, frame.colors.good,
              {slot.x + slot.width - size.x - frame.px(5.0F), y}, check);
  }
  if (touch.focused) {
    focus_ring(frame, slot, kRadiusSmall_px);
  }
  if (touch.pressed) {
    choose_drill(frame, drill_index);
  }
  if (frame.state.bench.chooser_drill < 0) {  // else it would cover the lengths
    tooltip(frame, touch, drill_name(drill) + ". " + about.description);
  }
}

// The drill whose length is chosen now; -1: none.
std::int32_t chooser_drill(const Frame& frame) {
  const auto& drills = frame.model.setup->kit.drills;
  std::int32_t shown = frame.state.bench.chooser_drill;
  if (shown < 0) {
    shown = frame.model.view->drill_index;
  }
  if (shown < 0 || !is_guided(*frame.model.setup, shown) ||
      drills[static_cast<std::size_t>(shown)].stop_lengths_mm.empty()) {
    return -1;
  }
  return shown;
}

// The lengths that the kit has for the drill whose turn it is, at the bottom of the rack.
void length_chooser(Frame& frame, Rect& rack_box) {
  const std::int32_t shown = chooser_drill(frame);
  const auto& drills = frame.model.setup->kit.drills;
  const std::string label =
      shown < 0 ? std::string(tr(Str::kLengthChooserIdle))
                : say(Str::kLengthOf,
                      base::fixed(drills[static_cast<std::size_t>(shown)].diameter_mm, 1));
  const float words =
      std::max(frame.px(kChooserWords_px), text_size(frame.fonts.caption, label, rack_box.width).y);
  const bool has_two_rows = frame.is_touch || rack_box.width < frame.px(kOneRow_px);
  const float chips_px = frame.is_touch ? kChooserTouch_px
                         : has_two_rows ? kTwoRows_px
                                        : kChooser_px;
  Rect rest = cut_bottom(rack_box, words + frame.px(chips_px));
  if (shown < 0) {
    text_middle(frame, rest, caption(frame), label);
    return;
  }
  const specimen::Drill& drill = drills[static_cast<std::size_t>(shown)];
  text(frame, cut_top(rest, words), caption(frame), label);
  const int rows = has_two_rows ? 2 : 1;
  const int count = std::max(1, static_cast<int>(drill.stop_lengths_mm.size()));
  const int columns = (count + rows - 1) / rows;
  const float gap = frame.px(kChipGap_px);
  const float height = frame.px(frame.is_touch ? kButton_px : has_two_rows ? 28.0F : 34.0F);
  const float width =
      std::min(frame.px(60.0F),
               (rest.width - static_cast<float>(columns - 1) * gap) / static_cast<float>(columns));
  const auto rows_height = static_cast<float>(rows) * (height + gap) - gap;
  int place = 0;
  for (const double length_mm : drill.stop_lengths_mm) {
    const Rect chip{rest.x + static_cast<float>(place % columns) * (width + gap),
                    rest.y + 0.5F * (rest.height - rows_height) +
                        static_cast<float>(place / columns) * (height + gap),
                    width, height};
    ++place;
    const bool chosen = frame.model.view->drill_index == shown &&
                        std::abs(frame.model.view->stop_length_mm - length_mm) < 1e-6;
    if (frame.state.bench.focus_chooser) {
      frame.state.bench.focus_chooser = false;
      ImGui::SetKeyboardFocusHere();
    }
    if (choice(frame, chip, figure(length_mm, 1), chosen, "length of " + drill.id)) {
      take(frame, shown, length_mm);
    }
  }
}

}  // namespace

std::string drill_name(const specimen::Drill& drill) {
  const std::string diameter = base::fixed(drill.diameter_mm, 1);
  switch (drill.kind) {
    case specimen::DrillKind::kTwist:
      return say(Str::kDrillTwist, diameter);
    case specimen::DrillKind::kStarter:
      return say(Str::kDrillStarter, diameter);
    case specimen::DrillKind::kSideCutter:
      return say(Str::kDrillSideCutter, diameter);
  }
  return diameter;
}

void choose_drill(Frame& frame, std::int32_t drill_index) {
  frame.state.bench.shows_rack = true;
  const auto& drills = frame.model.setup->kit.drills;
  if (drill_index < 0 || static_cast<std::size_t>(drill_index) >= drills.size()) {
    return;
  }
  if (is_guided(*frame.model.setup, drill_index) &&
      !drills[static_cast<std::size_t>(drill_index)].stop_lengths_mm.empty()) {
    frame.state.bench.chooser_drill = drill_index;
  } else {
    take(frame, drill_index, 0.0);
  }
}

void rack(Frame& frame, const Rect& box) {
  card(frame, box);
  Rect inner = inset(box, frame.px(10.0F), frame.px(8.0F));
  if (frame.model.setup->guide.has_value()) {
    length_chooser(frame, inner);
    cut_bottom(inner, frame.px(4.0F));
  }
  const auto& drills = frame.model.setup->kit.drills;
  if (drills.empty()) {
    return;
  }
  if (inner.height >= frame.px(kWithTitle_px)) {
    const float title = std::max(
        frame.px(kTitleRow_px), text_size(frame.fonts.caption, tr(Str::kRackTitle), inner.width).y);
    text_middle(frame, cut_top(inner, title), caption(frame), tr(Str::kRackTitle));
  }
  const bool has_implant = wants_implant(frame);
  double longest_mm = has_implant ? implant_slot_mm(frame) : 1.0;
  for (const specimen::Drill& drill : drills) {
    longest_mm = std::max(longest_mm, drill.tip_length_mm + drill.body_length_mm + kShank_mm);
  }
  const float room =
      inner.height - frame.px(kSlotLowerRow_px + kSlotDiameterRow_px + 12.0F + kSlotKeyRow_px);
  const std::size_t slots = drills.size() + (has_implant ? 1 : 0);
  const float width = inner.width / static_cast<float>(slots);
  const float widest = 0.5F * width;
  double widest_mm = 1.0;
  for (const specimen::Drill& drill : drills) {
    widest_mm = std::max(widest_mm, drill.diameter_mm);
  }
  const float per_mm =
      std::min(room / static_cast<float>(longest_mm), widest / static_cast<float>(widest_mm));
  for (std::size_t i = 0; i < slots; ++i) {
    const Rect slot{inner.x + static_cast<float>(i) * width + frame.px(2.0F), inner.y,
                    width - frame.px(4.0F), inner.height};
    if (i < drills.size()) {
      drill_slot(frame, slot, static_cast<std::int32_t>(i), per_mm);
    } else {
      implant_slot(frame, slot, per_mm);
    }
  }
}

}  // namespace driftbench::ui
