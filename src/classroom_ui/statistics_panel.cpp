// What the class says, in words: the sentence first, its interval first, tests last.
#include "classroom_ui/frame.h"
#include "classroom_ui/scroll.h"
#include "classroom_ui/strings.h"

#include "base/text.h"
#include "classroom/words.h"

#include <cmath>

namespace driftbench::classroom_ui {
namespace {

using classroom::Part;
using classroom::shown;
using ui::Rect;

constexpr int kMm = 2;
constexpr int kFine = 3;

std::string group_words(const stats::GroupStatistics& group) {
  const auto bias_mm =
      group.bias.map([](const math::Vec2& bias) { return std::hypot(bias.x, bias.y); });
  return say(Str::kGroupLine, classroom::approach_word(group.approach),
             classroom::counted(group.n, "hole"), classroom::counted(group.operators, "learner"),
             shown(bias_mm, kMm), shown(group.spread_mm, kMm), shown(group.r50_mm, kMm),
             shown(group.r95_mm, kMm));
}

std::string p_words(double p) {
  constexpr double kLeast = 0.0001;
  return p < kLeast ? "< " + ui::figure(kLeast, 4) : "= " + ui::figure(p, 4);
}

void details(Frame& frame, Column& column, const Part& part) {
  const ui::TextStyle style = ui::caption(frame);
  const stats::PairedStatistics& paired = part.statistics.paired;
  if (!part.is_paired_hidden && paired.t) {
    column.words(style, say(Str::kDetailPairs, base::fixed(paired.t->mean, kFine),
                            base::fixed(paired.t->interval.low, kFine),
                            base::fixed(paired.t->interval.high, kFine),
                            base::fixed(paired.t->t, kMm), paired.t->df, p_words(paired.t->p),
                            paired.rank_p ? p_words(*paired.rank_p) : std::string("\xE2\x80\x93")));
  }
  for (const stats::GroupStatistics& group : part.statistics.groups) {
    column.words(style,
                 say(Str::kDetailGroup, classroom::approach_word(group.approach),
                     shown(group.repeatability_sd, kMm), shown(group.between_operator_sd, kMm)));
  }
}

}  // namespace

void statistics_panel(Frame& frame, const Rect& room) {
  const Part* part = shown_part(frame);
  if (part == nullptr) {
    return;
  }
  Column column(frame, "statistics", room);
  column.words(ui::caption(frame), say(Str::kSourceHeading, classroom::source_word(part->source),
                                       classroom::counted(part->learner_count, "learner"),
                                       classroom::counted(part->entries.size(), "attempt")));
  ui::TextStyle answer = ui::lead(frame);
  column.words(answer, classroom::result_sentence(*part), 12.0F);
  if (const std::string order = classroom::order_sentence(*part); !order.empty()) {
    const bool is_fair = part->order == classroom::TechniqueOrder::kBoth ||
                         part->order == classroom::TechniqueOrder::kMixed;
    column.words({frame.fonts.strong, is_fair ? frame.colors.muted : frame.colors.warn}, order,
                 12.0F);
  }
  for (const stats::GroupStatistics& group : part->statistics.groups) {
    column.words(ui::body(frame), group_words(group));
  }
  if (const std::string hidden = classroom::hidden_sentence(*part); !hidden.empty()) {
    column.words(ui::body(frame), hidden);
  }
  ui::Button fold{std::string(tr(Str::kDetails)), "T"};
  fold.is_switch = true;
  fold.on = frame.state.shows_details;
  fold.kind = ui::ButtonKind::kQuiet;
  fold.description = tr(Str::kDetailsHelp);
  const Rect row = column.cut(frame.px(ui::kButtonSmall_px));
  if (ui::button(frame, {row.x, row.y, ui::button_width(frame, fold), row.height}, fold) ||
      ui::key_hit(ImGuiKey_T)) {
    frame.state.shows_details = !frame.state.shows_details;
  }
  column.gap(8.0F);
  if (frame.state.shows_details) {
    details(frame, column, *part);
  }
  column.words(ui::strong(frame), tr(Str::kCannotSay), 4.0F);
  for (const std::string& limit : classroom::limits_of(*frame.model.whole, *part)) {
    column.words(ui::caption(frame), limit);
  }
}

}  // namespace driftbench::classroom_ui
