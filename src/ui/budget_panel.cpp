#include "ui/budget_panel.h"

#include "base/text.h"
#include "ui/stepper.h"
#include "ui/strings.h"
#include "ui/widgets.h"

#include <algorithm>
#include <array>

namespace driftbench::ui {
namespace {

constexpr double kGapStep_mm = 0.1;
constexpr double kLargestGap_mm = 2.0;

Str name_of(session::BudgetSource source) {
  switch (source) {
    case session::BudgetSource::kPlay:
      return Str::kBudgetPlay;
    case session::BudgetSource::kSeat:
      return Str::kBudgetSeat;
    case session::BudgetSource::kMaking:
      return Str::kBudgetMaking;
    case session::BudgetSource::kSupport:
      break;
  }
  return Str::kBudgetSupport;
}

/// Name, a bar as long as the source's share, and its mean at the floor.
void source_row(Frame& frame, const Rect& row, const session::BudgetLine& line) {
  constexpr float kName = 0.46F;
  constexpr float kBar = 0.34F;
  text_middle(frame, {row.x, row.y, kName * row.width, row.height}, body(frame),
              tr(name_of(line.source)));
  const Rect track{row.x + kName * row.width, row.y + 0.5F * row.height - frame.px(5.0F),
                   kBar * row.width, frame.px(10.0F)};
  fill(frame, track, frame.colors.raised, frame.px(2.0F));
  const Rect share{track.x, track.y, static_cast<float>(line.apex_share) * track.width,
                   track.height};
  fill(frame, share, frame.colors.muted, frame.px(2.0F));
  TextStyle value = strong(frame);
  value.align = Align::kRight;
  text_middle(frame, {track.x + track.width, row.y, (1.0F - kName - kBar) * row.width, row.height},
              value, say(Str::kMmText, base::fixed(line.mean.apex_mm, 2)));
  ImGui::GetWindowDrawList()->AddLine({row.x, row.y + row.height},
                                      {row.x + row.width, row.y + row.height},
                                      color_of(frame.colors.line));
}

void gap_row(Frame& frame, const Rect& row) {
  const double gap_mm = frame.model.seat_gap_left_mm;
  Stepper gap;
  gap.name = tr(Str::kBudgetGap);
  gap.value = say(Str::kMmText, base::fixed(gap_mm, 1));
  gap.description = tr(Str::kBudgetGapHelp);
  gap.step = gap.fine = kGapStep_mm;
  const double change = stepper(frame, row, gap);
  if (change != 0.0) {
    frame.emit(SetSeatGap{std::clamp(gap_mm + change, 0.0, kLargestGap_mm)});
  }
}

}  // namespace

float budget_panel(Frame& frame, Rect column) {
  if (!frame.model.budget.has_value()) {
    return 0.0F;
  }
  const session::GuideBudget& budget = *frame.model.budget;
  const float start = column.y;
  text(frame, cut_top(column, frame.px(34.0F)), lead(frame), tr(Str::kBudgetTitle));
  gap_row(frame, cut_top(column, frame.px(36.0F)));
  for (const session::BudgetLine& line : budget.lines) {
    source_row(frame, cut_top(column, frame.px(32.0F)), line);
  }
  cut_top(column, frame.px(8.0F));
  const auto mm = [](double value) { return base::fixed(value, 1); };
  cut_top(column, text(frame, column, body(frame),
                       say(Str::kBudgetSum, mm(budget.mean.entry_mm), mm(budget.mean.apex_mm),
                           mm(budget.mean.angle_deg), mm(budget.within_95.apex_mm),
                           mm(budget.limit.apex_mm))) +
                      frame.px(6.0F));
  cut_top(column, text(frame, column, caption(frame), tr(Str::kBudgetNote)));
  return column.y - start;
}

}  // namespace driftbench::ui
