// All statistics of a class: each approach by itself, and free-hand against sleeve.
#pragma once

#include "base/result.h"
#include "stats/ellipse.h"
#include "stats/holes_table.h"
#include "stats/hotelling.h"
#include "stats/one_way.h"
#include "stats/paired.h"

#include <cstddef>
#include <vector>

namespace driftbench::stats {

/// Level of all intervals and ellipses.
inline constexpr double kLevel = 0.95;

/// One approach. Every value is there or has the reason why not.
struct GroupStatistics {
  Approach approach = Approach::kFreehand;
  std::size_t n = 0;  ///< holes with both entry components: all but the last three rest on them
  std::size_t operators = 0;      ///< who made them
  std::size_t measured = 0;       ///< holes with the measure
  base::Result<math::Vec2> bias;  ///< mean entry from the plan: md, bl
  base::Result<math::Vec2> sd;    ///< of md and of bl, n - 1
  base::Result<double> spread_mm;
  base::Result<double> r50_mm;  ///< about the target, bias included
  base::Result<double> r95_mm;
  base::Result<Ellipse> prediction_ellipse;
  base::Result<Ellipse> mean_ellipse;
  base::Result<Hotelling> hotelling;
  base::Result<double> repeatability_sd;
  base::Result<double> between_operator_sd;
  base::Result<double> reproducibility_sd;
};

/// Free-hand against sleeve, by operators who did both.
struct PairedStatistics {
  std::size_t operators = 0;
  base::Result<double> mean_difference;  ///< free-hand - sleeve, of the operators' means
  base::Result<PairedT> t;
  base::Result<double> rank_sum;  ///< of positive differences
  base::Result<double> rank_p;
  base::Result<double> spread_ratio;  ///< free-hand / sleeve
  base::Result<Interval> spread_ratio_interval;
};

struct ClassStatistics {
  std::vector<GroupStatistics> groups;  ///< approaches that the table has, in their order
  PairedStatistics paired;
};

/// Source: each statistic at its own function
[[nodiscard]] ClassStatistics class_statistics(const HoleTable& table);

}  // namespace driftbench::stats
