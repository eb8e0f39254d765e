// Pages of words: what was collected and left out, critical events, report files.
#include "classroom_ui/frame.h"
#include "classroom_ui/scroll.h"
#include "classroom_ui/strings.h"

#include "classroom/outputs.h"
#include "classroom/summary_json.h"
#include "classroom/views.h"
#include "classroom/words.h"

#include <algorithm>
#include <array>
#include <tuple>

namespace driftbench::classroom_ui {
namespace {

using classroom::Counts;
using classroom::Entry;
using classroom::Roster;
using classroom::Standing;
using ui::Button;
using ui::Rect;

constexpr std::size_t kMaxListed = 100;

void count_line(Frame& frame, Column& column, std::size_t count, Str words) {
  if (count == 0) {
    return;
  }
  Rect row = column.cut(frame.px(30.0F));
  ui::TextStyle number = ui::strong(frame);
  number.align = ui::Align::kRight;
  const Rect box = ui::cut_left(row, frame.px(70.0F));
  ui::cut_left(row, frame.px(14.0F));
  // One entry for assistive tools: the number with its words.
  const std::string figure = std::to_string(count);
  ui::draw_text(number.face, number.color,
                {box.x + box.width - ui::text_size(number.face, figure).x, box.y}, figure);
  ui::draw_text(frame.fonts.body, frame.colors.text, {row.x, row.y}, tr(words));
  frame.items.add_text(ui::Role::kText, figure + " " + std::string(tr(words)),
                       {box.x, box.y, box.width + row.width, row.height});
}

void left_out(Frame& frame, Column& column, const Roster& roster) {
  std::vector<std::string> sentences;
  for (const Entry& entry : roster.entries) {
    if (!entry.counts() && !entry.reasons.empty()) {
      sentences.push_back(entry.file + ": " + classroom::reasons_text(entry));
    }
  }
  sentences.insert(sentences.end(), roster.refused.items.begin(), roster.refused.items.end());
  column.words(ui::lead(frame), tr(Str::kLeftOut));
  if (sentences.empty()) {
    column.words(ui::body(frame), tr(Str::kNothingLeftOut));
  }
  for (std::size_t i = 0; i < std::min(sentences.size(), kMaxListed); ++i) {
    column.words(ui::body(frame), sentences[i]);
  }
  if (sentences.size() > kMaxListed) {
    column.words(ui::body(frame), say(Str::kMore, sentences.size() - kMaxListed));
  }
}

/// A button and what it is about.
bool row_with_words(Frame& frame, Column& column, const Button& spec, Str about) {
  Rect row = column.cut(frame.px(ui::kButton_px));
  const bool is_pressed = ui::button(frame, ui::cut_left(row, ui::button_width(frame, spec)), spec);
  ui::cut_left(row, frame.px(ui::kGap_px));
  ui::text_middle(frame, row, ui::body(frame), tr(about));
  column.gap(8.0F);
  return is_pressed;
}

/// Forgetting a class takes a second press on the same button.
void start_over(Frame& frame, Column& column) {
  bool& is_armed = frame.state.is_start_over_armed;
  Button spec{std::string(tr(is_armed ? Str::kStartOverReally : Str::kStartOver))};
  spec.kind = is_armed ? ui::ButtonKind::kDanger : ui::ButtonKind::kNormal;
  spec.description = tr(Str::kStartOverHelp);
  spec.id = "start over";
  const Rect row = column.cut(frame.px(ui::kButton_px));
  if (ui::button(frame, {row.x, row.y, ui::button_width(frame, spec), row.height}, spec)) {
    if (is_armed) {
      frame.emit(StartOver{});
    }
    is_armed = !is_armed;
  } else if (is_armed && !ImGui::IsItemHovered() && ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
    is_armed = false;
  }
}

}  // namespace

void collected_page(Frame& frame, const Rect& room) {
  Column column(frame, "collected", room);
  const Roster& roster = *frame.model.roster;
  const Counts counts = classroom::counts_of(roster);
  column.words(ui::heading(frame), tr(Str::kPageCollected), 12.0F);
  count_line(frame, column, counts.of(Standing::kEqual), Str::kCountEqual);
  count_line(frame, column, counts.of(Standing::kUnchecked), Str::kCountUnchecked);
  count_line(frame, column, counts.of(Standing::kTableRow), Str::kCountTable);
  count_line(frame, column, counts.of(Standing::kOtherEngine), Str::kCountOtherEngine);
  count_line(frame, column, counts.of(Standing::kDiffers), Str::kCountDiffers);
  count_line(frame, column, counts.other_lesson, Str::kCountOtherLesson);
  count_line(frame, column, roster.refused.count, Str::kCountRefused);
  count_line(frame, column, roster.notes.count, Str::kCountTwice);
  column.gap(ui::kGapLarge_px);
  left_out(frame, column, roster);
  column.gap(ui::kGap_px);
  column.words({frame.fonts.body, frame.colors.muted}, tr(Str::kProves), ui::kGapLarge_px);
  if (row_with_words(frame, column, {std::string(tr(Str::kPasteCode)), "V"}, Str::kPasteCodeHelp) ||
      ui::key_hit(ImGuiKey_V)) {
    frame.emit(PasteCode{});
  }
  column.gap(8.0F);
  if (row_with_words(frame, column, {std::string(tr(Str::kMeasureBlock)), "B"},
                     Str::kMeasureBlockHelp) ||
      ui::key_hit(ImGuiKey_B)) {
    frame.emit(MeasureBlock{});
  }
  column.gap(8.0F);
  start_over(frame, column);
  column.gap(ui::kGap_px);
}

void events_page(Frame& frame, const Rect& room) {
  Column column(frame, "events", room);
  column.words(ui::heading(frame), tr(Str::kPageEvents), 12.0F);
  const classroom::Part* part = shown_part(frame);
  if (part == nullptr) {
    column.words(ui::body(frame), tr(Str::kNothingLeft));
    return;
  }
  const std::vector<classroom::EventRow> events =
      classroom::critical_events(*frame.model.whole, *part);
  if (events.empty()) {
    column.words(ui::body(frame), tr(Str::kNoEvents));
  }
  const ui::TextStyle style = frame.state.is_one_at_a_time ? ui::lead(frame) : ui::body(frame);
  for (std::size_t i = 0; i < std::min(events.size(), kMaxListed); ++i) {
    const classroom::EventRow& event = events[i];
    column.words({style.face, style.color},
                 say(Str::kEventLine, event.learner, event.approach, event.attempt, event.what));
  }
  if (events.size() > kMaxListed) {
    column.words(ui::body(frame), say(Str::kMore, events.size() - kMaxListed));
  }
}

void files_page(Frame& frame, const Rect& room) {
  constexpr std::array kAbout{Str::kAboutReport,   Str::kAboutHoles,   Str::kAboutLearners,
                              Str::kAboutCodebook, Str::kAboutMethods, Str::kAboutSummary};
  static_assert(kAbout.size() == std::tuple_size_v<decltype(classroom::kOutputs)>);
  Column column(frame, "files", room);
  const Model& model = frame.model;
  column.words(ui::heading(frame), tr(Str::kPageFiles), 12.0F);
  column.words(ui::body(frame), tr(Str::kFilesIntro));
  const bool has_names = model.has_names && !model.are_names_hidden;
  column.words(ui::body(frame), tr(has_names ? Str::kFilesWithNames : Str::kFilesWithoutNames));
  const std::size_t unchecked = classroom::counts_of(*model.roster).of(Standing::kUnchecked);
  if (unchecked > 0) {
    column.words({frame.fonts.strong, frame.colors.warn}, say(Str::kFilesUnchecked, unchecked));
  }
  column.gap(8.0F);
  float width = 0.0F;
  for (const classroom::Output& output : classroom::kOutputs) {
    width = std::max(width, ui::button_width(frame, {say(Str::kSave, output.name)}));
  }
  for (std::size_t i = 0; i < classroom::kOutputs.size(); ++i) {
    Button save{say(Str::kSave, classroom::kOutputs[i].name)};
    save.kind = i == 0 ? ui::ButtonKind::kPrimary : ui::ButtonKind::kNormal;
    Rect row = column.cut(frame.px(ui::kButton_px));
    if (ui::button(frame, ui::cut_left(row, width + frame.px(ui::kGap_px)), save)) {
      frame.emit(SaveOutput{i});
    }
    ui::cut_left(row, frame.px(ui::kGap_px));
    ui::text_middle(frame, row, ui::body(frame), tr(kAbout[i]));
    column.gap(8.0F);
  }
  column.gap(ui::kGap_px);
  column.words(ui::lead(frame), tr(Str::kOneAttendee));
  if (row_with_words(frame, column, {std::string(tr(Str::kMakeRecord))}, Str::kAboutRecord)) {
    frame.emit(MakeRecord{});
  }
}

void replay_page(Frame& frame, const Rect& room) {
  Column column(frame, "replay", room);
  column.words(ui::heading(frame), tr(Str::kPageReplay), 12.0F);
  column.words(ui::body(frame), tr(Str::kReplayIntro), ui::kGap_px);
  const Roster& roster = *frame.model.roster;
  const bool has_records = std::any_of(roster.entries.begin(), roster.entries.end(),
                                       [](const Entry& entry) { return entry.is_record(); });
  if (!has_records) {
    column.words(ui::body(frame), tr(Str::kReplayNone));
    return;
  }
  Button choose{std::string(tr(Str::kReplayChoose)), "R"};
  choose.kind = ui::ButtonKind::kPrimary;
  choose.description = tr(Str::kReplayHelp);
  const Rect row = column.cut(frame.px(ui::kButton_px));
  if (ui::button(frame, {row.x, row.y, ui::button_width(frame, choose), row.height}, choose) ||
      ui::key_hit(ImGuiKey_R)) {
    frame.emit(ReplayTogether{});
  }
}

}  // namespace driftbench::classroom_ui
