// The shelf: sets with their lessons, how each stands and what to do next, and the caution.
#include "specimen/tooth_number.h"
#include "ui/panels.h"
#include "ui/shelf_sets.h"
#include "ui/strings.h"
#include "ui/unfinished_banner.h"
#include "ui/widgets.h"
#include "ui/words.h"

namespace driftbench::ui {

namespace {

constexpr float kCasePad_px = 14.0F;

// One piece of jaw: its tooth in both systems, and what is particular about it.
bool case_tile(Frame& frame, const Rect& tile, const ShelfCase& shown) {
  ScreenItem about;
  about.role = Role::kButton;
  about.label = shown.title;
  const Touch touch = item(frame, tile, shown.title, about);
  const Palette& c = frame.colors;
  fill(frame, tile, touch.hovered ? c.raised_hover : c.raised, kRadiusSmall_px);
  ImGui::GetWindowDrawList()->AddRect({tile.x, tile.y}, {tile.x + tile.width, tile.y + tile.height},
                                      color_of(c.outline, 0.9F), frame.px(kRadiusSmall_px));
  const Rect inner = inset(tile, frame.px(kCasePad_px), frame.px(8.0F));
  draw_text(frame.fonts.strong, c.text, {inner.x, inner.y},
            say(Str::kStudyCase, shown.fdi, specimen::us_tooth_number(shown.fdi)));
  draw_wrapped(*ImGui::GetWindowDrawList(), frame.fonts.caption, c.muted,
               {inner.x, inner.y + frame.px(23.0F)}, inner.width, shown.title);
  if (touch.focused) {
    focus_ring(frame, tile, kRadiusSmall_px);
  }
  return touch.pressed;
}

float cases_card(Frame& frame, const Rect& at) {
  const std::vector<ShelfCase>& cases = frame.model.cases;
  if (cases.empty()) {
    return at.y;
  }
  const float gap = frame.px(kGapSmall_px);
  const float wrap = at.width - 2.0F * frame.px(kGapLarge_px);
  const float half = 0.5F * (wrap - gap);
  const float tooth = text_size(frame.fonts.strong, say(Str::kStudyCase, 46, 30)).x;
  const bool has_two = tooth <= half - frame.px(2.0F * kCasePad_px);
  const std::size_t columns = has_two ? 2 : 1;
  const float width = has_two ? half : wrap;
  const auto rows = static_cast<float>((cases.size() + columns - 1) / columns);
  float title = 0.0F;  // height of the longest one
  for (const ShelfCase& one : cases) {
    title = std::max(
        title, text_size(frame.fonts.caption, one.title, width - frame.px(2.0F * kCasePad_px)).y);
  }
  const float tile_height = title + frame.px(kBody_px + 20.0F);
  const float row = tile_height + gap;
  const float about = text_size(frame.fonts.body, tr(Str::kStudyAbout), wrap).y;
  const Rect box{
      at.x, at.y, at.width,
      frame.px(2.0F * kGapLarge_px + kHeading_px + 6.0F + kGap_px) + about + rows * row - gap};
  card(frame, box);
  Rect inner = inset(box, frame.px(kGapLarge_px));
  text(frame, cut_top(inner, frame.px(kHeading_px + 6.0F)), heading(frame), tr(Str::kStudyTitle));
  cut_top(inner, text(frame, inner, body(frame), tr(Str::kStudyAbout)) + frame.px(kGap_px));
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const Rect tile{inner.x + (i % columns == 0 ? 0.0F : width + gap),
                    inner.y + static_cast<float>(i / columns) * row, width, tile_height};
    if (case_tile(frame, tile, cases[i])) {
      frame.emit(OpenStudy{i});
    }
  }
  return box.y + box.height;
}

void shelf_bar(Frame& frame, Rect& page) {
  const auto described = [](Str label, Str help) {
    Button way = quiet_button(label);
    way.description = tr(help);
    return way;
  };

  enum Way : int { kSound, kLanguage, kLogbook, kOpen, kClassroom, kDesk };

  std::array ways{sound_button(frame),
                  language_choice(),
                  described(Str::kLogbook, Str::kLogbookHelp),
                  described(Str::kOpenFile, Str::kOpenFileHelp),
                  described(Str::kClassroom, Str::kClassroomHelp),
                  described(Str::kLessonDesk, Str::kLessonDeskHelp)};
  ways[kLogbook].kind = ButtonKind::kNormal;
  if (page.width < frame.px(kNarrow_px)) {
    ways[kSound].key.clear();  // room for the others
  }
  const std::span<const Button> all(ways);
  const PageBar bar =
      page_bar(frame, page, tr(Str::kAppName), frame.model.is_locked ? all.first(kOpen) : all);
  switch (bar.pressed) {
    case kSound:
      frame.emit(ToggleMute{});
      break;
    case kLanguage:
      frame.emit(ChangeLanguage{});
      break;
    case kLogbook:
      frame.emit(OpenLogbook{});
      break;
    case kOpen:
      frame.emit(OpenFile{});
      break;
    case kClassroom:
      frame.emit(OpenClassroom{});
      break;
    case kDesk:
      frame.emit(OpenLessonDesk{});
      break;
    default:
      break;
  }
  text_middle(frame, bar.title, strong(frame), tr(Str::kAppName));
}

}  // namespace

void shelf(Frame& frame, const Rect& page) {
  Rect rest = page;
  shelf_bar(frame, rest);
  const float caution_height =
      text_size(frame.fonts.caption, tr(Str::kCaution), rest.width - frame.px(2.0F * kGapPage_px))
          .y;
  Rect foot = cut_bottom(rest, caution_height + frame.px(20.0F));
  fill(frame, foot, frame.colors.surface, 0.0F);
  TextStyle caution = caption(frame);
  caution.align = Align::kCentre;
  text_middle(frame, inset(foot, frame.px(kGapPage_px), 0.0F), caution, tr(Str::kCaution));

  const ScrolledPage scrolled = begin_page(frame, "shelf", rest, true);
  Rect column = scrolled.column;
  TextStyle title{frame.fonts.title, frame.colors.text, Align::kLeft, Role::kHeading};
  cut_top(column, text(frame, column, title, tr(Str::kShelfTitle)) + frame.px(2.0F));
  TextStyle purpose{frame.fonts.body, frame.colors.muted};
  cut_top(column, text(frame, column, purpose, tr(Str::kPurpose)) + frame.px(14.0F));
  cut_top(column, unfinished_banner(frame, column));

  float lessons_end = column.y;
  for (std::size_t i = 0; i < frame.model.shelf.size(); ++i) {
    const float used = set_row(frame, column, i);
    lessons_end = column.y + used;
    cut_top(column, used + frame.px(kGapLarge_px));
  }
  if (!frame.model.is_locked) {
    const float opened = opened_card(frame, column);
    cut_top(column, opened);
    lessons_end = std::max(lessons_end + opened, cases_card(frame, column));
  }
  end_page(frame, scrolled, lessons_end + frame.px(kGap_px));
}

}  // namespace driftbench::ui
