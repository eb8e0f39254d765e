// The charts of a class, each as pictures; none when there is nothing to draw.
#pragma once

#include "classroom/compile.h"
#include "classroom/picture.h"

#include <cstddef>
#include <vector>

namespace driftbench::classroom {

/// Most learners that have a row or a small picture of their own.
inline constexpr std::size_t kMaxPictured = 60;

/// About how many marks a chart of all holes draws; of more, evenly chosen ones are drawn.
inline constexpr std::size_t kMaxMarks = 4000;

/// Every n-th entry, so that at most kMaxMarks are left.
[[nodiscard]] std::vector<const Entry*> thinned(const Part& part);

/// Learners by blocks of the lesson: inside of attempted, with a mark.
[[nodiscard]] std::vector<Picture> completion_grid(const Class& whole, const Part& part);

/// One mark a learner and approach: across, how scattered; up, how far off.
[[nodiscard]] std::vector<Picture> bias_map(const Class& whole, const Part& part);

/// One small target a learner, all on one scale.
[[nodiscard]] std::vector<Picture> small_targets(const Class& whole, const Part& part);

/// All holes faint, the learners' means, and ellipses of the means.
[[nodiscard]] std::vector<Picture> pooled_target(const Class& whole, const Part& part);

/// A line a learner from free-hand to sleeve, and the differences with their interval.
[[nodiscard]] std::vector<Picture> paired_lines(const Class& whole, const Part& part);

/// Entry distance by attempt: learners faint, median strong.
[[nodiscard]] std::vector<Picture> learning_curves(const Class& whole, const Part& part);

/// Estimated against measured: distance of the entry, and depth.
[[nodiscard]] std::vector<Picture> estimates_chart(const Class& whole, const Part& part);

/// Diameter of every hole, by approach.
[[nodiscard]] std::vector<Picture> hole_sizes(const Class& whole, const Part& part);

/// Whether a learner's approach may be drawn (small groups are hidden without names).
[[nodiscard]] bool is_shown(const Part& part, stats::Approach approach);

}  // namespace driftbench::classroom
