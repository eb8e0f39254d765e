// A fair experiment: free-hand against sleeve, planned before anybody drills. How many people and
// holes, and who goes in which order, drawn by a printed seed.
#pragma once

#include "base/result.h"
#include "lesson/lesson.h"
#include "stats/holes_table.h"
#include "stats/sample_size.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::classroom {

inline constexpr std::string_view kExperimentEnding = ".experiment.json";
inline constexpr std::string_view kExperimentFormat = "driftbench-experiment";
inline constexpr std::size_t kMaxExperimentBytes = std::size_t{1} << 20U;
inline constexpr std::size_t kMaxPlaces = 500;
inline constexpr std::size_t kMaxHolesEach = 50;
inline constexpr std::size_t kMaxPairs = 500;
inline constexpr std::int64_t kMaxSeed = 9'007'199'254'740'991;

/// Whom the result is to speak about: the two have another unit and another sample size.
enum class ExperimentKind : std::uint8_t {
  kClass,        ///< people like these; the unit is a person, the mean of the holes by either way
  kOneOperator,  ///< this one person; the unit is a pair of sites
};

/// In which order a person of a class drills.
enum class OrderScheme : std::uint8_t {
  kSwitchOnce,  ///< all holes by one technique, then all by the other
  kMixed,       ///< both in short runs that hold them equally often
};

inline constexpr std::array<std::string_view, 2> kExperimentKinds{"class", "one-operator"};
inline constexpr std::array<std::string_view, 2> kOrderSchemes{"switch-once", "mixed"};

/// What is planned.
struct ExperimentDesign {
  std::string title;
  ExperimentKind kind = ExperimentKind::kClass;
  std::size_t units = 12;      ///< people, or pairs of sites of the one operator
  std::size_t holes_each = 3;  ///< by either technique, of each person; 1 for pairs of sites
  OrderScheme scheme = OrderScheme::kSwitchOnce;
  double difference_mm = 0.5;   ///< of the mean entry error: the smallest that would matter
  double sd_effect_mm = 0.4;    ///< between people, of what the sleeve changes
  double sd_freehand_mm = 0.8;  ///< of one person's entry error from hole to hole
  double sd_sleeve_mm = 0.4;
  stats::Demand demand;
  std::uint64_t seed = 1;

  friend bool operator==(const ExperimentDesign&, const ExperimentDesign&) = default;
};

/// One person's order. The code name may come later: the place is what is handed out.
struct ExperimentPlace {
  std::string code;
  std::vector<stats::Approach> order;

  friend bool operator==(const ExperimentPlace&, const ExperimentPlace&) = default;
};

struct Experiment {
  ExperimentDesign design;
  std::vector<ExperimentPlace> places;
};

/// What a design asks for and what its numbers can find.
struct ExperimentSize {
  double sd_difference_mm = 0.0;               ///< of one unit's difference
  base::Result<stats::PlannedSize> needed;     ///< units for the power asked
  base::Result<stats::PlannedSize> needed_90;  ///< and for 90 %
  double power = 0.0;                          ///< of the planned units; 0 below two
  base::Result<double> detectable_mm;          ///< smallest difference that the planned units find
};

/// Source: design of pairs, stats/sample_size.h; detectable difference: bisection of the exact
/// power
[[nodiscard]] ExperimentSize experiment_size(const ExperimentDesign& design);

/// Whether each technique follows each about equally often.
[[nodiscard]] bool is_mixed(const ExperimentDesign& design);

/// Who goes in which order; a function of the design alone. Both orders are as frequent as the
/// number allows, drawn in runs of 2 or 4 whose length is random too.
///
/// Errors: kOutOfRange for numbers beyond the limits above
/// Source: permuted blocks of random length, lesson/sequence_order.h; run lengths 2 and 4: own
/// choice
[[nodiscard]] base::Result<Experiment> allocate(const ExperimentDesign& design);

/// File of the experiment (schema: lessons/schema/experiment.schema.json).
[[nodiscard]] std::string write_experiment(const Experiment& experiment);

/// Reads it. An order that the seed does not give is an error: it was not drawn.
[[nodiscard]] lesson::ReadOutcome<Experiment> read_experiment(std::string_view text,
                                                              std::string_view file_name);

/// Sentences about the plan, the answer first.
[[nodiscard]] std::vector<std::string> plan_sentences(const ExperimentDesign& design);

/// What such an experiment cannot say, whatever comes out.
[[nodiscard]] std::vector<std::string> plan_limits(const ExperimentDesign& design);

/// "Free-hand first" ...; the whole order as "FS SF" where it is mixed.
[[nodiscard]] std::string order_words(const ExperimentPlace& place);

/// The allocation as a page to print: the plan in words, a row a place, a slip a place to cut off.
[[nodiscard]] std::string experiment_sheet_html(const Experiment& experiment);

}  // namespace driftbench::classroom
