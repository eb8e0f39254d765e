// A bar on stderr while many attempts run; nothing when stderr is no terminal.
#pragma once

#include <cstddef>

namespace driftbench::tools {

class Progress {
 public:
  explicit Progress(std::size_t total);

  void show(std::size_t finished);

  /// Clears the line.
  void end();

 private:
  std::size_t total_ = 0;
  std::size_t shown_ = 0;  ///< filled cells; redrawn only when they change
  bool is_terminal_ = false;
};

}  // namespace driftbench::tools
