#include "classroom/experiment_outcome.h"

#include "classroom/compile.h"
#include "classroom/learner_summary.h"
#include "classroom/words.h"
#include "stats/paired.h"
#include "stats/series.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace driftbench::classroom {
namespace {

using stats::Approach;

bool is_compared(const Entry& entry) {
  return entry.approach != Approach::kPilot;
}

/// A learner's holes free-hand and by sleeve, in the order of their periods.
std::vector<const Entry*> holes_of(const Part& part, const std::string& code) {
  std::vector<const Entry*> holes;
  for (const Entry* entry : part.entries) {
    if (entry->learner == code && is_compared(*entry)) {
      holes.push_back(entry);
    }
  }
  return holes;
}

std::vector<std::string> learners_of(const Part& part) {
  std::vector<std::string> codes;
  for (const Entry* entry : part.entries) {
    if (is_compared(*entry) && (codes.empty() || codes.back() != entry->learner)) {
      codes.push_back(entry->learner);
    }
  }
  return codes;
}

PlaceOutcome follow(const ExperimentPlace& place, const std::vector<const Entry*>& holes) {
  PlaceOutcome outcome;
  outcome.planned = place.order.size();
  outcome.done = holes.size();
  if (holes.empty()) {
    outcome.following = Following::kNotThere;
    return outcome;
  }
  const bool has_periods = std::all_of(
      holes.begin(), holes.end(), [](const Entry* entry) { return entry->period.has_value(); });
  if (!has_periods) {
    outcome.following = Following::kNoPeriods;
    return outcome;
  }
  for (std::size_t i = 0; i < std::min(holes.size(), place.order.size()); ++i) {
    if (holes[i]->approach != place.order[i]) {
      outcome.following = Following::kOtherOrder;
      outcome.first_other = i + 1;
      return outcome;
    }
  }
  outcome.following =
      holes.size() < place.order.size() ? Following::kIncomplete : Following::kFollowed;
  return outcome;
}

/// Free-hand minus sleeve of one learner's mean entry errors.
std::optional<double> difference_of(const std::vector<const Entry*>& holes) {
  std::vector<double> freehand;
  std::vector<double> sleeve;
  for (const Entry* entry : holes) {
    if (const std::optional<double> distance = entry_distance_mm(*entry)) {
      (entry->approach == Approach::kFreehand ? freehand : sleeve).push_back(*distance);
    }
  }
  if (freehand.empty() || sleeve.empty()) {
    return std::nullopt;
  }
  return stats::mean(freehand) - stats::mean(sleeve);
}

/// Free-hand minus sleeve of every pair of sites: holes 1 and 2, 3 and 4 ...
std::vector<double> pair_differences(const std::vector<const Entry*>& holes) {
  std::vector<double> differences;
  for (std::size_t i = 0; i + 1 < holes.size(); i += 2) {
    if (holes[i]->approach == holes[i + 1]->approach) {
      continue;
    }
    if (const auto difference = difference_of({holes[i], holes[i + 1]})) {
      differences.push_back(*difference);
    }
  }
  return differences;
}

/// "changed the entry error by -0.60 mm (95 % interval -0.90 to -0.30)".
std::string change_words(const base::Result<stats::PairedT>& test) {
  return test ? fmt::format("by {} mm (95 % interval {} to {})", mm(-test->mean),
                            mm(-test->interval.high), mm(-test->interval.low))
              : fmt::format("by an amount that has no interval: {}", test.error().message);
}

/// What the interval says about the difference that would matter.
std::string matter_sentence(const base::Result<stats::PairedT>& test, double difference_mm) {
  if (!test) {
    return {};
  }
  const std::string size = mm(difference_mm);
  const stats::Interval& gain = test->interval;
  if (gain.low >= difference_mm) {
    return fmt::format("The whole interval lies beyond the {} mm that were said to matter.", size);
  }
  if (gain.high <= -difference_mm) {
    return fmt::format(
        "The whole interval lies beyond {} mm, the other way round: the sleeve was "
        "worse.",
        size);
  }
  if (gain.high < difference_mm && gain.low > -difference_mm) {
    return fmt::format("The interval leaves out a difference of {} mm, which was said to matter.",
                       size);
  }
  return fmt::format(
      "A difference of {} mm, which was said to matter, is inside the interval or "
      "touches it: these data neither settle nor exclude it.",
      size);
}

class Outcome {
 public:
  Outcome(const Experiment& experiment, const Class& whole, const Part& part)
      : experiment_(experiment), design_(experiment.design), whole_(whole), part_(part) {}

