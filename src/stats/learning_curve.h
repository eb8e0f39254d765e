// Curves of error against attempt number: levelling off, saturating, power law.
#pragma once

#include "base/result.h"
#include "stats/least_squares.h"

#include <span>

namespace driftbench::stats {

/// y = asymptote + gain exp(-rate (x - 1)): starts at asymptote + gain at the first attempt and
/// levels off. Parameters in this order: asymptote, gain, rate.
///
/// The learning curve of the reports: start, speed and level are what a teacher asks for.
/// Errors of all fits: as fit_curve. Contract of all: x and y of equal length.
/// Source: three parameters, intercept, slope and asymptote: Pusic et al. (2015), Acad. Med. 90,
///         doi 10.1097/ACM.0000000000000681
[[nodiscard]] base::Result<CurveFit<3>> fit_levelling(std::span<const double> x,
                                                      std::span<const double> y);

/// y = level (1 - exp(-rate x)). Parameters: level, rate. Source: NIST StRD model of Misra1a
[[nodiscard]] base::Result<CurveFit<2>> fit_saturating(std::span<const double> x,
                                                       std::span<const double> y);

/// y = first x^exponent. Parameters: first, exponent. Values need x > 0.
///
/// Errors besides: kInvalidArgument when an x is not positive
/// Source: NIST StRD model of DanWood
[[nodiscard]] base::Result<CurveFit<2>> fit_power(std::span<const double> x,
                                                  std::span<const double> y);

}  // namespace driftbench::stats
