#include "tools/progress.h"

#include <fmt/format.h>

#include <cstdio>
#include <string>
#include <unistd.h>

namespace driftbench::tools {
namespace {

constexpr std::size_t kCells = 40;

void write_line(const std::string& text) {
  std::fwrite(text.data(), 1, text.size(), stderr);
  std::fflush(stderr);
}

}  // namespace

Progress::Progress(std::size_t total)
    : total_(total), is_terminal_(total > 0 && isatty(STDERR_FILENO) == 1) {}

void Progress::show(std::size_t finished) {
  if (!is_terminal_) {
    return;
  }
  const std::size_t filled = finished * kCells / total_;
  if (filled != shown_ || finished == 1) {
    shown_ = filled;
    write_line(fmt::format("\r[{}{}] {} of {}", std::string(filled, '#'),
                           std::string(kCells - filled, '.'), finished, total_));
  }
}

void Progress::end() {
  if (is_terminal_) {
    write_line("\r\x1b[K");
  }
}

}  // namespace driftbench::tools
