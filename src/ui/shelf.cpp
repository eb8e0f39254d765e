// The shelf: lessons with the one next thing to do, stored attempts, and the caution.
#include "specimen/tooth_number.h"
#include "ui/panels.h"
#include "ui/saved_list.h"
#include "ui/strings.h"
#include "ui/widgets.h"
#include "ui/words.h"

namespace driftbench::ui {

namespace {

int finished(const ShelfLesson& shown, std::size_t block) {
  return block < shown.finished_per_block.size() ? shown.finished_per_block[block] : 0;
}

// First block with attempts left; the first one when all are done.
std::size_t next_block(const ShelfLesson& shown) {
  for (std::size_t i = 0; i < shown.lesson->blocks.size(); ++i) {
    if (finished(shown, i) < shown.lesson->blocks[i].attempts) {
      return i;
    }
  }
  return 0;
}

// Filled and hollow dots: attempts done and to do.
void progress_dots(const Frame& frame, ImVec2 at, int done, int all) {
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
}

void block_tile(Frame& frame, const Rect& tile, const ShelfLesson& shown, std::size_t lesson_index,
                std::size_t block_index) {
  const lesson::LessonBlock& block = shown.lesson->blocks[block_index];
  const bool is_next = block_index == next_block(shown);
  const int done = finished(shown, block_index);
  fill(frame, tile, frame.colors.raised, kRadius_px);
  if (is_next) {
    ImGui::GetWindowDrawList()->AddRect(
        {tile.x, tile.y}, {tile.x + tile.width, tile.y + tile.height},
        color_of(frame.colors.accent), frame.px(kRadius_px), 0, frame.px(2.0F));
  }
  Rect inner = inset(tile, frame.px(kGap_px));
  const std::string title = approach_words(block.approach, block.implant_through_guide);
  text(frame, cut_top(inner, frame.px(28.0F)), lead(frame), title);
  const Str about =
      block.approach == specimen::Approach::kFreehand ? Str::kAboutFreehand : Str::kAboutGuided;
  Rect bottom = cut_bottom(inner, frame.px(kButton_px));
  cut_bottom(inner, frame.px(10.0F));
  const Rect dots = cut_bottom(inner, frame.px(22.0F));
  TextStyle muted{frame.fonts.body, frame.colors.muted};
  text(frame, inner, muted, tr(about));

  const float dots_width = frame.px(15.0F) * static_cast<float>(std::max(done, block.attempts));
  progress_dots(frame, {dots.x, dots.y + 0.5F * dots.height}, done, block.attempts);
  text_middle(frame,
              {dots.x + dots_width + frame.px(8.0F), dots.y,
               dots.width - dots_width - frame.px(8.0F), dots.height},
              caption(frame), say(Str::kDoneOf, done, block.attempts));

  Button start{done == 0 ? std::string(tr(Str::kBegin)) : say(Str::kContinueWith, done + 1)};
  if (done >= block.attempts) {
    start.label = tr(Str::kOnceMore);
  }
  start.kind = is_next ? ButtonKind::kPrimary : ButtonKind::kNormal;
  start.name = title + ": " + start.label;
  start.id = shown.lesson->id + block.id;
  if (button(frame, cut_left(bottom, std::max(frame.px(150.0F), button_width(frame, start))),
             start)) {
    frame.emit(OpenBriefing{lesson_index, block_index});
  }
}

constexpr float kTile_px = 188.0F;

// What the lesson is for: one line a goal, hung on a dot.
float objectives(Frame& frame, Rect column, const lesson::Lesson& shown, bool draw) {
  if (shown.objectives.empty()) {
    return 0.0F;
  }
  const float start = column.y;
  const float indent = frame.px(18.0F);
  cut_top(column, frame.px(kGapLarge_px));
  const Rect title = cut_top(column, frame.px(28.0F));
  if (draw) {
    text(frame, title, strong(frame), tr(Str::kPractise));
  }
  TextStyle muted{frame.fonts.body, frame.colors.muted};
  for (const lesson::LocalText& goal : shown.objectives) {
    const std::string& words = lesson::text_in(goal, frame.model.language);
    const float height = text_size(muted.face, words, column.width - indent).y;
    const Rect row = cut_top(column, height);
    cut_top(column, frame.px(6.0F));
    if (draw) {
      ImGui::GetWindowDrawList()->AddCircleFilled(
          {row.x + frame.px(5.0F), row.y + 0.5F * muted.face.size_px}, frame.px(3.0F),
          color_of(frame.colors.outline));
      text(frame, {row.x + indent, row.y, row.width - indent, height}, muted, words);
    }
  }
  return column.y - start;
}

float lesson_height(Frame& frame, const ShelfLesson& shown, float width) {
  const float wrap = width - 2.0F * frame.px(kGapLarge_px);
  const float question =
      text_size(frame.fonts.body, lesson::text_in(shown.lesson->question, frame.model.language),
                wrap)
          .y;
  const auto rows = static_cast<float>((shown.lesson->blocks.size() + 1) / 2);
  return frame.px(2.0F * kGapLarge_px + kHeading_px + 6.0F + kGap_px) + question +
         rows * frame.px(kTile_px) + (rows - 1.0F) * frame.px(kGap_px) +
         objectives(frame, {0.0F, 0.0F, wrap, 100000.0F}, *shown.lesson, false);
}

void lesson_card(Frame& frame, const Rect& box, const ShelfLesson& shown,
                 std::size_t lesson_index) {
  card(frame, box);
  Rect inner = inset(box, frame.px(kGapLarge_px));
  Rect head = cut_top(inner, frame.px(kHeading_px + 6.0F));
  TextStyle minutes = caption(frame);
  minutes.align = Align::kRight;
  const std::string time = say(Str::kMinutes, shown.lesson->minutes);
  text_middle(frame, cut_right(head, text_size(minutes.face, time).x + frame.px(4.0F)), minutes,
              time);
  text(frame, head, heading(frame), lesson::text_in(shown.lesson->title, frame.model.language));
  const float used = text(frame, inner, body(frame),
                          lesson::text_in(shown.lesson->question, frame.model.language));
  cut_top(inner, used + frame.px(kGap_px));
  const float gap = frame.px(kGap_px);
  const float width = 0.5F * (inner.width - gap);
  for (std::size_t i = 0; i < shown.lesson->blocks.size(); ++i) {
    const auto row = static_cast<float>(i / 2);
    const Rect tile{inner.x + (i % 2 == 0 ? 0.0F : width + gap),
                    inner.y + row * (frame.px(kTile_px) + gap), width, frame.px(kTile_px)};
    block_tile(frame, tile, shown, lesson_index, i);
  }
  const auto rows = static_cast<float>((shown.lesson->blocks.size() + 1) / 2);
  cut_top(inner, rows * frame.px(kTile_px) + (rows - 1.0F) * gap);
  static_cast<void>(objectives(frame, inner, *shown.lesson, true));
}

float unfinished_banner(Frame& frame, const Rect& at) {
  if (!frame.model.unfinished.has_value()) {
    return 0.0F;
  }
  const Unfinished& open = *frame.model.unfinished;
  const Rect box{at.x, at.y, at.width, frame.px(76.0F)};
  card(frame, box);
  ImGui::GetWindowDrawList()->AddRectFilled({box.x, box.y},
                                            {box.x + frame.px(6.0F), box.y + box.height},
                                            color_of(frame.colors.warn), frame.px(3.0F));
  Rect inner = inset(box, frame.px(kGap_px), frame.px(14.0F));
  Button resume{std::string(tr(Str::kResume))};
  resume.kind = ButtonKind::kPrimary;
  Button discard{std::string(tr(Str::kDiscard))};
  discard.kind = ButtonKind::kDanger;
  const Rect right = cut_right(inner, button_width(frame, discard));
  cut_right(inner, frame.px(kGapSmall_px));
  const Rect left = cut_right(inner, button_width(frame, resume));
  cut_right(inner, frame.px(kGap_px));
  const float height = frame.px(kButton_px);
  const float y = inner.y + 0.5F * (inner.height - height);
  TextStyle style = body(frame);
  style.role = Role::kStatus;
  text_middle(frame, inner, style,
              say(Str::kUnfinished, open.title, open.when, static_cast<int>(open.seconds)));
  if (button(frame, {left.x, y, left.width, height}, resume)) {
    frame.emit(ResumeUnfinished{});
  }
  if (button(frame, {right.x, y, right.width, height}, discard)) {
    frame.emit(DiscardUnfinished{});
  }
  return box.height + frame.px(kGap_px);
}

// Pieces of jaw to study: one button each, in two columns where their titles fit.
float cases_card(Frame& frame, const Rect& at) {
  const std::vector<ShelfCase>& cases = frame.model.cases;
  if (cases.empty()) {
    return at.y;
  }
  const auto label = [](const ShelfCase& one) {
    return say(Str::kStudyCase, one.fdi, specimen::us_tooth_number(one.fdi), one.title);
  };
  float widest = 0.0F;
  for (const ShelfCase& one : cases) {
    widest = std::max(widest, text_size(frame.fonts.body, label(one)).x);
  }
  const float gap = frame.px(kGapSmall_px);
  const float wrap = at.width - 2.0F * frame.px(kGapLarge_px);
  const bool is_wide = widest + frame.px(2.0F * kGap_px) < 0.5F * (wrap - gap);
  const std::size_t columns = is_wide ? 2 : 1;
  const float row = frame.px(kButton_px) + gap;
  const auto rows = static_cast<float>((cases.size() + columns - 1) / columns);
  const float about = text_size(frame.fonts.body, tr(Str::kStudyAbout), wrap).y;
  const Rect box{
      at.x, at.y, at.width,
      frame.px(2.0F * kGapLarge_px + kHeading_px + 6.0F + kGap_px) + about + rows * row - gap};
  card(frame, box);
  Rect inner = inset(box, frame.px(kGapLarge_px));
  text(frame, cut_top(inner, frame.px(kHeading_px + 6.0F)), heading(frame), tr(Str::kStudyTitle));
  cut_top(inner, text(frame, inner, body(frame), tr(Str::kStudyAbout)) + frame.px(kGap_px));
  const float width = is_wide ? 0.5F * (inner.width - gap) : inner.width;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const Rect slot{inner.x + (i % columns == 0 ? 0.0F : width + gap),
                    inner.y + static_cast<float>(i / columns) * row, width, frame.px(kButton_px)};
    Button spec{label(cases[i])};
    spec.name = cases[i].title;
    if (button(frame, slot, spec)) {
      frame.emit(OpenStudy{i});
    }
  }
  return box.y + box.height;
}

void shelf_bar(Frame& frame, const Rect& bar) {
  Rect rest = top_bar(frame, bar);
  theme_switch(frame, rest);
  sound_switch(frame, rest);
  Button open{std::string(tr(Str::kOpenFile))};
  open.kind = ButtonKind::kQuiet;
  open.description = tr(Str::kOpenFileHelp);
  const Rect slot = cut_right(rest, button_width(frame, open));
  const float height = frame.px(kButtonSmall_px);
  if (button(frame, {slot.x, slot.y + 0.5F * (slot.height - height), slot.width, height}, open)) {
    frame.emit(OpenFile{});
  }
  text_middle(frame, rest, strong(frame), tr(Str::kAppName));
}

}  // namespace

