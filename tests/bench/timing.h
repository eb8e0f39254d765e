// Collects durations and prints their median and 95th percentile as `name value` lines.
// Natively the processor time of the process, so that a busy machine says the same; under node
// elapsed time.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <vector>

#ifdef __EMSCRIPTEN__
#include <chrono>
#else
#include <ctime>
#endif

namespace driftbench::bench {

/// A moment; differences are durations.
inline double now_us() {
#ifdef __EMSCRIPTEN__
  const auto now = std::chrono::steady_clock::now().time_since_epoch();
  return std::chrono::duration<double, std::micro>(now).count();
#else
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) * 1e6 + static_cast<double>(now.tv_nsec) * 1e-3;
#endif
}

/// Durations of one piece of work.
class Durations {
 public:
  void add(double us) { us_.push_back(us); }

  /// Runs `work` once and keeps its time.
  template <typename Work>
  void time(Work&& work) {
    const double begin_us = now_us();
    work();
    add(now_us() - begin_us);
  }

  /// Nearest-rank quantile, 0 when nothing was timed.
  [[nodiscard]] double quantile_us(double share) const {
    if (us_.empty()) {
      return 0.0;
    }
    std::vector<double> sorted = us_;
    const auto rank = static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1));
    const auto place = sorted.begin() + static_cast<std::ptrdiff_t>(rank);
    std::nth_element(sorted.begin(), place, sorted.end());
    return *place;
  }

  void print(std::string_view name) const {
    fmt::print("{}_median_us {:.3f}\n{}_p95_us {:.3f}\n{}_count {}\n", name, quantile_us(0.5), name,
               quantile_us(0.95), name, us_.size());
  }

 private:
  std::vector<double> us_;
};

}  // namespace driftbench::bench
