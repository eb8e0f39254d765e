// Independent jobs on several threads, or one after the other where there are none.
#pragma once

#include <cstddef>
#include <functional>

namespace driftbench::tools {

/// Threads that this machine runs at once; 1 where the program has no threads.
[[nodiscard]] unsigned usable_threads();

/// Calls job(0) ... job(count - 1), each once, in any order, and returns when all are done. Jobs
/// must not share anything that they change; `done(n)` is called with the number finished so far,
/// never by two threads at once.
void run_jobs(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& job,
              const std::function<void(std::size_t)>& done);

}  // namespace driftbench::tools
