#include "ui/shelf_sets.h"

#include "ui/course_words.h"
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/widgets.h"

namespace driftbench::ui {

namespace {

constexpr float kCardLeast_px = 290.0F;
constexpr std::size_t kMostColumns = 4;

Rgb state_color(const Frame& frame, lesson::LessonState state) {
  switch (state) {
    case lesson::LessonState::kPassed:
    case lesson::LessonState::kFinished:
      return frame.colors.good;
    case lesson::LessonState::kNotPassed:
    case lesson::LessonState::kDueAgain:
      return frame.colors.warn;
    case lesson::LessonState::kNotBegun:
    case lesson::LessonState::kWaiting:
    case lesson::LessonState::kGoingOn:
      break;
  }
  return frame.colors.muted;
}

// A sign before the words, so that nothing rests on colour.
std::string_view state_sign(lesson::LessonState state) {
  switch (state) {
    case lesson::LessonState::kPassed:
    case lesson::LessonState::kFinished:
      return "\xE2\x9C\x93  ";
    case lesson::LessonState::kNotPassed:
    case lesson::LessonState::kDueAgain:
      return "\xE2\x96\xB3  ";
    case lesson::LessonState::kNotBegun:
    case lesson::LessonState::kWaiting:
    case lesson::LessonState::kGoingOn:
      break;
  }
  return "";
}

Str way_in(const ShelfLesson& shown, bool is_next) {
  if (shown.state == lesson::LessonState::kGoingOn ||
      shown.state == lesson::LessonState::kDueAgain) {
    return Str::kGoOn;
  }
  return is_next || shown.state == lesson::LessonState::kNotBegun ? Str::kBegin : Str::kLook;
}

float title_height(const Frame& frame, const ShelfLesson& shown, float width) {
  return text_size(frame.fonts.lead, in_language(shown.lesson->title),
                   width - 2.0F * frame.px(kGap_px))
      .y;
}

float card_height(const Frame& frame, float title) {
  return 2.0F * frame.px(14.0F) + title + frame.px(4.0F + 22.0F + 22.0F + 12.0F + kButtonSmall_px);
}

void lesson_card(Frame& frame, const Rect& box, Place place, const ShelfLesson& shown,
                 bool is_next) {
  card(frame, box);
  if (is_next) {
    ImGui::GetWindowDrawList()->AddRect({box.x, box.y}, {box.x + box.width, box.y + box.height},
                                        color_of(frame.colors.accent), frame.px(kRadius_px), 0,
                                        frame.px(2.0F));
  }
  Rect inner = inset(box, frame.px(kGap_px), frame.px(14.0F));
  Rect foot = cut_bottom(inner, frame.px(kButtonSmall_px));
  const std::string& title = in_language(shown.lesson->title);
  TextStyle name = lead(frame);
  if (shown.state == lesson::LessonState::kWaiting) {
    name.color = frame.colors.muted;
  }
  cut_top(inner, text(frame, inner, name, title) + frame.px(4.0F));
  TextStyle minutes = caption(frame);
  text(frame, cut_top(inner, frame.px(22.0F)), minutes, say(Str::kMinutes, shown.lesson->minutes));
  TextStyle state{frame.fonts.caption_strong, state_color(frame, shown.state)};
  text(frame, inner, state, std::string(state_sign(shown.state)) + state_words(shown));

  Button open{std::string(tr(way_in(shown, is_next)))};
  open.kind = is_next ? ButtonKind::kPrimary : ButtonKind::kNormal;
  open.name = title + ": " + open.label;
  open.id = "lesson " + std::to_string(place.set) + " " + std::to_string(place.entry);
  const float width = std::max(frame.px(104.0F), button_width(frame, open));
  if (button(frame, cut_left(foot, width), open)) {
    frame.emit(OpenLesson{place});
  }
}

// The set that is worked on: one with a lesson in hand, else the first with something to do.
std::size_t set_in_hand(const std::vector<ShelfSet>& shelf) {
  std::size_t first = shelf.size();
  for (std::size_t i = shelf.size(); i-- > 0;) {
    if (!shelf[i].next.has_value()) {
      continue;
    }
    const lesson::LessonState state = shelf[i].lessons[*shelf[i].next].state;
    if (state == lesson::LessonState::kGoingOn || state == lesson::LessonState::kDueAgain) {
      return i;
    }
    first = i;
  }
  return first;
}

std::string set_state(const ShelfSet& shown) {
  if (shown.set == nullptr) {
    return {};
  }
  if (shown.is_finished) {
    return std::string(tr(Str::kSetFinished));
  }
  return shown.wait_days.has_value() && !shown.next.has_value()
             ? say(Str::kSetWaits, wait_words(*shown.wait_days))
             : std::string();
}

}  // namespace

float set_row(Frame& frame, Rect column, std::size_t set_index) {
  const ShelfSet& shown = frame.model.shelf[set_index];
  const bool is_in_hand = set_index == set_in_hand(frame.model.shelf);
  const float start = column.y;
  const std::string title =
      shown.set != nullptr ? in_language(shown.set->title) : std::string(tr(Str::kOwnLessons));
  text(frame, cut_top(column, frame.px(kHeading_px + 6.0F)), heading(frame), title);
  if (shown.set != nullptr) {
    const float wrap = std::min(column.width, frame.px(900.0F));
    TextStyle muted{frame.fonts.body, frame.colors.muted};
    cut_top(column, text(frame, {column.x, column.y, wrap, column.height}, muted,
                         in_language(shown.set->introduction)));
  }
  if (const std::string state = set_state(shown); !state.empty()) {
    TextStyle style = strong(frame);
    style.role = Role::kStatus;
    cut_top(column, text(frame, column, style, state));
  }
  cut_top(column, frame.px(12.0F));

  const float gap = frame.px(kGap_px);
  const auto fitting =
      static_cast<std::size_t>((column.width + gap) / (frame.px(kCardLeast_px) + gap));
  const std::size_t columns = std::clamp<std::size_t>(fitting, 1, kMostColumns);
  const float width =
      (column.width - gap * static_cast<float>(columns - 1)) / static_cast<float>(columns);
  for (std::size_t first = 0; first < shown.lessons.size(); first += columns) {
    const std::size_t end = std::min(first + columns, shown.lessons.size());
    float highest = 0.0F;
    for (std::size_t i = first; i < end; ++i) {
      highest = std::max(highest, title_height(frame, shown.lessons[i], width));
    }
    Rect row = cut_top(column, card_height(frame, highest));
    for (std::size_t i = first; i < end; ++i) {
      lesson_card(frame, cut_left(row, width), {set_index, i}, shown.lessons[i],
                  is_in_hand && shown.next == i);
      cut_left(row, gap);
    }
    cut_top(column, gap);
  }
  return column.y - start;
}

}  // namespace driftbench::ui
