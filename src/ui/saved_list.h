// Stored attempts in the logbook: open, export, delete.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"

#include <string>

namespace driftbench::ui {

/// Entry, apex, angle and depth of an attempt in words.
[[nodiscard]] std::string saved_figures(const SavedAttempt& saved);

/// Draws the attempts of a lesson from the top of the column; gives where they end.
float saved_list(Frame& frame, Rect column, const std::string& lesson_id);

}  // namespace driftbench::ui
