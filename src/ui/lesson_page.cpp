// A lesson before its briefing: what it asks, what usually goes wrong, how it is judged, what next.
#include "base/text.h"
#include "ui/course_words.h"
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/unfinished_banner.h"
#include "ui/widgets.h"

namespace driftbench::ui {

const ShelfLesson* open_lesson(const Frame& frame) {
  const Place& place = frame.model.place;
  if (frame.model.lesson == nullptr || place.set >= frame.model.shelf.size() ||
      place.entry >= frame.model.shelf[place.set].lessons.size()) {
    return nullptr;
  }
  const ShelfLesson& shown = frame.model.shelf[place.set].lessons[place.entry];
  return shown.lesson == frame.model.lesson ? &shown : nullptr;
}

float progress_dots(const Frame& frame, ImVec2 at, int done, int all) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float r = frame.px(5.0F);
  for (int i = 0; i < std::max(done, all); ++i) {
    const ImVec2 centre{at.x + r + static_cast<float>(i) * 3.0F * r, at.y};
    if (i < done) {
      list->AddCircleFilled(centre, r, color_of(frame.colors.accent));
    } else {
      list->AddCircle(centre, r, color_of(frame.colors.outline), 0, frame.px(1.8F));
    }
  }
  return 3.0F * r * static_cast<float>(std::max(done, all));
}

bool was_shown(const Frame& frame, std::string_view name) {
  const auto& seen = frame.model.seen_shown;
  return std::find(seen.begin(), seen.end(), name) != seen.end();
}

