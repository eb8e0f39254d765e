// The screens and the parts they share.
#pragma once

#include "ui/bars.h"
#include "ui/frame.h"
#include "ui/layout.h"
#include "ui/strings.h"
#include "ui/widgets.h"

#include <array>
#include <span>
#include <string>
#include <string_view>

namespace driftbench::ui {

void shelf(Frame& frame, const Rect& page);
void lesson_page(Frame& frame, const Rect& page);
void logbook(Frame& frame, const Rect& page);
void briefing(Frame& frame, const Rect& page);
void bench(Frame& frame, const Rect& page);
void estimate(Frame& frame, const Rect& page);
void debrief(Frame& frame, const Rect& page);
void study(Frame& frame, const Rect& page);
void worked_example(Frame& frame, const Rect& page);
void prediction(Frame& frame, const Rect& page);

/// After an attempt of which the lesson shows less than everything.
void quiet_debrief(Frame& frame, const Rect& page);

/// The lesson that is open; null when the shelf does not have it.
[[nodiscard]] const ShelfLesson* open_lesson(const Frame& frame);

/// Whether it was watched or judged since the page was opened: "lesson/block", "lesson".
[[nodiscard]] bool was_shown(const Frame& frame, std::string_view name);

/// Filled and hollow dots: attempts done and to do. Gives the width used.
float progress_dots(const Frame& frame, ImVec2 at, int done, int all);

/// Sound and theme switches, at the right of a bar; shortens the bar.
void sound_switch(Frame& frame, Rect& bar, bool names_key = true);
void theme_switch(Frame& frame, Rect& bar);

/// A button without ground or border.
[[nodiscard]] Button quiet_button(Str label);

/// The sound switch; its key counts even when it is not shown.
[[nodiscard]] Button sound_button(Frame& frame);

struct PageBar {
  Rect title;        ///< what is left for the title beside the first row's buttons
  int pressed = -1;  ///< index of the way that was pressed
};

/// The bar over a page, cut off it: from right to left the theme's switch and the ways, in as many
/// rows as they need beside the title. The caller draws the title.
PageBar page_bar(Frame& frame, Rect& page, std::string_view title, std::span<const Button> ways);

/// The bar of a screen that only shows something: where it is, and the way back to the lesson's
/// page.
void leave_bar(Frame& frame, Rect& page, std::string_view where);

/// The bar of the briefing: where it is, which hand works, and whether it works step by step.
void briefing_bar(Frame& frame, Rect& page);

/// Instead of a screen whose attempt is missing: a sentence and the way back to the shelf.
void nothing_to_show(Frame& frame, const Rect& page);

/// "Find the centre · Free-hand · attempt 2 of 3".
[[nodiscard]] std::string place_words(const Frame& frame);

/// What was opened and is kept, each with a button that deletes it; gives the height used.
float opened_card(Frame& frame, const Rect& at);

/// One plain sentence over the page, and progress of a long task.
void notice(Frame& frame, const Rect& page);

/// Keys of the bench; emits commands. Without `hand_has_keys` arrows, Space and Enter belong to the
/// button that has the keyboard focus.
void bench_keys(Frame& frame, bool hand_has_keys);
void toggle_motor(Frame& frame);

/// Takes the keyboard from the buttons; Tab gives it back.
void give_keys_to_hand(Frame& frame);

}  // namespace driftbench::ui