  ExperimentOutcome make() {
    find_places();
    say_followed();
    if (design_.kind == ExperimentKind::kClass) {
      class_results();
    } else {
      operator_results();
    }
    result_.limits = plan_limits(design_);
    say_limits();
    return std::move(result_);
  }

 private:
  void find_places() {
    const std::vector<std::string> codes = learners_of(part_);
    std::size_t placed = 0;
    for (ExperimentPlace place : experiment_.places) {
      // The only one who drilled is the one operator.
      if (place.code.empty() && design_.kind == ExperimentKind::kOneOperator && codes.size() == 1) {
        place.code = codes.front();
      }
      PlaceOutcome outcome;
      outcome.planned = place.order.size();
      if (!place.code.empty()) {
        const std::vector<const Entry*> holes = holes_of(part_, place.code);
        outcome = follow(place, holes);
        if (!holes.empty()) {
          ++placed;
          const auto found = std::find(whole_.learners.begin(), whole_.learners.end(), place.code);
          outcome.learner = static_cast<std::size_t>(found - whole_.learners.begin());
          holes_.emplace_back(holes);
          followed_.push_back(outcome.following == Following::kFollowed);
        }
      }
      result_.places.push_back(outcome);
    }
    result_.not_allocated = codes.size() - std::min(placed, codes.size());
    result_.is_followed = !result_.places.empty() && result_.not_allocated == 0 &&
                          result_.count(Following::kFollowed) == result_.places.size();
  }

  void say_followed() {
    const auto count = [this](Following following) { return result_.count(following); };
    const std::size_t planned = result_.places.size();
    if (count(Following::kNoCode) == planned) {
      result_.followed =
          "The plan holds no code names yet: enter who took which place, and the Classroom says "
          "whether the order was followed.";
      return;
    }
    std::string words =
        design_.kind == ExperimentKind::kOneOperator
            ? fmt::format("{}.", following_words(result_.places.front()))
            : fmt::format("{} of {} planned people followed the drawn order to its end.",
                          count(Following::kFollowed), planned);
    const auto add = [&words](std::size_t number, std::string_view what) {
      if (number > 0) {
        words += fmt::format(" {} {}.", number, what);
      }
    };
    if (design_.kind == ExperimentKind::kClass) {
      add(count(Following::kIncomplete), "kept the order but did not finish");
      add(count(Following::kOtherOrder), "went in another order");
      add(count(Following::kNoPeriods), "left no record of their order");
      add(count(Following::kNotThere), "did not turn anything in");
      add(count(Following::kNoCode), "places have no code name in the plan");
    }
    add(result_.not_allocated, "who drilled had no place in the plan");
    result_.followed = std::move(words);
  }

  void class_results() {
    const stats::PairedStatistics& paired = part_.statistics.paired;
    result_.results.push_back(result_sentence(part_));
    const bool is_hidden = part_.is_paired_hidden || !part_.hidden.empty();
    if (is_hidden) {
      return;
    }
    if (const std::string matter = matter_sentence(paired.t, design_.difference_mm);
        !matter.empty()) {
      result_.results.push_back(matter);
    }
    std::vector<double> kept;
    std::vector<double> freehand_first;
    std::vector<double> sleeve_first;
    for (std::size_t i = 0; i < holes_.size(); ++i) {
      const std::optional<double> difference = difference_of(holes_[i]);
      if (!difference.has_value()) {
        continue;
      }
      if (followed_[i]) {
        kept.push_back(*difference);
      }
      if (holes_[i].front()->period.has_value()) {
        (holes_[i].front()->approach == Approach::kFreehand ? freehand_first : sleeve_first)
            .push_back(*difference);
      }
    }
    if (kept.size() >= 2 && kept.size() < paired.operators && whole_.shows(kept.size()) &&
        whole_.shows(paired.operators - kept.size())) {
      result_.results.push_back(fmt::format("In the {} who followed the drawn order: {}.",
                                            kept.size(),
                                            change_words(stats::paired_t(kept, stats::kLevel))));
    }
    if (!freehand_first.empty() && !sleeve_first.empty() && whole_.shows(freehand_first.size()) &&
        whole_.shows(sleeve_first.size())) {
      result_.results.push_back(fmt::format(
          "By order: {} who began free-hand {} mm, {} who began by sleeve {} mm. There is no test "
          "of carry-over: one made beforehand would mislead.",
          freehand_first.size(), mm(-stats::mean(freehand_first)), sleeve_first.size(),
          mm(-stats::mean(sleeve_first))));
    }
  }

