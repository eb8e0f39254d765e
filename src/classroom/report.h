// report.html: the debrief of a class as one page without scripts, for projecting and printing.
#pragma once

#include "classroom/compile.h"

#include <string>

namespace driftbench::classroom {

[[nodiscard]] std::string report_html(const Class& whole);

}  // namespace driftbench::classroom
