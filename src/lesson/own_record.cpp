#include "lesson/own_record.h"

#include "lesson/sequence_evidence.h"
#include "stats/plane_scatter.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::lesson {

OwnCloud own_cloud(std::span<const math::Vec2> points_mm) {
  OwnCloud cloud;
  cloud.count = points_mm.size();
  if (const auto scatter = stats::plane_scatter(points_mm); scatter.has_value()) {
    cloud.bias_mm = scatter->mean;
    cloud.spread_mm = stats::spread(*scatter);
  } else if (!points_mm.empty()) {
    cloud.bias_mm = points_mm.front();
  }
  return cloud;
}

std::optional<Weakness> weakest_part(std::span<const AttemptErrors> attempts,
                                     const scoring::Tolerance& tolerance) {
  std::optional<Weakness> weakest;
  for (const Measure measure :
       {Measure::kEntry, Measure::kApex, Measure::kAngle, Measure::kDepth}) {
    double squares = 0.0;
    for (const AttemptErrors& errors : attempts) {
      const double share = largest_share(errors, tolerance, std::array{measure});
      squares += share * share;
    }
    const double mean =
        attempts.empty() ? 0.0 : std::sqrt(squares / static_cast<double>(attempts.size()));
    if (!attempts.empty() && (!weakest.has_value() || mean > weakest->share)) {
      weakest = Weakness{measure, mean};
    }
  }
  return weakest;
}

std::optional<std::size_t> trainer_of(Measure measure, specimen::Approach approach,
                                      std::span<const Lesson* const> lessons) {
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i < lessons.size(); ++i) {
    const Criterion& criterion = lessons[i]->criterion;
    const auto& asked = criterion.measures;
    const auto& blocks = lessons[i]->blocks;
    const bool has_approach =
        std::any_of(blocks.begin(), blocks.end(),
                    [approach](const LessonBlock& block) { return block.approach == approach; });
    if (has_approach && criterion.rule != PassRule::kNone &&
        std::find(asked.begin(), asked.end(), measure) != asked.end() &&
        (!best.has_value() || asked.size() < lessons[*best]->criterion.measures.size())) {
      best = i;
    }
  }
  return best;
}

}  // namespace driftbench::lesson
