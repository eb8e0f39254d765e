// One hole of a real block, from marked photographs and probe readings to a row of holes.csv.
#pragma once

#include <string>
#include <string_view>

namespace driftbench::classroom {

/// Measures what is there and says why the rest is not. Request and answer are JSON of the page
/// (web/photo.js): the request holds the words of the row (`operator`, `approach`, ...),
/// `planned_depth_mm`, and `top`, `front`, `side`, `probe`, each of which may be missing; a point
/// is [x, y, zoom]. The answer holds the same four, each as values with `u95` or as a `reason`;
/// `row` and `header` as lines of CSV, or `problems` as sentences.
///
/// The row has the columns of holes.csv, the source `bench`, and behind them what only a real block
/// has: `rim_diameter_mm` and the uncertainties `*_u95_*`. The rim is not the diameter 1 to 3 mm
/// below it, so `hole_diameter_mm` stays empty. What was not measured stays empty.
[[nodiscard]] std::string measure_real_hole(std::string_view request);

}  // namespace driftbench::classroom
