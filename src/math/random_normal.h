// Normally distributed random numbers with the same stream in every build.
#pragma once

#include "base/random.h"

namespace driftbench::math {

/// One draw from the standard normal distribution; always takes two numbers from the generator.
///
/// Source: Box, Muller (1958), Ann. Math. Statist. 29, cosine branch only
[[nodiscard]] double normal(base::Rng& rng);

/// Mean and standard deviation given. Contract: sd >= 0.
[[nodiscard]] double normal(base::Rng& rng, double mean, double sd);

/// Normal restricted to mean +- limit_sd * sd, drawn again until inside.
/// Contract: sd >= 0, limit_sd >= 0.5 (at least 38 % of draws are kept).
[[nodiscard]] double normal_truncated(base::Rng& rng, double mean, double sd, double limit_sd);

}  // namespace driftbench::math
