// Wilcoxon's signed-rank test of paired differences, exact.
#pragma once

#include "base/result.h"

#include <cstddef>
#include <span>
#include <vector>

namespace driftbench::stats {

/// Up to this many pairs the probability is counted exactly; beyond it none is given.
inline constexpr std::size_t kMaxExactPairs = 20;

/// Ranks of the sizes from 1, equal sizes share the mean of their ranks.
[[nodiscard]] std::vector<double> mid_ranks(std::span<const double> sizes);

/// Sum of the ranks of positive differences; zeros take part in the ranking and count for neither
/// side. Equal sizes share mid-ranks. 0 without differences.
[[nodiscard]] double signed_rank_sum(std::span<const double> differences);

/// Two-sided probability of a rank sum at least as far from its mean, over all changes of sign of
/// the differences that are not 0.
///
/// Errors: kInvalidArgument below one pair; kOutOfRange above kMaxExactPairs
/// Source: Wilcoxon (1945), Biometrics 1, 80; zeros as in Pratt (1959), JASA 54, 655
[[nodiscard]] base::Result<double> signed_rank_p(std::span<const double> differences);

}  // namespace driftbench::stats
