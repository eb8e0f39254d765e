// A roster compiled: for each source the groups, pairs, learners, estimates and what may be said.
#pragma once

#include "classroom/experiment_outcome.h"
#include "classroom/roster.h"
#include "math/vec.h"
#include "stats/bland_altman.h"
#include "stats/class_statistics.h"
#include "stats/learning_curve.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::classroom {

/// Groups of fewer learners are not shown without names. Own choice, after guides on small cells.
inline constexpr std::size_t kMinShownLearners = 5;

/// Names by code, from the instructor's own list.
using Names = std::map<std::string, std::string>;

/// Reads a table with the columns code and name.
///
/// Errors: as base::parse_csv; kParse for a missing column or a code that stands there twice
[[nodiscard]] base::Result<Names> read_names(std::string_view text, const std::string& file_name);

/// One learner by one approach.
struct LearnerSummary {
  std::size_t learner = 0;  ///< index into Class::learners
  stats::Approach approach = stats::Approach::kFreehand;
  std::vector<const Entry*> entries;  ///< by period
  std::size_t inside = 0;             ///< within every tolerance
  std::size_t judged = 0;             ///< inside or outside; table rows are not judged
  std::size_t events = 0;
  base::Result<math::Vec2> bias;  ///< mean entry: md, bl
  base::Result<double> bias_mm;   ///< its length
  base::Result<double> spread_mm;
  base::Result<double> depth_mean_mm;
  base::Result<double> depth_sd_mm;
  base::Result<double> angle_mean_deg;
  base::Result<double> diameter_mean_mm;
  base::Result<double> time_median_s;
  base::Result<double> estimate_error_mm;     ///< mean distance, estimated to measured entry
  base::Result<stats::CurveFit<3>> learning;  ///< of entry distance: level, gain, rate
};

/// Own estimate against measured, one measure of one approach.
struct EstimateAgreement {
  std::string_view measure;
  stats::Approach approach = stats::Approach::kFreehand;
  std::size_t learners = 0;
  base::Result<stats::Agreement> agreement;  ///< estimate - measured
};

/// In which order the techniques came.
enum class TechniqueOrder {
  kNoPairs,        ///< nobody did both
  kUnknown,        ///< periods are missing
  kFreehandFirst,  ///< everyone: practice and technique cannot be separated
  kSleeveFirst,    ///< everyone
  kBoth,           ///< some this way, some that
  kMixed,          ///< everyone followed a drawn order in which both alternate
};

/// One source by itself.
struct Part {
  Source source = Source::kSimulated;
  std::vector<const Entry*> entries;    ///< that count, by learner (class order), then period
  stats::ClassStatistics statistics;    ///< groups of at least kMinShownLearners, or all with names
  stats::HoleTable table;               ///< what the statistics rest on
  std::vector<stats::Approach> hidden;  ///< approaches left out as small groups
  bool is_paired_hidden = false;
  std::vector<LearnerSummary> learners;
  std::vector<EstimateAgreement> estimates;
  TechniqueOrder order = TechniqueOrder::kNoPairs;
  std::optional<scoring::Tolerance> tolerance;  ///< when all records have the same
  std::size_t learner_count = 0;
  std::optional<ExperimentOutcome> experiment;  ///< where a planned one was collected
};

/// Moves, but is not copied: parts point into the roster.
struct Class {
  Class() = default;
  Class(Class&&) = default;
  Class& operator=(Class&&) = default;
  Class(const Class&) = delete;
  Class& operator=(const Class&) = delete;
  ~Class() = default;

  Roster roster;
  std::vector<std::string> learners;  ///< codes in random order, the same for the same class
  std::optional<Names> names;
  std::vector<Part> parts;    ///< sources that have holes, in the order of Source
  bool is_disguised = false;  ///< learners are called by their number in the order of `learners`

  /// Whether a group of so many learners is shown.
  [[nodiscard]] bool shows(std::size_t learner_count) const {
    return names.has_value() || learner_count >= kMinShownLearners;
  }
};

/// With a `disguise`, learners stand in an order that only this number gives and are called by
/// their number in it: for a screen that others see.
///
/// Source: each statistic at its own function in stats
[[nodiscard]] Class compile(Roster roster, std::optional<Names> names,
                            std::optional<std::uint64_t> disguise = std::nullopt);

}  // namespace driftbench::classroom
