// driftbench: checks files, measures, practises, replays and compares on the command line.
#include "tools/arguments.h"
#include "tools/commands.h"
#include "tools/output.h"

#include <fmt/format.h>

#include <exception>
#include <string>
#include <vector>

namespace driftbench::tools {
namespace {

std::vector<Command> all_commands() {
  return {check_command(),  measure_command(),  sleeve_command(),
          budget_command(), practise_command(), replay_command(),
          stats_command(),  class_command(),    map_command()};
}

std::string program_help(const std::vector<Command>& commands) {
  constexpr std::size_t kNameWidth = 10;
  std::string text =
      "driftbench: practise preparing an implant site in simulated foam, and measure it.\n\n"
      "usage: driftbench COMMAND [WORDS] [--json]\n\n";
  for (const Command& command : commands) {
    text += fmt::format("  {:<{}}{}\n", command.name, kNameWidth, command.summary);
  }
  text +=
      "\n"
      "  --json    one JSON document on stdout and nothing else; messages go to stderr\n"
      "  --help    after a command: its flags, units and an example\n"
      "\n"
      "Lengths are in mm, angles in degrees, forces in N, times in s.\n"
      "Exit code 0: good; 1: something is wrong or does not match; 2: bad usage or input.\n"
      "Teaching tool: simulated material, not clinical advice.\n\n"
      "example: driftbench check lessons/find-the-centre.lesson.json\n";
  return text;
}

int run_command(const Command& command, std::span<const std::string> words) {
  std::vector<Flag> flags = command.flags;
  flags.push_back({"--json", false});
  flags.push_back({"--help", false});
  const base::Result<Arguments> arguments = Arguments::parse(words, flags);
  if (!arguments) {
    return refuse(command.name, arguments.error());
  }
  if (arguments->has("--help")) {
    print(command.help);
    return kGood;
  }
  return command.run(*arguments);
}

int run(const std::vector<std::string>& words) {
  const std::vector<Command> commands = all_commands();
  if (words.empty()) {
    print_message(program_help(commands));
    return kBadInput;
  }
  if (words[0] == "--help" || words[0] == "-h" || words[0] == "help") {
    print(program_help(commands));
    return kGood;
  }
  for (const Command& command : commands) {
    if (command.name == words[0]) {
      return run_command(command, std::span(words).subspan(1));
    }
  }
  print_message(
      fmt::format("driftbench: found \"{}\", expected a command that --help lists", words[0]));
  return kBadInput;
}

}  // namespace
}  // namespace driftbench::tools

int main(int argc, char** argv) {
  using driftbench::tools::kBadInput;
  using driftbench::tools::print_message;
  try {
    return driftbench::tools::run(std::vector<std::string>(argv + 1, argv + argc));
  } catch (const std::exception& failure) {
    // Only third-party code throws; memory may also run out.
    print_message(fmt::format("driftbench: stopped by {}", failure.what()));
    return kBadInput;
  }
}
