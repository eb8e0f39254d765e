// Native build: a few threads take job numbers from one counter.
#include "tools/parallel.h"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <thread>
#include <vector>

namespace driftbench::tools {

unsigned usable_threads() {
  return std::max(1U, std::thread::hardware_concurrency());
}

void run_jobs(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& job,
              const std::function<void(std::size_t)>& done) {
  std::atomic<std::size_t> next{0};
  std::mutex reporting;
  std::size_t finished = 0;
  const auto work = [&] {
    for (std::size_t i = next++; i < count; i = next++) {
      job(i);
      const std::lock_guard<std::mutex> lock(reporting);
      done(++finished);
    }
  };
  std::vector<std::thread> workers;
  for (unsigned i = 1; i < std::min<std::size_t>(threads, count); ++i) {
    workers.emplace_back(work);
  }
  work();
  for (std::thread& worker : workers) {
    worker.join();
  }
}

}  // namespace driftbench::tools
