// Rows that the tabs of the study are made of: a number to change, a switch.
#pragma once

#include "ui/frame.h"
#include "ui/layout.h"
#include "ui/stepper.h"
#include "ui/strings.h"

#include <string>

namespace driftbench::ui {

/// What a number's row steps by.
struct RowSteps {
  double step = 0.5;
  double fine = 0.1;  ///< with Shift
};

/// A number with its name; gives by how much the person changed it. Shortens the column.
[[nodiscard]] double number_row(Frame& frame, Rect& column, Str name, std::string value, Str help,
                                RowSteps steps);

/// A switch of its own row. Shortens the column.
void switch_row(Frame& frame, Rect& column, Str words, Str help, bool& value);

}  // namespace driftbench::ui
