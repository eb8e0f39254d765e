// A planned experiment held against what was collected: who followed it, and what came out.
#pragma once

#include "classroom/experiment.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::classroom {

struct Class;
struct Part;

/// How a place of the plan stands.
enum class Following : std::uint8_t {
  kFollowed,    ///< all holes, in the drawn order; more may follow
  kIncomplete,  ///< in the drawn order, but not all
  kOtherOrder,
  kNoPeriods,  ///< the attempts say no order
  kNotThere,   ///< no attempt of this code
  kNoCode,     ///< the plan has no code name for this place yet
};

struct PlaceOutcome {
  Following following = Following::kNoCode;
  std::optional<std::size_t> learner;  ///< index into Class::learners
  std::size_t done = 0;                ///< holes free-hand or by sleeve
  std::size_t planned = 0;
  std::size_t first_other = 0;  ///< kOtherOrder: number of the first hole out of order, from 1
};

struct ExperimentOutcome {
  std::vector<PlaceOutcome> places;
  std::size_t not_allocated = 0;     ///< learners without a place
  bool is_followed = false;          ///< by everyone who has a place
  std::string followed;              ///< the same in a sentence
  std::vector<std::string> results;  ///< sentences, the interval first
  std::vector<std::string> limits;   ///< what this cannot say

  [[nodiscard]] std::size_t count(Following following) const;
};

/// `part` must be compiled but for its outcome; groups that `whole` does not show stay hidden.
[[nodiscard]] ExperimentOutcome held_against(const Experiment& experiment, const Class& whole,
                                             const Part& part);

/// "followed", "4 of 6 holes, in the drawn order" ...
[[nodiscard]] std::string following_words(const PlaceOutcome& place);

}  // namespace driftbench::classroom
