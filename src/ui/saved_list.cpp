#include "ui/saved_list.h"

#include "base/text.h"
#include "session/session.h"
#include "ui/ask_twice.h"
#include "ui/language.h"
#include "ui/marks.h"
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/widgets.h"
#include "ui/words.h"

namespace driftbench::ui {

namespace {

constexpr float kMark_px = 28.0F;
constexpr float kOtherThanFigures_px = 86.0F;  // name, buttons and the margins

// Gives the height used: the figures take as many lines as they need.
float row(Frame& frame, const Rect& at, const SavedAttempt& saved) {
  std::string figures = saved.is_hidden ? std::string(tr(Str::kHiddenYet)) : saved_figures(saved);
  if (saved.engine != session::kEngine) {
    figures += say(Str::kSavedEngine, std::to_string(saved.engine));
  }
  const float wrap = at.width - frame.px(2.0F * 14.0F + kMark_px);
  const Rect box{at.x, at.y, at.width,
                 text_size(frame.fonts.caption, figures, wrap).y + frame.px(kOtherThanFigures_px)};
  card(frame, box);
  Rect inner = inset(box, frame.px(14.0F), frame.px(10.0F));
  Rect buttons = cut_bottom(inner, frame.px(30.0F));
  const Rect mark = cut_left(inner, frame.px(kMark_px));
  hole_mark(frame, {mark.x + frame.px(9.0F), mark.y + frame.px(12.0F)}, saved.approach, 6.0F, true);
  const std::string name = say(Str::kSavedName, in_language(saved.block_title), saved.when);
  text(frame, cut_top(inner, frame.px(22.0F)), strong(frame), name);
  text(frame, inner, caption(frame), figures);

  const auto small = [&](Button spec, const std::string& id) {
    spec.name = spec.label + ": " + name;
    spec.id = id + saved.id;
    const Rect slot = cut_left(buttons, button_width(frame, spec));
    cut_left(buttons, frame.px(4.0F));
    return button(frame, slot, spec);
  };
  if (!saved.is_hidden && small(Button{std::string(tr(Str::kOpen))}, "open ")) {
    frame.emit(OpenSaved{saved.id});
  }
  if (small(quiet_button(Str::kExport), "export ")) {
    frame.emit(ExportAttempt{saved.id});
  }
  const bool pressed =
      small(twice_button(frame, Str::kDelete, Str::kDeleteReally, saved.id), "delete ");
  if (pressed_twice(frame, pressed, saved.id)) {
    frame.emit(DeleteSaved{saved.id});
  }
  return box.height;
}

}  // namespace

std::string saved_figures(const SavedAttempt& saved) {
  return saved.has_hole ? say(Str::kSavedFigures, base::fixed(saved.entry_lateral_mm, 1),
                              base::fixed(saved.apex_lateral_mm, 1),
                              base::fixed(saved.angle_deg, 1), depth_words(saved.depth_error_mm))
                        : std::string(tr(Str::kNoHole));
}

float saved_list(Frame& frame, Rect column, const std::string& lesson_id) {
  text(frame, cut_top(column, frame.px(kLead_px + 10.0F)), lead(frame), tr(Str::kYourAttempts));
  for (const SavedAttempt& saved : frame.model.saved) {
    if (saved.lesson_id == lesson_id) {
      cut_top(column, row(frame, column, saved));
      cut_top(column, frame.px(10.0F));
    }
  }
  return column.y;
}

}  // namespace driftbench::ui
