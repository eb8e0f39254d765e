// A collected class: bar, filters, the list of pages, the page itself and what it says.
#include "classroom_ui/frame.h"
#include "classroom_ui/strings.h"

#include "classroom/summary_json.h"
#include "classroom/views.h"
#include "classroom/words.h"
#include "ui/bars.h"

#include <algorithm>

namespace driftbench::classroom_ui {
namespace {

using classroom::ViewId;
using ui::Button;
using ui::ButtonKind;
using ui::Rect;

constexpr float kRail_px = 268.0F;
constexpr float kPanel_px = 392.0F;
constexpr float kWide_px = 1180.0F;   ///< from here on the panel stands beside the picture
constexpr float kNarrow_px = 760.0F;  ///< below it pages are turned one by one
constexpr float kRow_px = 52.0F;

void switches(Frame& frame, Rect& bar) {
  Button bench{std::string(tr(Str::kToBench))};
  bench.description = tr(Str::kToBenchHelp);
  if (ui::bar_button(frame, bar, bench)) {
    frame.emit(GoToBench{});
  }
  if (bar.width < frame.px(kNarrow_px) - frame.px(200.0F)) {
    return;
  }
  Button add{std::string(tr(Str::kAddFiles)), "F"};
  if (ui::bar_button(frame, bar, add) || ui::key_hit(ImGuiKey_F)) {
    frame.emit(PickFiles{});
  }
  Button names{std::string(tr(Str::kHideNames)), "N"};
  names.is_switch = true;
  names.on = frame.model.are_names_hidden;
  names.kind = ButtonKind::kQuiet;
  names.description = tr(Str::kHideNamesHelp);
  if (ui::bar_button(frame, bar, names) || ui::key_hit(ImGuiKey_N)) {
    frame.emit(ToggleNames{});
  }
  Button single{std::string(tr(Str::kOneAtATime)), "P"};
  single.is_switch = true;
  single.on = frame.state.is_one_at_a_time;
  single.kind = ButtonKind::kQuiet;
  single.description = tr(Str::kOneAtATimeHelp);
  if (ui::bar_button(frame, bar, single) || ui::key_hit(ImGuiKey_P)) {
    frame.state.is_one_at_a_time = !frame.state.is_one_at_a_time;
  }
  if (bar.width > frame.px(420.0F) &&
      ui::bar_button(frame, bar, ui::theme_choice(frame.model.theme))) {
    frame.emit(NextTheme{});
  }
  if (bar.width > frame.px(300.0F) && ui::language_button(frame, bar)) {
    frame.emit(ChangeLanguage{});
  }
}

void bar_of(Frame& frame, const Rect& strip) {
  Rect bar = ui::top_bar(frame, strip);
  switches(frame, bar);
  const classroom::Class& whole = *frame.model.whole;
  const std::string counts =
      say(Str::kSummary, classroom::counted(whole.learners.size(), "learner"),
          classroom::counted(whole.roster.entries.size(), "attempt"));
  const Rect title =
      ui::cut_left(bar, ui::text_size(frame.fonts.strong, tr(Str::kClassroom)).x + frame.px(14.0F));
  ui::text_middle(frame, title, ui::strong(frame), tr(Str::kClassroom));
  if (ui::text_size(frame.fonts.body, counts).x < bar.width) {
    ui::text_middle(frame, bar, {frame.fonts.body, frame.colors.muted}, counts);
  }
}

/// Says that nobody was measured; gives what is left of the page.
Rect below_demo_strip(Frame& frame, Rect page) {
  const float edge = frame.px(ui::kGap_px);
  const float mark = ui::text_size(frame.fonts.strong, tr(Str::kDemoMark)).x + frame.px(14.0F);
  const float wrap = page.width - mark - 2.0F * edge;
  const float words = ui::text_size(frame.fonts.caption, tr(Str::kDemoSentence), wrap).y;
  const Rect strip = ui::cut_top(page, words + frame.px(14.0F));
  ui::fill(frame, strip, frame.colors.raised, 0.0F);
  Rect inner = ui::inset(strip, edge, 0.0F);
  ui::text_middle(frame, ui::cut_left(inner, mark), {frame.fonts.strong, frame.colors.warn},
                  tr(Str::kDemoMark));
  ui::text_middle(frame, inner, ui::caption(frame), tr(Str::kDemoSentence));
  return page;
}

/// Key of a page: 0 for what was collected, then the views by number.
std::string key_of(std::size_t page) {
  return page < 10 ? std::to_string(page) : std::string();
}

void turn(Frame& frame, int steps) {
  const int last = static_cast<int>(kPageCount) - 1;
  const int page = std::clamp(static_cast<int>(frame.state.page) + steps, 0, last);
  frame.state.page = static_cast<Page>(page);
}

void page_keys(Frame& frame) {
  for (int i = 0; i < 10; ++i) {
    if (ui::key_hit(static_cast<ImGuiKey>(ImGuiKey_0 + i))) {
      frame.state.page = static_cast<Page>(i);
    }
  }
  turn(frame, (ui::key_hit(ImGuiKey_PageDown) ? 1 : 0) - (ui::key_hit(ImGuiKey_PageUp) ? 1 : 0));
}

void rail(Frame& frame, Rect column) {
  const float row = std::min(frame.px(ui::kButton_px),
                             column.height / static_cast<float>(kPageCount) - frame.px(4.0F));
  for (std::size_t i = 0; i < kPageCount; ++i) {
    const auto page = static_cast<Page>(i);
    const Rect box = ui::cut_top(column, row);
    ui::cut_top(column, frame.px(4.0F));
    const bool is_chosen = frame.state.page == page;
    ui::ScreenItem about;
    about.role = ui::Role::kRadio;
    const std::string title = ui::in_language(page_title(page));
    about.label = title;
    about.description = key_of(i);
    about.checked = is_chosen;
    const ui::Touch touch = ui::item(frame, box, title, about);
    if (is_chosen || touch.hovered) {
      ui::fill(frame, box, is_chosen ? frame.colors.accent : frame.colors.raised,
               ui::kRadiusSmall_px);
    }
    const ui::Rgb ink = is_chosen ? frame.colors.on_accent : frame.colors.text;
    const ui::Face& face = is_chosen ? frame.fonts.strong : frame.fonts.body;
    const float middle = box.y + 0.5F * (box.height - face.size_px);
    float x = box.x + frame.px(10.0F);
    if (!frame.is_touch && !key_of(i).empty()) {
      const float cap = frame.px(22.0F);
      ui::key_cap(frame, {x, box.y + 0.5F * (box.height - cap)}, cap, key_of(i), ink);
    }
    x += frame.px(32.0F);
    ui::draw_text(face, ink, {x, middle}, title);
    if (touch.focused) {
      ui::focus_ring(frame, box, ui::kRadiusSmall_px);
    }
    if (touch.pressed) {
      frame.state.page = page;
    }
  }
}

/// Where the list of pages has no room: one back, one on, and the names.
void turning_row(Frame& frame, const Rect& strip) {
  Rect row = ui::inset(strip, frame.px(ui::kGap_px), frame.px(4.0F));
  Button back{std::string(tr(Str::kPageBack))};
  back.enabled = frame.state.page != Page::kCollected;
  Button on{std::string(tr(Str::kPageOn))};
  on.enabled = frame.state.page != Page::kFiles;
  if (ui::button(frame, ui::cut_left(row, ui::button_width(frame, back)), back)) {
    turn(frame, -1);
  }
  ui::cut_left(row, frame.px(ui::kGapSmall_px));
  if (ui::button(frame, ui::cut_left(row, ui::button_width(frame, on)), on)) {
    turn(frame, 1);
  }
  Button names{std::string(tr(Str::kHideNames))};
  names.is_switch = true;
  names.on = frame.model.are_names_hidden;
  names.kind = ButtonKind::kQuiet;
  if (ui::bar_button(frame, row, names) || ui::key_hit(ImGuiKey_N)) {
    frame.emit(ToggleNames{});
  }
}

void page_body(Frame& frame, const Rect& room) {
  switch (frame.state.page) {
    case Page::kCollected:
      collected_page(frame, room);
      break;
    case Page::kEvents:
      events_page(frame, room);
      break;
    case Page::kExperiment:
      experiment_page(frame, room);
      break;
    case Page::kReplay:
      replay_page(frame, room);
      break;
    case Page::kFiles:
      files_page(frame, room);
      break;
    default:
      chart_page(frame, room);
  }
}

bool has_panel(Page page) {
  return page != Page::kCollected && page != Page::kFiles && page != Page::kEvents &&
         page != Page::kExperiment && page != Page::kReplay;
}

bool has_task(const Model& model) {
  return model.reading.is_running || !model.checking.is_complete();
}

}  // namespace

std::string_view page_title(Page page) {
  switch (page) {
    case Page::kCollected:
      return tr(Str::kPageCollected);
    case Page::kGrid:
      return classroom::view(ViewId::kGrid).heading;
    case Page::kBiasMap:
      return classroom::view(ViewId::kBiasMap).heading;
    case Page::kSmallTargets:
      return classroom::view(ViewId::kSmallTargets).heading;
    case Page::kPooledTarget:
      return classroom::view(ViewId::kPooledTarget).heading;
    case Page::kPairs:
      return tr(Str::kPagePairs);
    case Page::kCurves:
      return classroom::view(ViewId::kCurves).heading;
    case Page::kEstimates:
      return classroom::view(ViewId::kEstimates).heading;
    case Page::kEvents:
      return tr(Str::kPageEvents);
    case Page::kHoleSizes:
      return classroom::view(ViewId::kHoleSizes).heading;
    case Page::kExperiment:
      return tr(Str::kPageExperiment);
    case Page::kReplay:
      return tr(Str::kPageReplay);
    case Page::kFiles:
    case Page::kCount:
      break;
  }
  return tr(Str::kPageFiles);
}

const classroom::Part* shown_part(const Frame& frame) {
  const classroom::Class& whole = *frame.model.whole;
  return whole.parts.empty() ? nullptr : &whole.parts.front();
}

void class_page(Frame& frame, const Rect& page) {
  page_keys(frame);
  Rect rest = page;
  bar_of(frame, ui::cut_top(rest, frame.px(ui::kTopBar_px)));
  if (frame.model.is_demo) {
    rest = below_demo_strip(frame, rest);
  }
  if (has_task(frame.model)) {
    task_row(frame, ui::cut_top(rest, frame.px(kRow_px)));
  }
  const float edge = frame.px(ui::kGap_px);
  if (page.width < frame.px(kNarrow_px)) {
    turning_row(frame, ui::cut_top(rest, frame.px(kRow_px)));
    Rect room = ui::inset(rest, edge, frame.px(ui::kGapSmall_px));
    ui::text(frame, ui::cut_bottom(room, frame.px(2.4F * ui::kCaption_px)), ui::caption(frame),
             tr(Str::kWiderScreen));
    if (has_panel(frame.state.page)) {
      statistics_panel(frame, ui::cut_bottom(room, 0.4F * room.height));
    }
    page_body(frame, room);
    return;
  }
  if (frame.state.is_one_at_a_time) {
    page_body(frame, ui::inset(rest, frame.px(ui::kGapLarge_px), edge));
    return;
  }
  filter_row(frame, ui::cut_top(rest, frame.px(kRow_px)));
  Rect room = ui::inset(rest, edge, 0.0F);
  ui::cut_bottom(room, edge);
  rail(frame, ui::cut_left(room, frame.px(kRail_px)));
  ui::cut_left(room, frame.px(ui::kGapLarge_px));
  if (has_panel(frame.state.page) && page.width >= frame.px(kWide_px)) {
    statistics_panel(frame, ui::cut_right(room, frame.px(kPanel_px)));
    ui::cut_right(room, frame.px(ui::kGapLarge_px));
  } else if (has_panel(frame.state.page)) {
    statistics_panel(frame, ui::cut_bottom(room, 0.30F * room.height));
    ui::cut_bottom(room, frame.px(ui::kGapSmall_px));
  }
  page_body(frame, room);
}

}  // namespace driftbench::classroom_ui
