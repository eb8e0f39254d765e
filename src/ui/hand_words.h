// What can be seen of the drill in the hand, in words: for those who do not see the looks.
#pragma once

#include "session/view.h"
#include "specimen/kit.h"

#include <string>

namespace driftbench::ui {

/// "tip 0.25 mm right, 0.50 mm near; leans 2° left; in past the 8 mm line"; empty without a drill.
/// No finer than an eye sees it: a quarter of a millimetre, whole degrees, the last depth line that
/// has gone in. Right and near are the operator's.
[[nodiscard]] std::string hand_words(const session::SessionView& view, const specimen::Kit& kit);

/// "leans 2° right, 1° near", or "upright" below half a degree.
[[nodiscard]] std::string lean_words(double lean_x_rad, double lean_y_rad);

}  // namespace driftbench::ui