namespace {

float titled(Frame& frame, Rect column, Str title) {
  text(frame, cut_top(column, frame.px(30.0F)), lead(frame), tr(title));
  return frame.px(30.0F);
}

// Lines hung on a dot.
float dotted(Frame& frame, Rect column, Str title, const std::vector<std::string>& lines) {
  if (lines.empty()) {
    return 0.0F;
  }
  const float start = column.y;
  cut_top(column, titled(frame, column, title));
  const float indent = frame.px(18.0F);
  const TextStyle style = body(frame);
  for (const std::string& line : lines) {
    const float height = text_size(style.face, line, column.width - indent).y;
    const Rect row = cut_top(column, height);
    ImGui::GetWindowDrawList()->AddCircleFilled(
        {row.x + frame.px(5.0F), row.y + 0.5F * style.face.size_px}, frame.px(3.0F),
        color_of(frame.colors.outline));
    text(frame, {row.x + indent, row.y, row.width - indent, height}, style, line);
    cut_top(column, frame.px(6.0F));
  }
  return column.y - start + frame.px(kGap_px);
}

std::vector<std::string> lines_of(const std::vector<lesson::LocalText>& texts) {
  std::vector<std::string> lines;
  for (const lesson::LocalText& words : texts) {
    lines.push_back(in_language(words));
  }
  return lines;
}

float teaching_column(Frame& frame, Rect column, const ShelfLesson& shown) {
  const float start = column.y;
  const lesson::Lesson& l = *shown.lesson;
  TextStyle question{frame.fonts.lead, frame.colors.text};
  cut_top(column, text(frame, column, question, in_language(l.question)) + frame.px(20.0F));
  cut_top(column, dotted(frame, column, Str::kPractise, lines_of(l.objectives)));
  cut_top(column, dotted(frame, column, Str::kMistakes, lines_of(l.common_mistakes)));
  cut_top(column, titled(frame, column, Str::kLeftOut));
  TextStyle muted{frame.fonts.body, frame.colors.muted};
  cut_top(column, text(frame, column, muted, in_language(l.not_taught)));
  return column.y - start;
}

float block_row(Frame& frame, Rect column, const ShelfLesson& shown, std::size_t index) {
  const lesson::LessonBlock& block = shown.lesson->blocks[index];
  const bool is_next = shown.next.has_value() && shown.next->step.block_index == index;
  const std::string& title = in_language(block.title);
  const float height = frame.px(58.0F);
  Rect row = cut_top(column, height);
  fill(frame, row, frame.colors.raised, kRadiusSmall_px);
  if (is_next) {
    ImGui::GetWindowDrawList()->AddRectFilled({row.x, row.y},
                                              {row.x + frame.px(5.0F), row.y + row.height},
                                              color_of(frame.colors.accent), frame.px(3.0F));
  }
  row = inset(row, frame.px(14.0F), frame.px(8.0F));
  // The check of a device may be repeated with another one.
  if (shown.is_choice_free &&
      (!frame.model.is_locked || shown.lesson->id == lesson::kDeviceCheckLesson)) {
    Button go{std::string(tr(Str::kStart))};
    go.name = title + ": " + go.label;
    go.id = "block " + block.id;
    const Rect slot = cut_right(row, std::max(frame.px(84.0F), button_width(frame, go)));
    cut_right(row, frame.px(10.0F));
    if (button(frame,
               {slot.x, slot.y + 0.5F * (slot.height - frame.px(kButtonSmall_px)), slot.width,
                frame.px(kButtonSmall_px)},
               go)) {
      frame.emit(OpenBriefing{index});
    }
  }
  text(frame, cut_top(row, frame.px(23.0F)), strong(frame), title);
  const int done = shown.done_per_block[index];
  const float dots = progress_dots(frame, {row.x, row.y + 0.5F * row.height}, done, block.attempts);
  cut_left(row, dots + frame.px(8.0F));
  text_middle(frame, row, caption(frame), say(Str::kDoneOf, done, block.attempts));
  return height + frame.px(8.0F);
}

// How much of the evidence for a pass is there.
float evidence_bar(Frame& frame, Rect column, double share) {
  const std::string value = say(Str::kEvidenceValue, base::fixed(100.0 * share, 0));
  TextStyle style = caption(frame);
  style.role = Role::kStatus;
  Rect row = cut_top(column, frame.px(24.0F));
  text_middle(frame, row, style, std::string(tr(Str::kEvidence)) + ": " + value);
  const Rect bar = cut_top(column, frame.px(10.0F));
  fill(frame, bar, frame.colors.raised, 4.0F);
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddRectFilled(
      {bar.x, bar.y}, {bar.x + bar.width * static_cast<float>(share), bar.y + bar.height},
      color_of(share >= 1.0 ? frame.colors.good : frame.colors.accent), frame.px(4.0F));
  list->AddRect({bar.x, bar.y}, {bar.x + bar.width, bar.y + bar.height},
                color_of(frame.colors.outline), frame.px(4.0F));
  return frame.px(24.0F + 10.0F + kGap_px);
}

// What is asked of the device, and the way to its check.
float device_section(Frame& frame, Rect column, const lesson::Lesson& shown) {
  const float start = column.y;
  const DeviceView& device = frame.model.device;
  const ShelfLesson* check =
      device.check.has_value() ? &frame.model.shelf[device.check->set].lessons[device.check->entry]
                               : nullptr;
  cut_top(column, dotted(frame, column, Str::kDeviceTitle,
                         device_words(shown.device, device,
                                      check != nullptr ? in_language(check->lesson->title)
                                                       : std::string())));
  if (check != nullptr && !device.is_checked) {
    Button go{std::string(tr(Str::kCheckGo))};
    Rect row = cut_top(column, frame.px(kButtonSmall_px));
    if (button(frame, cut_left(row, std::min(row.width, button_width(frame, go))), go)) {
      frame.emit(OpenLesson{*device.check});
    }
    cut_top(column, frame.px(kGap_px));
  }
  return column.y - start;
}

float doing_column(Frame& frame, Rect column, const ShelfLesson& shown) {
  const float start = column.y;
  cut_top(column, titled(frame, column, Str::kBlocks));
  for (std::size_t i = 0; i < shown.lesson->blocks.size(); ++i) {
    cut_top(column, block_row(frame, column, shown, i));
  }
  if (shown.lesson->prediction.has_value() && shown.next.has_value()) {
    Button judge{std::string(tr(Str::kJudge))};
    judge.description = tr(Str::kJudgeHelp);
    Rect row = cut_top(column, frame.px(kButtonSmall_px));
    if (button(frame, cut_left(row, std::min(row.width, button_width(frame, judge))), judge)) {
      frame.emit(OpenPrediction{});
    }
  }
  cut_top(column, frame.px(kGap_px));
  cut_top(column, device_section(frame, column, *shown.lesson));
  cut_top(column, dotted(frame, column, Str::kPassTitle, pass_words(*shown.lesson)));
  if (shown.lesson->criterion.rule != lesson::PassRule::kNone) {
    cut_top(column, evidence_bar(frame, column, shown.evidence));
  }
  std::vector<std::string> feedback;
  for (const lesson::LessonBlock& block : shown.lesson->blocks) {
    feedback.push_back(feedback_words(block));
  }
  cut_top(column, dotted(frame, column, Str::kShownTitle, feedback));
  return column.y - start;
}

// What comes before the first own attempt: holes to judge, or an example to watch. Once it was
// there it stays on offer, behind what comes next.
enum class Showing { kNone, kJudge, kWatchFirst, kWatch };

Showing showing_of(const Frame& frame, const ShelfLesson& shown) {
  if (!shown.next.has_value()) {
    return Showing::kNone;
  }
  const lesson::Lesson& lesson = *shown.lesson;
  if (lesson.prediction.has_value() && shown.state == lesson::LessonState::kNotBegun &&
      !was_shown(frame, lesson.id)) {
    return Showing::kJudge;
  }
  const std::size_t block = shown.next->step.block_index;
  const bool is_new =
      !shown.next->is_retention && shown.next->step.place == 0 && shown.done_per_block[block] == 0;
  if (!is_new || !lesson.blocks[block].example.has_value()) {
    return Showing::kNone;
  }
  return was_shown(frame, lesson.id + "/" + lesson.blocks[block].id) ? Showing::kWatch
                                                                     : Showing::kWatchFirst;
}

void lesson_foot(Frame& frame, Rect& page, const ShelfLesson& shown) {
  const Showing showing = showing_of(frame, shown);
  const bool is_first = showing == Showing::kJudge || showing == Showing::kWatchFirst;
  Button show{std::string(tr(showing == Showing::kJudge   ? Str::kJudgeFirst
                             : showing == Showing::kWatch ? Str::kWatch
                                                          : Str::kWatchFirst))};
  show.kind = is_first ? ButtonKind::kPrimary : ButtonKind::kNormal;
  show.description = tr(showing == Showing::kJudge ? Str::kJudgeHelp : Str::kWatchHelp);
  show.id = "show";
  Button go{task_words(shown)};
  go.kind = is_first ? ButtonKind::kNormal : ButtonKind::kPrimary;
  go.enabled = shown.next.has_value();
  go.id = "go on";
  TextStyle state = strong(frame);
  state.role = Role::kStatus;
  const std::string words = state_words(shown);
  std::vector<float> widths{std::max(frame.px(220.0F), button_width(frame, go))};
  const bool has_words = page.width >= frame.px(kNarrow_px) || showing == Showing::kNone;
  if (has_words) {
    widths.push_back(text_size(state.face, words).x);
  }
  if (showing != Showing::kNone) {
    widths.insert(widths.begin(), button_width(frame, show));
  }
  const std::vector<Rect> slots = page_foot(frame, page, widths);
  if (showing != Showing::kNone && button(frame, slots[0], show)) {
    if (showing == Showing::kJudge) {
      frame.emit(OpenPrediction{});
    } else {
      frame.emit(WatchExample{shown.next->step.block_index});
    }
  }
  const std::size_t at = showing != Showing::kNone ? 1 : 0;
  Rect go_slot = slots[at];
  if (!has_words && slots[at].y == slots[0].y) {
    go_slot.width = widths[at];
  }
  if (button(frame, go_slot, go)) {
    frame.emit(OpenBriefing{});
  }
  if (has_words) {
    text_middle(frame, slots.back(), state, words);
  }
}

}  // namespace

