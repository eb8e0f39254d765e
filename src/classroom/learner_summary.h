// What one learner did by one approach.
#pragma once

#include "classroom/compile.h"

namespace driftbench::classroom {

/// Distance of the entry from the plan, in the platform plane; nothing when a component is missing.
[[nodiscard]] std::optional<double> entry_distance_mm(const Entry& entry);

/// Entry points, learner and approach as given. Contract: entries not empty.
[[nodiscard]] LearnerSummary summarise(std::size_t learner, stats::Approach approach,
                                       std::vector<const Entry*> entries);

/// All measures of all approaches that have an estimate.
[[nodiscard]] std::vector<EstimateAgreement> agreements(const std::vector<const Entry*>& entries);

}  // namespace driftbench::classroom
