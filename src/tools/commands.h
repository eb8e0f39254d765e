// The subcommands of the command-line tool.
#pragma once

#include "tools/arguments.h"

#include <span>
#include <string_view>
#include <vector>

namespace driftbench::tools {

/// Exit codes of the program.
enum ExitCode : int {
  kGood = 0,
  kFoundWrong = 1,  ///< a file is wrong, or a replay differs
  kBadInput = 2     ///< bad usage, or input that cannot be used
};

struct Command {
  std::string_view name;
  std::string_view summary;  ///< one line
  std::string_view help;     ///< usage, units, one example
  std::vector<Flag> flags;   ///< besides --json and --help
  int (*run)(const Arguments& arguments) = nullptr;
};

[[nodiscard]] Command budget_command();
[[nodiscard]] Command check_command();
[[nodiscard]] Command measure_command();
[[nodiscard]] Command sleeve_command();
[[nodiscard]] Command practise_command();
[[nodiscard]] Command replay_command();
[[nodiscard]] Command stats_command();
[[nodiscard]] Command class_command();
[[nodiscard]] Command map_command();

}  // namespace driftbench::tools
