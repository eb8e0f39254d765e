// The thin bar at the top of a screen and the card that says one sentence over a page.
#pragma once

#include "ui/layout.h"
#include "ui/theme.h"
#include "ui/widgets.h"

#include <string_view>
#include <vector>

namespace driftbench::ui {

/// Thin bar: where the person is, then what the screen offers; gives the room left for buttons.
Rect top_bar(const Canvas& canvas, const Rect& bar);

/// Button at the right of a bar; shortens the bar. Gives true when it was pressed.
bool bar_button(Canvas& canvas, Rect& bar, const Button& spec);

/// The foot of a page, cut off it: a slot for each width, in as many rows as they need; the last of
/// a row has what is left of it.
std::vector<Rect> page_foot(const Canvas& canvas, Rect& page, const std::vector<float>& widths);

/// The button that changes to the next language, named in that language.
[[nodiscard]] Button language_choice();

/// The same in a bar. Gives true when pressed.
bool language_button(Canvas& canvas, Rect& bar);

/// The button that changes to the next theme, named by the one that is on.
[[nodiscard]] Button theme_choice(Theme theme);

/// One plain sentence over the page, with a button that closes it. Gives true when it was pressed.
bool notice_card(Canvas& canvas, const Rect& page, std::string_view sentence, bool is_error,
                 std::string_view close_label);

/// Progress of a long task, 0..1.
void progress_track(const Canvas& canvas, const Rect& track, double fraction);

}  // namespace driftbench::ui