  void operator_results() {
    if (holes_.empty()) {
      result_.results.emplace_back("No comparison: no attempt of the one operator was collected.");
      return;
    }
    if (!whole_.shows(1)) {
      result_.results.push_back(result_sentence(part_));
      return;
    }
    const std::vector<double> differences = pair_differences(holes_.front());
    const auto test = stats::paired_t(differences, stats::kLevel);
    result_.results.push_back(
        fmt::format("In {} of sites of one person the sleeve changed the entry error {}.",
                    counted(differences.size(), "pair"), change_words(test)));
    if (const std::string matter = matter_sentence(test, design_.difference_mm); !matter.empty()) {
      result_.results.push_back(matter);
    }
  }

  /// What follows from the order stands first: it weighs most.
  void say_limits() {
    std::vector<std::string> limits;
    if ((part_.order == TechniqueOrder::kFreehandFirst ||
         part_.order == TechniqueOrder::kSleeveFirst) &&
        !(result_.is_followed && is_mixed(design_))) {
      limits.push_back(order_sentence(part_));
    }
    const bool is_all_known = result_.count(Following::kNoCode) == 0;
    const std::size_t others =
        result_.count(Following::kOtherOrder) + result_.count(Following::kNoPeriods);
    if (!is_all_known || others > 0 || result_.not_allocated > 0) {
      limits.emplace_back(
          "Where the drawn order was not followed, or is not known, the order may have been "
          "chosen: what the draw protects against can be back in the result.");
    }
    limits.insert(limits.end(), result_.limits.begin(), result_.limits.end());
    result_.limits = std::move(limits);
    if (result_.count(Following::kIncomplete) + result_.count(Following::kNotThere) > 0) {
      result_.limits.emplace_back(
          "Who stopped or stayed away may differ from who finished: say why, as far as you know.");
    }
  }

  const Experiment& experiment_;
  const ExperimentDesign& design_;
  const Class& whole_;
  const Part& part_;
  ExperimentOutcome result_;
  std::vector<std::vector<const Entry*>> holes_;  ///< of those who are there, by place
  std::vector<bool> followed_;
};

}  // namespace

std::size_t ExperimentOutcome::count(Following following) const {
  return static_cast<std::size_t>(
      std::count_if(places.begin(), places.end(),
                    [following](const PlaceOutcome& one) { return one.following == following; }));
}

std::string following_words(const PlaceOutcome& place) {
  switch (place.following) {
    case Following::kFollowed:
      return place.done > place.planned
                 ? fmt::format("followed, {} more after it", place.done - place.planned)
                 : std::string("followed");
    case Following::kIncomplete:
      return fmt::format("{} of {} holes, in the drawn order", place.done, place.planned);
    case Following::kOtherOrder:
      return fmt::format("another order from hole {} on", place.first_other);
    case Following::kNoPeriods:
      return "no record of the order";
    case Following::kNotThere:
      return "nothing turned in";
    case Following::kNoCode:
      break;
  }
  return "no code name yet";
}

ExperimentOutcome held_against(const Experiment& experiment, const Class& whole, const Part& part) {
  return Outcome(experiment, whole, part).make();
}

}  // namespace driftbench::classroom
