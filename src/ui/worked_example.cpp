// A worked example: its simulation under way, then its replay with remarks that come as it reaches
// them.
#include "base/text.h"
#include "drilling/params.h"
#include "ui/course_words.h"
#include "ui/debrief_parts.h"
#include "ui/panels.h"
#include "ui/remark_words.h"
#include "ui/strings.h"
#include "ui/timeline.h"
#include "ui/widgets.h"

namespace driftbench::ui {

namespace {

std::string title_of(const Frame& frame) {
  const lesson::Lesson& lesson = *frame.model.lesson;
  return say(Str::kWatchPlace, in_language(lesson.title),
             in_language(lesson.blocks[frame.model.block_index].title));
}

/// The way on: to the learner's own attempt, or past the example.
void way_on(Frame& frame, const Rect& box, bool is_over) {
  const ShelfLesson* shown = open_lesson(frame);
  Button go{std::string(tr(Str::kWatchSkip))};
  if (is_over && shown != nullptr) {
    go.kind = ButtonKind::kPrimary;
    go.label = task_words(*shown);
    go.name = go.label;
    if (button_width(frame, go) > box.width) {
      go.label = tr(Str::kBegin);
    }
  }
  go.id = "way on";
  const float width =
      is_over ? box.width
              : std::min(box.width, std::max(frame.px(120.0F), button_width(frame, go)));
  if (button(frame, {box.x, box.y, width, box.height}, go)) {
    frame.emit(OpenBriefing{});
  }
}

void being_made(Frame& frame, const Rect& page) {
  const ExampleView& view = *frame.model.example;
  Rect column = inset(centred_column(page, frame.px(620.0F)), frame.px(kGapLarge_px), 0.0F);
  cut_top(column, 0.24F * column.height);
  TextStyle title{frame.fonts.title, frame.colors.text, Align::kLeft, Role::kHeading};
  cut_top(column,
          text(frame, column, title, say(Str::kWatchMaking, view.operator_name)) + frame.px(12.0F));
  TextStyle muted{frame.fonts.body, frame.colors.muted};
  cut_top(column, text(frame, column, muted, tr(Str::kWatchMakingWords)) + frame.px(kGapLarge_px));
  progress_track(frame, cut_top(column, frame.px(12.0F)), view.progress);
  cut_top(column, frame.px(8.0F));
  // In tens, so that a screen reader is not told every frame.
  constexpr double kTens = 10.0;
  TextStyle state = caption(frame);
  state.role = Role::kStatus;
  text(frame, cut_top(column, frame.px(24.0F)), state,
       say(Str::kShareDone, 10 * static_cast<int>(kTens * view.progress)));
  cut_top(column, frame.px(kGap_px));
  way_on(frame, cut_top(column, frame.px(kButton_px)), false);
}

/// A remark takes the replay to its moment when it is pressed.
float remark_row(Frame& frame, const Rect& at, const session::Remark& remark, std::size_t number,
                 bool is_now) {
  const std::string sentence = remark_words(remark, *frame.model.setup, *frame.model.results);
  const float time = frame.px(58.0F);
  const float pad = frame.px(8.0F);
  const TextStyle style = body(frame);
  const float wrap = at.width - time - 2.0F * pad;
  const float height = text_size(style.face, sentence, wrap).y + frame.px(10.0F);
  const Rect row{at.x, at.y, at.width, height};
  ScreenItem about;
  about.role = Role::kButton;
  about.label = sentence;
  about.description = tr(Str::kGoToMoment);
  const Touch touch = item(frame, row, "remark " + std::to_string(number), about);
  if (is_now || touch.hovered) {
    fill(frame, row, frame.colors.raised, kRadiusSmall_px);
  }
  if (is_now) {
    ImGui::GetWindowDrawList()->AddRectFilled({row.x, row.y},
                                              {row.x + frame.px(4.0F), row.y + row.height},
                                              color_of(frame.colors.accent), frame.px(2.0F));
  }
  const std::string when =
      say(Str::kSeconds, base::fixed(static_cast<double>(remark.step) * drilling::kStep_s, 1));
  draw_text(frame.fonts.caption, frame.colors.muted, {row.x + pad, row.y + frame.px(6.0F)}, when);
  draw_wrapped(*ImGui::GetWindowDrawList(), style.face, style.color,
               {row.x + pad + time, row.y + frame.px(5.0F)}, wrap, sentence);
  if (touch.focused) {
    focus_ring(frame, row, 4.0F);
  }
  if (touch.pressed) {
    frame.emit(ScrubTo{remark.step});
  }
  return height;
}

void remarks(Frame& frame, Rect column) {
  const ExampleView& view = *frame.model.example;
  card(frame, column);
  column = inset(column, frame.px(kGap_px), frame.px(12.0F));
  const bool is_over = view.reached_step >= frame.model.end_step;
  way_on(frame, cut_bottom(column, frame.px(kButton_px)), is_over);
  cut_bottom(column, frame.px(12.0F));
  Rect head = cut_top(column, frame.px(kButtonSmall_px));
  Button again{std::string(tr(Str::kWatchAgain)), {}, ButtonKind::kQuiet};
  again.enabled = frame.model.scrub_step > 0;
  if (button(frame, cut_right(head, button_width(frame, again)), again)) {
    frame.emit(ScrubTo{0});
    frame.emit(PlayReplay{true});
  }
  text_middle(frame, head, lead(frame), tr(Str::kWatchHeading));
  cut_top(column, frame.px(6.0F));

  ImGui::SetCursorScreenPos({column.x, column.y});
  begin_scroll("remarks", {column.width + frame.px(10.0F), column.height});
  const ImVec2 start = ImGui::GetCursorScreenPos();
  const float margin = frame.px(4.0F);
  Rect inner{start.x + margin, start.y + margin, column.width - frame.px(12.0F), 10000.0F};
  std::size_t said = 0;
  std::size_t now = 0;
  for (std::size_t i = 0; i < view.remarks.size(); ++i) {
    said += view.remarks[i].step <= view.reached_step ? 1U : 0U;
    now += view.remarks[i].step <= frame.model.scrub_step ? 1U : 0U;
  }
  for (std::size_t i = 0; i < said; ++i) {
    const bool is_now = i + 1 == now;
    cut_top(inner, remark_row(frame, inner, view.remarks[i], i, is_now) + frame.px(4.0F));
    if (is_now && frame.state.example.said != now) {
      // What is said now stays in sight.
      ImGui::SetScrollFromPosY(inner.y + frame.px(kGapLarge_px) - ImGui::GetWindowPos().y, 1.0F);
      frame.state.example.said = now;
    }
  }
  if (said < view.remarks.size()) {
    TextStyle muted{frame.fonts.caption, frame.colors.muted};
    cut_top(inner, text(frame, inner, muted, tr(Str::kWatchStill)));
  }
  ImGui::SetCursorScreenPos(start);
  // The shade at the lower edge stays below the last one.
  ImGui::Dummy({1.0F, inner.y - start.y + frame.px(kGapLarge_px)});
  end_scroll(frame, frame.colors.surface);
}

}  // namespace

void worked_example(Frame& frame, const Rect& page) {
  const Model& model = frame.model;
  if (model.example == nullptr || model.lesson == nullptr) {
    nothing_to_show(frame, page);
    return;
  }
  Rect rest = page;
  leave_bar(frame, rest, title_of(frame));
  if (!model.example->is_ready || model.setup == nullptr || model.results == nullptr) {
    being_made(frame, rest);
    return;
  }
  rest = inset(rest, frame.px(kGap_px), frame.px(12.0F));
  const float gap = frame.px(kGap_px);
  const auto show_look = [&](Rect look) {
    text(frame, cut_top(look, frame.px(24.0F)), strong(frame), tr(Str::kWatchLook));
    frame.rects.front = look;
    picture(frame, look, model.front, tr(Str::kWatchLook), {});
  };
  // A phone has room for the look and the words, one below the other; the sections come with the
  // learner's own hole.
  constexpr float kPhone_px = 640.0F;
  constexpr float kPhoneTimeline_px = 232.0F;
  if (page.width < frame.px(kPhone_px)) {
    show_look(cut_top(rest, 0.33F * rest.height));
    cut_top(rest, frame.px(12.0F));
    timeline(frame, cut_top(rest, frame.px(kPhoneTimeline_px)));
    cut_top(rest, frame.px(12.0F));
    remarks(frame, rest);
    return;
  }
  remarks(frame,
          cut_right(rest, std::clamp(0.33F * rest.width, frame.px(320.0F), frame.px(460.0F))));
  cut_right(rest, gap);
  const Rect strip = cut_bottom(rest, timeline_height(frame, rest.height));
  cut_bottom(rest, frame.px(12.0F));
  show_look(cut_left(rest, 0.56F * (rest.width - gap)));
  cut_left(rest, gap);
  // Where the hole ends up is shown when it is there.
  debrief_sections(frame, rest, model.scrub_step >= model.end_step ? model.results : nullptr);
  timeline(frame, strip);
}

}  // namespace driftbench::ui
