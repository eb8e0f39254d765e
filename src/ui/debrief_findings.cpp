// Right column of the debrief: five signed numbers in words, the verdict, why, and what next.
#include "base/text.h"
#include "lesson/guide_room.h"
#include "lesson/instruments.h"
#include "ui/debrief_parts.h"
#include "ui/explain_words.h"
#include "ui/implant_debrief.h"
#include "ui/jaw_findings.h"
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/widgets.h"
#include "ui/words.h"

#include <array>
#include <utility>

namespace driftbench::ui {

namespace {

/// One signed measure: what it is, its words, and its definition.
struct Finding {
  Str name;   ///< for assistive tools
  Str shown;  ///< beside the words
  std::string words;
  Str definition;
};

// A row that explains itself when pointed at or focused.
float finding_row(Frame& frame, const Rect& at, const Finding& finding, float name_width) {
  const float line = frame.fonts.strong.size_px;
  const float wrap = at.width - name_width;
  const float height =
      std::max(line, text_size(frame.fonts.strong, finding.words, wrap).y) + frame.px(7.0F);
  const Rect row{at.x, at.y, at.width, height};
  ScreenItem about;
  about.role = Role::kText;
  about.label = std::string(tr(finding.name)) + ": " + finding.words;
  about.description = tr(finding.definition);
  const Touch touch = item(frame, row, tr(finding.name), about);
  if (touch.hovered) {
    fill(frame, row, frame.colors.raised, kRadiusSmall_px);
  }
  TextStyle name = caption(frame);
  text(frame, {row.x, row.y + frame.px(4.0F), name_width, line}, name, tr(finding.shown));
  text(frame, {row.x + name_width, row.y + frame.px(2.0F), wrap, height}, strong(frame),
       finding.words);
  if (touch.focused) {
    focus_ring(frame, row, 4.0F);
  }
  tooltip(frame, touch, tr(finding.definition));
  return height;
}

// Which planned drills have not cut.
std::string missing_words(const Frame& frame) {
  std::vector<std::string> names;
  for (const std::int32_t index : frame.model.missing_drills) {
    if (const specimen::Drill* drill = lesson::item_at(frame.model.setup->kit.drills, index)) {
      names.push_back(figure(drill->diameter_mm, 1));
    }
  }
  return say(Str::kNotUsed, base::join(names, ", "));
}

// Whether the lengths of guided drills were those that the site sheet adds up to.
void add_length_words(const Frame& frame, std::vector<std::string>& lines) {
  const lesson::AttemptSetup& setup = *frame.model.setup;
  for (const record::WrongLength& wrong : frame.model.wrong_lengths) {
    if (const specimen::Drill* drill = lesson::item_at(setup.kit.drills, wrong.drill_index)) {
      lines.push_back(say(Str::kWrongLength, figure(drill->diameter_mm, 1),
                          figure(wrong.taken_mm, 1), figure(wrong.right_mm, 1)));
    }
  }
  const auto count = lesson::guided_lengths(setup).size();
  if (count > 0 && lines.empty()) {
    lines.push_back(say(Str::kRightLengths, count));
  }
}

// Inside or outside, in words with a sign that is a shape, and each reason.
float verdict(Frame& frame, const Rect& at) {
  const scoring::Results& results = *frame.model.results;
  const Palette& c = frame.colors;
  const bool is_whole = frame.model.missing_drills.empty();
  const bool inside = results.inside_tolerance && is_whole;
  const float pad = frame.px(12.0F);
  const float wrap = at.width - 2.0F * pad;
  TextStyle reason{frame.fonts.caption, c.text};
  const std::string title = std::string(inside ? "\xE2\x9C\x93  " : "\xE2\x96\xB3  ") +
                            std::string(tr(!is_whole ? Str::kIncomplete
                                           : inside  ? Str::kInside
                                                     : Str::kOutside));
  const float title_height =
      std::max(frame.px(25.0F), text_size(frame.fonts.strong, title, wrap).y + frame.px(4.0F));
  float height = frame.px(15.0F) + title_height;
  std::vector<std::string> lines;
  if (!is_whole) {
    lines.push_back(missing_words(frame));
    if (results.inside_tolerance) {
      lines.emplace_back(tr(Str::kInsideSoFar));
    }
  }
  if (is_whole) {
    add_length_words(frame, lines);
  }
  for (const scoring::Reason& why : results.reasons) {
    if (!is_jaw_event(why)) {
      lines.push_back(reason_words(why));
    }
  }
  for (std::string& line : jaw_findings(*frame.model.setup, results)) {
    lines.push_back(std::move(line));
  }
  for (const std::string& line : lines) {
    height += text_size(reason.face, line, wrap).y + frame.px(3.0F);
  }
  if (!lines.empty()) {
    height += frame.px(6.0F);
  }
  const Rect box{at.x, at.y, at.width, height};
  fill(frame, box, c.raised, kRadiusSmall_px);
  ImGui::GetWindowDrawList()->AddRectFilled({box.x, box.y},
                                            {box.x + frame.px(5.0F), box.y + box.height},
                                            color_of(inside ? c.good : c.warn), frame.px(3.0F));
  Rect inner = inset(box, pad, frame.px(9.0F));
  TextStyle style{frame.fonts.strong, inside ? c.good : c.warn, Align::kLeft, Role::kStatus};
  text(frame, cut_top(inner, title_height), style, title);
  for (const std::string& line : lines) {
    const float used = text(frame, inner, reason, line);
    cut_top(inner, used + frame.px(3.0F));
  }
  return height;
}

// A sentence about a moment takes the picture there when it is pressed.
float sentence_row(Frame& frame, const Rect& at, const Explanation& explanation,
                   std::size_t number) {
  const TextStyle style = body(frame);
  if (explanation.step < 0) {
    return text(frame, at, style, explanation.sentence);
  }
  const float height = text_size(style.face, explanation.sentence, at.width).y;
  const Rect row{at.x, at.y, at.width, height};
  ScreenItem about;
  about.role = Role::kButton;
  about.label = explanation.sentence;
  about.description = tr(Str::kGoToMoment);
  const Touch touch = item(frame, row, "why " + std::to_string(number), about);
  if (touch.hovered) {
    fill(frame, row, frame.colors.raised, 4.0F);
  }
  draw_wrapped(*ImGui::GetWindowDrawList(), style.face, style.color, {row.x, row.y}, row.width,
               explanation.sentence);
  if (touch.focused) {
    focus_ring(frame, row, 4.0F);
  }
  tooltip(frame, touch, tr(Str::kGoToMoment));
  if (touch.pressed) {
    frame.emit(ScrubTo{explanation.step});
  }
  return height;
}

float why(Frame& frame, Rect at) {
  if (!frame.model.results->hole.has_value() && !frame.model.results->implant.has_value()) {
    return 0.0F;  // nothing moved what did not cut
  }
  const float start = at.y;
  text(frame, cut_top(at, frame.px(26.0F)), strong(frame), tr(Str::kWhy));
  std::vector<scoring::Moment> none;
  const auto sentences = explain_words(frame.model.moments != nullptr ? *frame.model.moments : none,
                                       *frame.model.setup, *frame.model.results);
  for (std::size_t i = 0; i < sentences.size(); ++i) {
    cut_top(at, sentence_row(frame, at, sentences[i], i) + frame.px(7.0F));
  }
  return at.y - start;
}

std::vector<Finding> findings_of(const Frame& frame) {
  const SiteWords words = site_words(*frame.model.setup);
  const scoring::Results& results = *frame.model.results;
  const scoring::Deviation& d = *measured_deviation(results);
  const double depth_mm = measured_depth_error_mm(results);
  std::vector<Finding> all{
      {Str::kEntry, Str::kEntry, along_md(words, d.entry_md_mm), Str::kDefineEntryMd},
      {Str::kEntryAcross, Str::kAcross, along_bl(words, d.entry_bl_mm), Str::kDefineEntryBl},
      {Str::kDepth, Str::kDepth, depth_words(depth_mm), Str::kDefineDepth},
      {Str::kLean, Str::kLean, lean_md(words, d.tilt_md_deg), Str::kDefineLeanMd},
      {Str::kLeanAcross, Str::kAcross, lean_bl(words, d.tilt_bl_deg), Str::kDefineLeanBl}};
  // A narrow drill may have gone deeper than the floor that counts.
  constexpr double kWorthSaying_mm = 0.25;
  if (results.process.plunge_mm > std::max(depth_mm, 0.0) + kWorthSaying_mm) {
    const specimen::BlockSpec* block = specimen::block_in(frame.model.setup->specimen);
    const bool is_through =
        block != nullptr && results.process.deepest_shoulder_mm > block->edge_mm;
    all.insert(all.begin() + 3, {Str::kDeepest, Str::kDeepest,
                                 is_through ? std::string(tr(Str::kThroughBlock))
                                            : depth_words(results.process.plunge_mm),
                                 Str::kDefineDeepest});
  }
  return all;
}

float own_judgement(Frame& frame, const Rect& at) {
  const scoring::Deviation* measured = measured_deviation(*frame.model.results);
  if (!frame.model.estimate.has_value() || measured == nullptr) {
    return 0.0F;
  }
  const scoring::SelfEstimate& own = *frame.model.estimate;
  const scoring::Deviation& d = *measured;
  const double du = own.entry_md_mm - d.entry_md_mm;
  const double dv = own.entry_bl_mm - d.entry_bl_mm;
  constexpr std::array kLevels{Str::kSaidLow, Str::kSaidMiddle, Str::kSaidHigh};
  const auto level = static_cast<std::size_t>(std::clamp(own.confidence, 0, 2));
  const std::string sentence =
      say(Str::kOwnJudgement, base::fixed(std::sqrt(du * du + dv * dv), 1), tr(kLevels[level]));
  return text(frame, at, caption(frame), sentence) + frame.px(8.0F);
}

}  // namespace

void debrief_ways(Frame& frame, Rect row, bool with_compare) {
  const float gap = frame.px(kGapSmall_px);
  const float parts = with_compare ? 3.0F : 2.0F;
  const float width = (row.width - (parts - 1.0F) * gap) / parts;
  const ShelfLesson* open = open_lesson(frame);
  const bool is_same = open != nullptr && open->next.has_value() && !open->next->is_retention &&
                       open->next->step.block_index == frame.model.block_index;
  Button again{std::string(tr(Str::kAgain))};
  again.kind = is_same ? ButtonKind::kPrimary : ButtonKind::kNormal;
  again.description = tr(Str::kAgainHelp);
  again.enabled = open != nullptr && (is_same || (open->is_choice_free && !frame.model.is_locked));
  Button next{std::string(tr(Str::kNext))};
  next.kind = is_same || open == nullptr ? ButtonKind::kNormal : ButtonKind::kPrimary;
  next.description = tr(Str::kNextHelp);
  next.enabled = open != nullptr;
  if (button(frame, cut_left(row, width), again)) {
    frame.emit(Again{});
  }
  cut_left(row, gap);
  if (button(frame, cut_left(row, width), next)) {
    frame.emit(GoOn{});
  }
  if (!with_compare) {
    return;
  }
  cut_left(row, gap);
  Button compare{std::string(tr(Str::kCompare))};
  compare.description = tr(Str::kCompareHelp);
  if (button(frame, row, compare)) {
    frame.state.debrief.compare_open = !frame.state.debrief.compare_open;
  }
}

float findings_column(Frame& frame, Rect inner) {
  const float top = inner.y;
  if (measured_deviation(*frame.model.results) != nullptr) {
    float name_width = 0.0F;
    const auto findings = findings_of(frame);
    for (const Finding& finding : findings) {
      name_width = std::max(name_width, text_size(frame.fonts.caption, tr(finding.shown)).x);
    }
    for (const Finding& finding : findings) {
      cut_top(inner, finding_row(frame, inner, finding, name_width + frame.px(12.0F)));
    }
    cut_top(inner, frame.px(8.0F));
    cut_top(inner, verdict(frame, inner) + frame.px(12.0F));
  } else {
    const std::string& reason = frame.model.results->no_hole_reason;
    cut_top(inner, text(frame, inner, body(frame),
                        reason.empty() ? std::string(tr(Str::kNoHole)) : in_language(reason)) +
                       frame.px(12.0F));
  }
  // The implant's torque is the news of its attempt; without one the loads come last.
  const bool has_implant = frame.model.results->implant.has_value();
  if (has_implant) {
    cut_top(inner, loads(frame, inner) + frame.px(8.0F));
  }
  cut_top(inner, why(frame, inner));
  cut_top(inner, own_judgement(frame, inner));
  if (!has_implant) {
    cut_top(inner, loads(frame, inner) + frame.px(8.0F));
  }
  return inner.y - top;
}

void debrief_findings(Frame& frame, Rect column) {
  card(frame, column);
  column = inset(column, frame.px(kGap_px), frame.px(12.0F));
  debrief_ways(frame, cut_bottom(column, frame.px(kButton_px)), true);
  cut_bottom(column, frame.px(12.0F));

  // Longer than the room on small screens: then it scrolls.
  ImGui::SetCursorScreenPos({column.x, column.y});
  begin_scroll("findings", {column.width + frame.px(10.0F), column.height});
  const ImVec2 start = ImGui::GetCursorScreenPos();
  const float margin = frame.px(4.0F);  // room for the focus ring
  const float used = findings_column(
      frame, {start.x + margin, start.y + margin, column.width - frame.px(12.0F), 10000.0F});
  ImGui::SetCursorScreenPos(start);
  ImGui::Dummy({1.0F, margin + used});
  end_scroll(frame, frame.colors.surface);
}

}  // namespace driftbench::ui
