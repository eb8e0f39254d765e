// After an attempt that the lesson does not show in full yet: inside or outside, or nothing.
#include "base/text.h"
#include "ui/debrief_parts.h"
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/widgets.h"

#include <cmath>

namespace driftbench::ui {

namespace {

struct Words {
  std::string title;
  std::string line;
  Rgb color;
};

Words words_of(const Frame& frame) {
  const Model& model = frame.model;
  if (model.reveal_in_s > 0.0) {
    return {std::string(tr(Str::kThinkFirst)), std::string(tr(Str::kThinkWhat)), frame.colors.text};
  }
  const std::string later{tr(Str::kShownLater)};
  if (model.shown == lesson::Shown::kNothing) {
    return {std::string(tr(Str::kKept)), later, frame.colors.text};
  }
  if (!model.missing_drills.empty()) {
    return {"\xE2\x96\xB3  " + std::string(tr(Str::kIncomplete)), later, frame.colors.warn};
  }
  const bool inside = model.results->inside_tolerance;
  return {(inside ? "\xE2\x9C\x93  " : "\xE2\x96\xB3  ") +
              std::string(tr(inside ? Str::kInside : Str::kOutside)),
          later, inside ? frame.colors.good : frame.colors.warn};
}

}  // namespace

void quiet_debrief(Frame& frame, const Rect& page) {
  if (frame.model.setup == nullptr || frame.model.results == nullptr) {
    nothing_to_show(frame, page);
    return;
  }
  Rect rest = page;
  const Rect bar = debrief_bar(frame, rest, false);
  text_middle(frame, bar, strong(frame), place_words(frame));

  const Words words = words_of(frame);
  Rect column = centred_column(rest, frame.px(560.0F));
  column = inset(column, frame.px(kGapLarge_px), 0.0F);
  cut_top(column, 0.28F * column.height);
  TextStyle title{frame.fonts.title, words.color, Align::kLeft, Role::kStatus};
  cut_top(column, text(frame, column, title, words.title) + frame.px(12.0F));
  TextStyle muted{frame.fonts.body, frame.colors.muted};
  cut_top(column, text(frame, column, muted, words.line) + frame.px(kGapLarge_px));
  if (frame.model.reveal_in_s > 0.0) {
    text(frame, column, lead(frame),
         say(Str::kRevealIn, base::fixed(std::ceil(frame.model.reveal_in_s), 0)));
    return;
  }
  debrief_ways(frame, cut_top(column, frame.px(kButton_px)), false);
}

}  // namespace driftbench::ui
