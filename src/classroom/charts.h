// The charts of the report, each as inline SVG; empty text when there is nothing to draw.
#pragma once

#include "classroom/compile.h"

#include <cstddef>
#include <string>
#include <vector>

namespace driftbench::classroom {

/// Most learners that have a row or a small picture of their own.
inline constexpr std::size_t kMaxPictured = 60;

/// About how many marks a chart of all holes draws; of more, evenly chosen ones are drawn.
inline constexpr std::size_t kMaxMarks = 4000;

/// Every n-th entry, so that at most kMaxMarks are left.
[[nodiscard]] std::vector<const Entry*> thinned(const Part& part);

/// Learners by blocks of the lesson: inside of attempted, with a mark.
[[nodiscard]] std::string completion_grid(const Class& whole, const Part& part);

/// One mark a learner and approach: across, how scattered; up, how far off.
[[nodiscard]] std::string bias_map(const Class& whole, const Part& part);

/// One small target a learner, all on one scale.
[[nodiscard]] std::string small_targets(const Class& whole, const Part& part);

/// All holes faint, the learners' means, and ellipses of the means.
[[nodiscard]] std::string pooled_target(const Class& whole, const Part& part);

/// A line a learner from free-hand to sleeve, and the differences with their interval.
[[nodiscard]] std::string paired_lines(const Class& whole, const Part& part);

/// Entry distance by attempt: learners faint, median strong.
[[nodiscard]] std::string learning_curves(const Class& whole, const Part& part);

/// Estimated against measured: distance of the entry, and depth.
[[nodiscard]] std::string estimates_chart(const Class& whole, const Part& part);

/// Diameter of every hole, by approach.
[[nodiscard]] std::string hole_sizes(const Class& whole, const Part& part);

/// Whether a learner's approach may be drawn (small groups are hidden without names).
[[nodiscard]] bool is_shown(const Part& part, stats::Approach approach);

}  // namespace driftbench::classroom
