// The files of a class report: one list for the command line and the Classroom.
#pragma once

#include "classroom/compile.h"

#include <array>
#include <string>
#include <string_view>

namespace driftbench::classroom {

/// One file of a report.
struct Output {
  std::string_view name;
  std::string (*content)(const Class&);
};

/// The file by which a folder is known to hold an earlier report.
inline constexpr std::string_view kSummaryFile = "class-summary.json";

extern const std::array<Output, 6> kOutputs;

}  // namespace driftbench::classroom
