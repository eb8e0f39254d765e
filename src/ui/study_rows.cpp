#include "ui/study_rows.h"

#include <utility>

namespace driftbench::ui {
namespace {

constexpr float kRow_px = 34.0F;

}  // namespace

double number_row(Frame& frame, Rect& column, Str name, std::string value, Str help,
                  RowSteps steps) {
  return stepper(
      frame, cut_top(column, frame.px(kRow_px)),
      {std::string(tr(name)), std::move(value), std::string(tr(help)), steps.step, steps.fine});
}

void switch_row(Frame& frame, Rect& column, Str words, Str help, bool& value) {
  Button spec{std::string(tr(words))};
  spec.is_switch = true;
  spec.on = value;
  spec.kind = ButtonKind::kQuiet;
  spec.description = tr(help);
  const Rect row = cut_top(column, frame.px(kRow_px + 2.0F));
  if (button(frame, {row.x - frame.px(12.0F), row.y, button_width(frame, spec), row.height},
             spec)) {
    value = !value;
  }
}

void window_choices(Frame& frame, Rows& rows) {
  constexpr std::array<std::pair<DensityWindow, Str>, 3> kWindows{
      {{DensityWindow::kBone, Str::kWindowBone},
       {DensityWindow::kSoftTissue, Str::kWindowSoft},
       {DensityWindow::kWholeRange, Str::kWindowWhole}}};
  choices(frame, rows, kWindows, frame.state.study.window, "window");
}

}  // namespace driftbench::ui
