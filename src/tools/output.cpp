#include "tools/output.h"

#include "tools/commands.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

namespace driftbench::tools {

void print(std::string_view text) {
  std::fwrite(text.data(), 1, text.size(), stdout);
}

void print_message(std::string_view text) {
  const std::string line = fmt::format("{}\n", text);
  std::fwrite(line.data(), 1, line.size(), stderr);
}

int refuse(std::string_view command, const base::Error& error) {
  print_message(fmt::format("driftbench {}: {}", command, error.message));
  return kBadInput;
}

std::string table(const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths;
  for (const std::vector<std::string>& row : rows) {
    widths.resize(std::max(widths.size(), row.size()), 0);
    for (std::size_t i = 0; i < row.size(); ++i) {
      widths[i] = std::max(widths[i], row[i].size());
    }
  }
  std::string text;
  for (const std::vector<std::string>& row : rows) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i) {
      line += i == 0 ? fmt::format("{:<{}}", row[i], widths[i])
                     : fmt::format("  {:>{}}", row[i], widths[i]);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  }
  return text;
}

}  // namespace driftbench::tools
