// Rows of a holes.csv as entries; a wrong row is a sentence with its line, the others stay.
#pragma once

#include "base/result.h"
#include "classroom/entry.h"

#include <functional>
#include <string>
#include <string_view>

namespace driftbench::classroom {

/// Gives every good row to `on_row`, and a sentence with the line of every bad one to `on_refused`.
///
/// Without a column `source` a row counts as measured on a real block: tables of the program always
/// have it.
/// Errors: as base::visit_csv; kParse for a missing column (operator, approach, two components)
[[nodiscard]] base::Result<void> visit_holes(
    std::string_view text, const std::string& file_name,
    const std::function<base::Result<void>(Entry&&)>& on_row,
    const std::function<void(std::string)>& on_refused);

}  // namespace driftbench::classroom
