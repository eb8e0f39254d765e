// The Classroom before anything was collected: what it is, where files go, the demo class.
#include "classroom_ui/frame.h"
#include "classroom_ui/scroll.h"
#include "classroom_ui/strings.h"

#include "ui/bars.h"

#include <algorithm>

namespace driftbench::classroom_ui {
namespace {

using ui::Button;
using ui::ButtonKind;
using ui::Rect;

constexpr float kNarrow_px = 900.0F;

/// Dashed frame of the drop area.
void drop_frame(const Frame& frame, const Rect& box) {
  ui::fill(frame, box, frame.colors.surface, ui::kRadius_px);
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float dash = frame.px(10.0F);
  const ImU32 ink = ui::color_of(frame.colors.outline);
  const float width = frame.px(2.0F);
  for (float x = box.x; x < box.x + box.width; x += 2.0F * dash) {
    const float to = std::min(x + dash, box.x + box.width);
    list->AddLine({x, box.y}, {to, box.y}, ink, width);
    list->AddLine({x, box.y + box.height}, {to, box.y + box.height}, ink, width);
  }
  for (float y = box.y; y < box.y + box.height; y += 2.0F * dash) {
    const float to = std::min(y + dash, box.y + box.height);
    list->AddLine({box.x, y}, {box.x, to}, ink, width);
    list->AddLine({box.x + box.width, y}, {box.x + box.width, to}, ink, width);
  }
}

void drop_area(Frame& frame, Rect box) {
  drop_frame(frame, box);
  Rect inner = ui::inset(box, frame.px(ui::kGapLarge_px));
  ui::TextStyle title = ui::heading(frame);
  title.align = ui::Align::kCentre;
  ui::TextStyle what = ui::body(frame);
  what.align = ui::Align::kCentre;
  ui::cut_top(inner, ui::text(frame, inner, title, tr(Str::kDropHere)) + frame.px(8.0F));
  ui::cut_top(inner, ui::text(frame, inner, what, tr(Str::kDropWhat)) + frame.px(ui::kGapLarge_px));
  Button files{std::string(tr(Str::kPickFiles)), "F"};
  files.kind = ButtonKind::kPrimary;
  Button folder{std::string(tr(Str::kPickFolder))};
  const float gap = frame.px(ui::kGap_px);
  const float files_width = ui::button_width(frame, files);
  const float folder_width = ui::button_width(frame, folder);
  const float height = frame.px(ui::kButton_px);
  const bool is_side_by_side = files_width + gap + folder_width <= inner.width;
  const float row = is_side_by_side ? files_width + gap + folder_width : files_width;
  const Rect first{inner.x + 0.5F * (inner.width - row), inner.y, files_width, height};
  const Rect second = is_side_by_side
                          ? Rect{first.x + files_width + gap, inner.y, folder_width, height}
                          : Rect{inner.x + 0.5F * (inner.width - folder_width),
                                 inner.y + height + gap, folder_width, height};
  if (ui::button(frame, first, files) || ui::key_hit(ImGuiKey_F)) {
    frame.emit(PickFiles{});
  }
  if (ui::button(frame, second, folder)) {
    frame.emit(PickFolder{});
  }
}

/// A button, as wide as the widest of its column, and what it offers where that has room.
bool offer_row(Frame& frame, Rect row, float width, Button spec, Str help) {
  spec.description = tr(help);
  const Rect box = ui::cut_left(row, std::min(width, row.width));
  ui::cut_left(row, frame.px(ui::kGap_px));
  const bool is_pressed =
      ui::button(frame, {box.x, box.y, box.width, frame.px(ui::kButton_px)}, spec);
  if (row.width > ui::text_size(frame.fonts.body, tr(help)).x) {
    ui::text_middle(frame, {row.x, row.y, row.width, frame.px(ui::kButton_px)}, ui::body(frame),
                    tr(help));
  }
  return is_pressed;
}

/// What else there is to do without a class: the invented one, a plan, a code from a mail, a
/// real block.
void offers(Frame& frame, Column& column) {
  const Button demo{std::string(tr(Str::kOpenDemo)), "D"};
  const Button plan{std::string(tr(Str::kPlanExperiment)), "E"};
  const Button paste{std::string(tr(Str::kPasteCode)), "V"};
  const Button measure{std::string(tr(Str::kMeasureBlock)), "B"};
  const float width = std::max({ui::button_width(frame, demo), ui::button_width(frame, plan),
                                ui::button_width(frame, paste), ui::button_width(frame, measure)});
  const auto row = [&column, &frame] {
    const Rect cut = column.cut(frame.px(ui::kButton_px));
    column.gap(ui::kGapSmall_px);
    return cut;
  };
  if (offer_row(frame, row(), width, demo, Str::kDemoHelp) || ui::key_hit(ImGuiKey_D)) {
    frame.emit(OpenDemo{});
  }
  if (offer_row(frame, row(), width, plan, Str::kPlanHelp) || ui::key_hit(ImGuiKey_E)) {
    frame.emit(PlanExperiment{});
  }
  if (offer_row(frame, row(), width, paste, Str::kPasteCodeHelp) || ui::key_hit(ImGuiKey_V)) {
    frame.emit(PasteCode{});
  }
  if (offer_row(frame, row(), width, measure, Str::kMeasureBlockHelp) || ui::key_hit(ImGuiKey_B)) {
    frame.emit(MeasureBlock{});
  }
}

}  // namespace

void empty_page(Frame& frame, const Rect& page) {
  Rect rest = page;
  Rect bar = ui::top_bar(frame, ui::cut_top(rest, frame.px(ui::kTopBar_px)));
  Button bench{std::string(tr(Str::kToBench))};
  bench.description = tr(Str::kToBenchHelp);
  if (ui::bar_button(frame, bar, bench)) {
    frame.emit(GoToBench{});
  }
  if (ui::bar_button(frame, bar, ui::theme_choice(frame.model.theme))) {
    frame.emit(NextTheme{});
  }
  if (ui::language_button(frame, bar)) {
    frame.emit(ChangeLanguage{});
  }
  ui::text_middle(frame, bar, ui::strong(frame), tr(Str::kClassroom));

  constexpr float kText_px = 860.0F;
  Rect middle = ui::centred_column(rest, frame.px(kText_px) + 2.0F * frame.px(ui::kGapPage_px));
  middle = ui::inset(middle, frame.px(ui::kGapLarge_px), frame.px(ui::kGapLarge_px));
  Column column(frame, "empty", middle);
  ui::TextStyle title{frame.fonts.title, frame.colors.text};
  title.role = ui::Role::kHeading;
  column.words(title, tr(Str::kTitle), 12.0F);
  column.words(ui::body(frame), tr(Str::kPurpose), ui::kGapLarge_px);
  if (page.width < frame.px(kNarrow_px)) {
    column.words(ui::strong(frame), tr(Str::kWiderScreen), ui::kGap_px);
  }
  const float inner = column.width() - 2.0F * frame.px(ui::kGapLarge_px);
  const float words = ui::text_size(frame.fonts.heading, tr(Str::kDropHere), inner).y +
                      ui::text_size(frame.fonts.body, tr(Str::kDropWhat), inner).y;
  const bool is_narrow = column.width() < frame.px(480.0F);
  const float buttons = frame.px(ui::kButton_px) * (is_narrow ? 2.0F : 1.0F) +
                        (is_narrow ? frame.px(ui::kGap_px) : 0.0F);
  drop_area(frame, column.cut(words + buttons + frame.px(8.0F + 3.0F * ui::kGapLarge_px)));
  column.gap(ui::kGapLarge_px);
  offers(frame, column);
  column.gap(ui::kGap_px);
  column.words({frame.fonts.body, frame.colors.muted}, tr(Str::kProves), 12.0F);
  column.words({frame.fonts.body, frame.colors.muted}, tr(Str::kCaution));
}

}  // namespace driftbench::classroom_ui
