// methods.md: how the class was collected and computed, in words, with blanks for the human parts.
#pragma once

#include "classroom/compile.h"

#include <string>

namespace driftbench::classroom {

[[nodiscard]] std::string methods_md(const Class& whole);

}  // namespace driftbench::classroom
