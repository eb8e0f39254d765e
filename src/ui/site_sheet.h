// The site sheet as a page to print: plan, sums, support, room, what to check before drilling.
#pragma once

#include "ui/model.h"

#include <string>

namespace driftbench::ui {

/// A whole page without anything from outside, in the current language; for A4 and Letter.
///
/// Contract: the model has a set-up with a guide, and its room
[[nodiscard]] std::string site_sheet_html(const Model& model);

/// Name of the file, "site-sheet-46.html".
[[nodiscard]] std::string site_sheet_name(const Model& model);

}  // namespace driftbench::ui