void shelf(Frame& frame, const Rect& page) {
  Rect rest = page;
  shelf_bar(frame, cut_top(rest, frame.px(kTopBar_px)));
  const float caution_height =
      text_size(frame.fonts.caption, tr(Str::kCaution), rest.width - frame.px(2.0F * kGapPage_px))
          .y;
  Rect foot = cut_bottom(rest, caution_height + frame.px(20.0F));
  fill(frame, foot, frame.colors.surface, 0.0F);
  TextStyle caution = caption(frame);
  caution.align = Align::kCentre;
  text_middle(frame, inset(foot, frame.px(kGapPage_px), 0.0F), caution, tr(Str::kCaution));

  ImGui::SetCursorScreenPos({rest.x, rest.y});
  begin_scroll("shelf", {rest.width, rest.height});
  const ImVec2 start = ImGui::GetCursorScreenPos();
  Rect column = centred_column({start.x, start.y, rest.width, 100000.0F}, frame.px(1240.0F));
  column = inset(column, frame.px(kGapLarge_px), frame.px(kGap_px));
  TextStyle title{frame.fonts.title, frame.colors.text, Align::kLeft, Role::kHeading};
  cut_top(column, text(frame, column, title, tr(Str::kShelfTitle)) + frame.px(2.0F));
  TextStyle purpose{frame.fonts.body, frame.colors.muted};
  cut_top(column, text(frame, column, purpose, tr(Str::kPurpose)) + frame.px(14.0F));
  cut_top(column, unfinished_banner(frame, column));

  Rect side = cut_right(column, std::max(frame.px(300.0F), 0.32F * column.width));
  cut_right(column, frame.px(kGapLarge_px));
  float lessons_end = column.y;
  for (std::size_t i = 0; i < frame.model.shelf.size(); ++i) {
    const ShelfLesson& shown = frame.model.shelf[i];
    if (shown.lesson == nullptr) {
      continue;
    }
    const Rect box = cut_top(column, lesson_height(frame, shown, column.width));
    lesson_card(frame, box, shown, i);
    lessons_end = box.y + box.height;
    cut_top(column, frame.px(kGapLarge_px));
  }
  lessons_end = std::max(lessons_end, cases_card(frame, column));
  const float saved_end = saved_list(frame, side);
  ImGui::SetCursorScreenPos(start);
  ImGui::Dummy({1.0F, std::max(lessons_end, saved_end) - start.y + frame.px(kGap_px)});
  end_scroll(frame, frame.colors.page);
}

}  // namespace driftbench::ui
