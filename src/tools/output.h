// What the program prints: results on stdout, messages on stderr.
#pragma once

#include "base/result.h"

#include <string>
#include <string_view>
#include <vector>

namespace driftbench::tools {

/// Writes to stdout as it is.
void print(std::string_view text);

/// One line on stderr.
void print_message(std::string_view text);

/// Prints the error as one line on stderr and gives the exit code for bad input.
int refuse(std::string_view command, const base::Error& error);

/// Rows under a header, columns padded to their widest cell; numbers and words right-aligned but
/// for the first column.
[[nodiscard]] std::string table(const std::vector<std::vector<std::string>>& rows);

}  // namespace driftbench::tools
