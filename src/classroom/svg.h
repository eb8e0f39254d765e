// A chart as inline SVG; looks come from the report's style sheet.
#pragma once

#include "classroom/picture.h"

#include <string>
#include <vector>

namespace driftbench::classroom {

/// Numbers are written with two decimals, so that equal data give equal bytes.
[[nodiscard]] std::string svg_text(const Picture& picture);

/// All of them, one after the other.
[[nodiscard]] std::string svg_text(const std::vector<Picture>& pictures);

}  // namespace driftbench::classroom
