// WebAssembly build: no threads, one job after the other.
#include "tools/parallel.h"

namespace driftbench::tools {

unsigned usable_threads() {
  return 1;
}

void run_jobs(std::size_t count, unsigned /*threads*/, const std::function<void(std::size_t)>& job,
              const std::function<void(std::size_t)>& done) {
  for (std::size_t i = 0; i < count; ++i) {
    job(i);
    done(i + 1);
  }
}

}  // namespace driftbench::tools
