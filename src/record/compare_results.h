// Differences between two results, number by number.
#pragma once

#include "scoring/results.h"

#include <string>
#include <vector>

namespace driftbench::record {

/// One sentence for every part that differs: "angle_deg: recorded 1.5, replayed 1.6". Numbers must
/// be the same bit for bit (0 and -0 count as one); of the slices only the first difference is
/// named.
[[nodiscard]] std::vector<std::string> result_differences(const scoring::Results& recorded,
                                                          const scoring::Results& replayed);

}  // namespace driftbench::record
