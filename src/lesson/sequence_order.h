// In which order the attempts of a lesson come.
#pragma once

#include "base/random.h"
#include "lesson/lesson.h"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace driftbench::lesson {

/// Whether the attempts of a block are mixed with those of others.
[[nodiscard]] bool is_mixed(const OrderPlan& order, const LessonBlock& block);

/// Arms 0 and 1, `per_arm` times each, in runs that hold both equally often; each run's length is
/// drawn from `run_sizes` and cut to what is left. At every place one arm is ahead by at most half
/// of the longest run. Contract: run_sizes are even, above 0 and not empty.
///
/// Source: permuted-block randomisation with random block sizes; shuffling: Knuth, TAOCP 2, 3.4.2 P
[[nodiscard]] std::vector<std::size_t> balanced_runs(std::size_t per_arm,
                                                     std::span<const int> run_sizes,
                                                     base::Rng& rng);

/// Index of the block of every planned attempt of a round, in order; a function of its arguments
/// alone. Every block occurs as often as it has attempts.
[[nodiscard]] std::vector<std::size_t> planned_order(const Lesson& lesson, std::uint64_t seed,
                                                     std::uint64_t round);

}  // namespace driftbench::lesson