void lesson_page(Frame& frame, const Rect& page) {
  const ShelfLesson* shown = open_lesson(frame);
  if (shown == nullptr) {
    nothing_to_show(frame, page);
    return;
  }
  Rect rest = page;
  const ShelfSet& set = frame.model.shelf[frame.model.place.set];
  const std::string set_title =
      set.set != nullptr ? in_language(set.set->title) : std::string(tr(Str::kOwnLessons));
  const std::array ways{quiet_button(Str::kToShelf)};
  const PageBar bar = page_bar(frame, rest, set_title, ways);
  if (bar.pressed == 0) {
    frame.emit(GoToShelf{});
  }
  text_middle(frame, bar.title, strong(frame), set_title);
  lesson_foot(frame, rest, *shown);

  const ScrolledPage scrolled = begin_page(frame, "lesson", rest);
  Rect column = scrolled.column;
  TextStyle title{frame.fonts.title, frame.colors.text, Align::kLeft, Role::kHeading};
  cut_top(column,
          text(frame, column, title, in_language(shown->lesson->title)) + frame.px(kGapSmall_px));
  cut_top(column, unfinished_banner(frame, column));
  const float gap = frame.px(kGapPage_px);
  float used = 0.0F;
  if (column.width < frame.px(760.0F)) {
    const float upper = doing_column(frame, column, *shown) + frame.px(kGap_px);
    Rect lower = column;
    cut_top(lower, upper);
    used = upper + teaching_column(frame, lower, *shown);
  } else {
    const Rect left = cut_left(column, 0.56F * (column.width - gap));
    cut_left(column, gap);
    used = teaching_column(frame, left, *shown);
    used = std::max(used, doing_column(frame, column, *shown));
  }
  end_page(frame, scrolled, column.y + used + frame.px(kGapLarge_px));
}

}  // namespace driftbench::ui
