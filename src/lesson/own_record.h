// What the own attempts say about the person: middle, scatter, and what trains the weakest part.
#pragma once

#include "lesson/lesson.h"
#include "lesson/past_attempt.h"
#include "math/vec.h"

#include <cstddef>
#include <optional>
#include <span>

namespace driftbench::lesson {

/// Middle and scatter of points on one target. Unit: mm
struct OwnCloud {
  std::size_t count = 0;
  math::Vec2 bias_mm{0.0};
  std::optional<double> spread_mm;  ///< one standard deviation of both directions; from two points
};

[[nodiscard]] OwnCloud own_cloud(std::span<const math::Vec2> points_mm);

/// The measure whose error is largest as a part of its tolerance (root mean square over the
/// attempts), and that part.
struct Weakness {
  Measure measure = Measure::kEntry;
  double share = 0.0;
};

/// Nothing without attempts. Source: own rule
[[nodiscard]] std::optional<Weakness> weakest_part(std::span<const AttemptErrors> attempts,
                                                   const scoring::Tolerance& tolerance);

/// The lesson that trains a measure in this approach: one with a block in it, whose criterion asks
/// for the measure among the fewest; the earlier one of two. Nothing when there is none.
/// Source: own rule
[[nodiscard]] std::optional<std::size_t> trainer_of(Measure measure, specimen::Approach approach,
                                                    std::span<const Lesson* const> lessons);

}  // namespace driftbench::lesson
