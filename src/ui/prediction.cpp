// Holes of virtual operators to judge, made before the learner's eyes; then the numbers.
#include "base/text.h"
#include "ui/course_words.h"
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/target_chart.h"
#include "ui/widgets.h"

#include <algorithm>
#include <string_view>
#include <vector>

namespace driftbench::ui {

namespace {

constexpr double kRange_mm = 3.0;

// Sizes of a group's card, px.
constexpr float kPad_px = 12.0F;
constexpr float kTitle_px = 28.0F;
constexpr float kCount_px = 22.0F;
constexpr float kWidestTarget_px = 380.0F;
constexpr float kVerdict_px = 118.0F;

bool asks_for_bias(const Frame& frame) {
  return frame.model.lesson->prediction->ask == lesson::PredictionAsk::kBiasOrSpread;
}

bool is_answered(const Frame& frame) {
  const PredictionView& view = *frame.model.prediction;
  if (!asks_for_bias(frame)) {
    return view.said_widest.has_value();
  }
  return std::all_of(view.groups.begin(), view.groups.end(),
                     [](const auto& group) { return group.said_bias.has_value(); });
}

/// From the plan to the middle of the holes.
void bias_arrow(const Frame& frame, const Rect& plot, const math::Vec2& middle_mm) {
  const ImVec2 from = on_target(plot, kRange_mm, 0.0, 0.0);
  const ImVec2 to = on_target(plot, kRange_mm, middle_mm.x, middle_mm.y);
  cased_line(frame, from, to, frame.colors.accent);
  const float arm = frame.px(7.0F);
  cased_line(frame, {to.x - arm, to.y - arm}, {to.x + arm, to.y + arm}, frame.colors.accent);
  cased_line(frame, {to.x - arm, to.y + arm}, {to.x + arm, to.y - arm}, frame.colors.accent);
}

std::string findings_words(const Frame& frame, const PredictionGroupView& group) {
  const SiteWords words = site_words(frame.model.prediction->site);
  const lesson::GroupFindings& f = group.findings;
  if (asks_for_bias(frame)) {
    return say(Str::kGroupEntry, off_centre(words, f.entry.bias_mm.x, f.entry.bias_mm.y),
               base::fixed(f.entry.spread_mm.value_or(0.0), 2)) +
           ' ' + std::string(tr(f.is_bias ? Str::kIsBias : Str::kIsSpread));
  }
  return say(Str::kGroupApex, base::fixed(f.apex_rms_mm, 2),
             off_centre(words, f.apex.bias_mm.x, f.apex.bias_mm.y),
             base::fixed(f.apex.spread_mm.value_or(0.0), 2), base::fixed(f.mean_angle_deg, 1));
}

void target(Frame& frame, const Rect& box, std::size_t index) {
  const PredictionView& view = *frame.model.prediction;
  const PredictionGroupView& group = view.groups[index];
  const lesson::PredictionGroup& asked = frame.model.lesson->prediction->groups[index];
  const bool at_entry = asks_for_bias(frame);
  const scoring::Tolerance& tolerance = frame.model.lesson->tolerance;
  TargetSpec spec{in_language(asked.title),
                  view.is_revealed ? findings_words(frame, group) : std::string(),
                  kRange_mm,
                  at_entry ? tolerance.entry_mm : tolerance.apex_mm,
                  {}};
  const lesson::LessonBlock& block =
      frame.model.lesson->blocks[lesson::block_of_group(*frame.model.lesson, index)];
  for (const lesson::ShownHole& hole : group.holes) {
    const math::Vec2& at = at_entry ? hole.entry_mm : hole.apex_mm;
    spec.marks.push_back({at.x, at.y, block.approach, true, false});
  }
  target_chart(frame, box, site_words(view.site), spec);
  if (view.is_revealed) {
    bias_arrow(frame, target_plot(frame, box),
               at_entry ? group.findings.entry.bias_mm : group.findings.apex.bias_mm);
  }
}

void choices(Frame& frame, Rect row, std::size_t index) {
  const PredictionView& view = *frame.model.prediction;
  const std::string id = "group " + std::to_string(index);
  const std::string& title = in_language(frame.model.lesson->prediction->groups[index].title);
  const auto spoken = [&title](Str label) { return title + ": " + std::string(tr(label)); };
  if (!asks_for_bias(frame)) {
    if (choice(frame, row, tr(Str::kSayThisOne), view.said_widest == index, id,
               spoken(Str::kSayThisOne))) {
      frame.emit(JudgeGroup{index, true});
    }
    return;
  }
  const std::optional<bool>& said = view.groups[index].said_bias;
  const float gap = frame.px(kGapSmall_px);
  if (choice(frame, cut_left(row, 0.5F * (row.width - gap)), tr(Str::kSayBias), said == true,
             id + " bias", spoken(Str::kSayBias))) {
    frame.emit(JudgeGroup{index, true});
  }
  cut_left(row, gap);
  if (choice(frame, row, tr(Str::kSaySpread), said == false, id + " spread",
             spoken(Str::kSaySpread))) {
    frame.emit(JudgeGroup{index, false});
  }
}

/// What the numbers say, and whether it was seen.
void revealed(Frame& frame, Rect box, std::size_t index) {
  const PredictionView& view = *frame.model.prediction;
  const PredictionGroupView& group = view.groups[index];
  const TextStyle style = body(frame);
  cut_top(box, text(frame, box, style, findings_words(frame, group)) + frame.px(4.0F));
  const bool is_judged = asks_for_bias(frame) || view.said_widest == index;
  if (is_judged) {
    const bool is_right =
        asks_for_bias(frame) ? group.said_bias == group.findings.is_bias : view.widest == index;
    TextStyle verdict{frame.fonts.strong, is_right ? frame.colors.good : frame.colors.warn,
                      Align::kLeft, Role::kStatus};
    text(frame, box, verdict,
         std::string(is_right ? "\xE2\x9C\x93  " : "\xE2\x96\xB3  ") +
             std::string(tr(is_right ? Str::kJudgedRight : Str::kJudgedWrong)));
  }
}

float target_size(const Frame& frame, float card_width) {
  return std::min(card_width - 2.0F * frame.px(kGap_px), frame.px(kWidestTarget_px));
}

float card_height(const Frame& frame, float width) {
  const float last =
      frame.model.prediction->is_revealed ? kVerdict_px : kButtonSmall_px + kGapSmall_px;
  return frame.px(2.0F * kPad_px + kTitle_px + kCount_px + kGapSmall_px + last) +
         target_size(frame, width);
}

void group_card(Frame& frame, const Rect& box, std::size_t index) {
  const PredictionView& view = *frame.model.prediction;
  const lesson::Prediction& asked = *frame.model.lesson->prediction;
  card(frame, box);
  Rect inner = inset(box, frame.px(kGap_px), frame.px(kPad_px));
  text(frame, cut_top(inner, frame.px(kTitle_px)), lead(frame),
       in_language(asked.groups[index].title));
  TextStyle count = caption(frame);
  text(frame, cut_top(inner, frame.px(kCount_px)), count,
       say(Str::kHolesMade, view.groups[index].holes.size(), asked.holes));
  target(frame, cut_top(inner, target_size(frame, box.width)), index);
  cut_top(inner, frame.px(kGapSmall_px));
  if (view.is_revealed) {
    revealed(frame, cut_top(inner, frame.px(kVerdict_px)), index);
  } else {
    choices(frame, cut_top(inner, frame.px(kButtonSmall_px)), index);
  }
}

void foot(Frame& frame, Rect& page) {
  const PredictionView& view = *frame.model.prediction;
  const ShelfLesson* shown = open_lesson(frame);
  Button go{view.is_revealed && shown != nullptr ? task_words(*shown)
                                                 : std::string(tr(Str::kShowMe))};
  go.kind = ButtonKind::kPrimary;
  go.enabled = view.is_revealed || (view.is_ready && is_answered(frame));
  go.id = "way on";
  const Button skip = quiet_button(Str::kWatchSkip);
  TextStyle state = caption(frame);
  state.role = Role::kStatus;
  const float track_width = frame.px(160.0F);
  const float gap = frame.px(12.0F);
  const std::string_view words = view.is_revealed     ? std::string_view()
                                 : !view.is_ready     ? tr(Str::kJudgeWait)
                                 : is_answered(frame) ? std::string_view()
                                                      : tr(Str::kJudgeChoose);
  std::vector<float> widths{std::max(frame.px(180.0F), button_width(frame, go))};
  if (!view.is_revealed) {
    widths.push_back(button_width(frame, skip));
    widths.push_back(text_size(state.face, words).x + (view.is_ready ? 0.0F : track_width + gap));
  }
  std::vector<Rect> slots = page_foot(frame, page, widths);
  slots[0].width = widths[0];
  if (button(frame, slots[0], go)) {
    if (view.is_revealed) {
      frame.emit(OpenBriefing{});
    } else {
      frame.emit(RevealPrediction{});
    }
  }
  if (view.is_revealed) {
    return;
  }
  slots[1].width = widths[1];
  if (button(frame, slots[1], skip)) {
    frame.emit(OpenBriefing{});
  }
  Rect said = slots[2];
  if (!view.is_ready) {
    Rect track = cut_left(said, track_width);
    track.y += 0.5F * (track.height - frame.px(10.0F));
    track.height = frame.px(10.0F);
    progress_track(frame, track, view.progress);
    cut_left(said, gap);
  }
  if (!words.empty()) {
    text_middle(frame, said, state, words);
  }
}

}  // namespace

void prediction(Frame& frame, const Rect& page) {
  const Model& model = frame.model;
  if (model.prediction == nullptr || model.lesson == nullptr ||
      !model.lesson->prediction.has_value()) {
    nothing_to_show(frame, page);
    return;
  }
  Rect rest = page;
  leave_bar(frame, rest, say(Str::kJudgePlace, in_language(model.lesson->title)));
  foot(frame, rest);

  const ScrolledPage scrolled = begin_page(frame, "prediction", rest);
  Rect column = scrolled.column;
  TextStyle question = lead(frame);
  cut_top(column, text(frame, column, question,
                       tr(asks_for_bias(frame) ? Str::kAskBias : Str::kAskWidest)) +
                      frame.px(kGap_px));
  const std::size_t count = model.prediction->groups.size();
  const float gap = frame.px(kGap_px);
  // Beside one another where that leaves room for a target.
  const bool beside = column.width >= static_cast<float>(count) * frame.px(250.0F) +
                                          gap * static_cast<float>(count - 1);
  const float width =
      beside ? std::min(frame.px(590.0F), (column.width - gap * static_cast<float>(count - 1)) /
                                              static_cast<float>(count))
             : column.width;
  const float height = card_height(frame, width);
  Rect row = cut_top(column, beside ? height : height * static_cast<float>(count) + gap);
  for (std::size_t i = 0; i < count; ++i) {
    const Rect box = beside ? cut_left(row, width) : cut_top(row, height);
    group_card(frame, box, i);
    if (beside) {
      cut_left(row, gap);
    } else {
      cut_top(row, gap);
    }
  }
  if (model.prediction->is_revealed) {
    cut_top(column, gap);
    const float wrap = std::min(column.width, frame.px(900.0F));
    cut_top(column, text(frame, {column.x, column.y, wrap, column.height}, body(frame),
                         in_language(model.lesson->prediction->afterwards)));
  }
  end_page(frame, scrolled, column.y + frame.px(kGapLarge_px));
}

}  // namespace driftbench::ui
