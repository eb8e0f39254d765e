// Agreement of two measurements of the same thing: own estimate against measured.
#pragma once

#include "base/result.h"
#include "stats/paired.h"

#include <cstddef>
#include <span>

namespace driftbench::stats {

/// Differences first - second, and the limits between which 95 % of them are expected.
struct Agreement {
  std::size_t n = 0;
  double bias = 0.0;
  double sd = 0.0;
  Interval limits;           ///< bias -+ factor sd
  Interval bias_interval;    ///< 95 % interval of the bias
  double limit_reach = 0.0;  ///< half width of the 95 % interval of either limit
};

/// `factor`: 1.96 (default) or the rounded 2 of early papers. Contract: equal lengths, factor > 0.
///
/// Errors: kInvalidArgument below two pairs
/// Source: Bland, Altman (1986), Lancet i, 307; variance of a limit (1/n + factor^2 / (2 (n - 1)))
///         sd^2: Bland, Altman (1999), Stat. Methods Med. Res. 8, 135
[[nodiscard]] base::Result<Agreement> agreement(std::span<const double> first,
                                                std::span<const double> second);
[[nodiscard]] base::Result<Agreement> agreement(std::span<const double> first,
                                                std::span<const double> second, double factor);

}  // namespace driftbench::stats
