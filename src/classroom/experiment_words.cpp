// A planned experiment in sentences.
#include "base/text.h"
#include "classroom/experiment.h"
#include "classroom/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace driftbench::classroom {
namespace {

using stats::Approach;

/// Rounded down, so that a chance below what was asked never reads like it.
std::string percent(double share) {
  constexpr double kHundred = 100.0;
  constexpr double kNearlyAll = 0.995;
  constexpr double kRounding = 1e-9;
  return share >= kNearlyAll ? "more than 99 %"
                             : base::fixed(std::floor(kHundred * share + kRounding), 0) + " %";
}

bool is_class(const ExperimentDesign& design) {
  return design.kind == ExperimentKind::kClass;
}

std::string units_word(const ExperimentDesign& design, std::size_t count) {
  if (is_class(design)) {
    return fmt::format("{} {}", count, count == 1 ? "person" : "people");
  }
  return fmt::format("{} of sites", counted(count, "pair"));
}

std::string needed_sentence(const ExperimentDesign& design, const ExperimentSize& size) {
  if (!size.needed) {
    return fmt::format("No number of {} can be planned: {}.",
                       is_class(design) ? "people" : "pairs of sites", size.needed.error().message);
  }
  std::string words = fmt::format(
      "To find a difference of {} mm in the mean entry error with a chance of {}, {} {} needed",
      mm(design.difference_mm), percent(design.demand.power),
      units_word(design, size.needed->exact), size.needed->exact == 1 ? "is" : "are");
  if (is_class(design)) {
    words += fmt::format(", each with {} by either technique", counted(design.holes_each, "hole"));
  }
  const std::size_t even = stats::even(size.needed->exact);
  words += even != size.needed->exact ? fmt::format("; {} make both orders equally frequent.", even)
                                      : std::string(".");
  if (size.needed_90) {
    words += fmt::format(" For a chance of 90 %: {}.", stats::even(size.needed_90->exact));
  }
  return words;
}

std::string reached_sentence(const ExperimentDesign& design, const ExperimentSize& size) {
  if (!size.needed || !size.detectable_mm) {
    return {};
  }
  const bool is_enough = design.units >= size.needed->exact;
  return fmt::format(
      "The planned {} have a chance of {} to find it{}; with a chance of {} they find a difference "
      "of {} mm.",
      units_word(design, design.units), percent(size.power),
      is_enough ? "" : ", which is less than asked", percent(design.demand.power),
      mm(std::ceil(100.0 * *size.detectable_mm - 1e-9) / 100.0));
}

std::string details_sentence(const ExperimentDesign& design, const ExperimentSize& size) {
  std::string words;
  if (is_class(design)) {
    words = fmt::format(
        "Assumed: what the sleeve changes differs between people with a standard deviation of {} "
        "mm; the same person differs from hole to hole by {} mm free-hand and {} mm by sleeve",
        mm(design.sd_effect_mm), mm(design.sd_freehand_mm), mm(design.sd_sleeve_mm));
  } else {
    words = fmt::format(
        "Assumed: this person differs from hole to hole by {} mm free-hand and {} mm by sleeve "
        "(standard deviations)",
        mm(design.sd_freehand_mm), mm(design.sd_sleeve_mm));
  }
  words += fmt::format(". The difference of one {} then has {} mm",
                       is_class(design) ? "person" : "pair", mm(size.sd_difference_mm));
  if (size.needed) {
    words += fmt::format("; normal formula {}, Student's t {}", base::fixed(size.needed->normal, 1),
                         size.needed->exact);
  }
  return words +
         fmt::format(". Two-sided, level {} %.", base::number(100.0 * (1.0 - design.demand.alpha)));
}

std::string spread_sentence(const ExperimentDesign& design) {
  constexpr double kTwice = 2.0;
  constexpr double kOneAndAHalf = 1.5;
  constexpr std::size_t kPlane = 2;
  const auto twice = stats::spread_size(kTwice, kPlane, design.demand);
  const auto half = stats::spread_size(kOneAndAHalf, kPlane, design.demand);
  if (!twice || !half) {
    return {};
  }
  return fmt::format(
      "A comparison of scatter needs more: about {} holes by either technique to find that one "
      "scatter is twice the other, about {} for one and a half times.",
      stats::even(*twice), stats::even(*half));
}

}  // namespace

std::vector<std::string> plan_sentences(const ExperimentDesign& design) {
  const ExperimentSize size = experiment_size(design);
  std::vector<std::string> sentences{needed_sentence(design, size), reached_sentence(design, size),
                                     details_sentence(design, size), spread_sentence(design)};
  sentences.erase(std::remove(sentences.begin(), sentences.end(), std::string()), sentences.end());
  return sentences;
}

std::vector<std::string> plan_limits(const ExperimentDesign& design) {
  std::vector<std::string> limits;
  if (is_class(design)) {
    limits.emplace_back(
        "It speaks about people like these, on a site like this one, with this kit.");
    limits.emplace_back(
        design.scheme == OrderScheme::kSwitchOnce
            ? "What was learned by one technique is carried into the other. With both orders "
              "equally frequent, practice cancels; half of a carry-over that differs between the "
              "orders stays in the result, and no test of these data can remove it."
            : "What was learned by one technique is carried into the other. In short mixed runs "
              "each technique follows each about equally often, so that little of it stays.");
  } else {
    limits.emplace_back(
        "It speaks about this one person on sites like these, not about people in general.");
    limits.emplace_back("Pairs of sites must be alike and fresh; a rehearsed site is no new site.");
  }
  limits.emplace_back(
      "Whoever drills knows the technique: only the measuring is blind. The standard deviations of "
      "the plan are assumptions until a class has shown them.");
  return limits;
}

std::string order_words(const ExperimentPlace& place) {
  const std::size_t half = place.order.size() / 2;
  const bool is_switch =
      std::all_of(place.order.begin(), place.order.begin() + static_cast<std::ptrdiff_t>(half),
                  [&](Approach one) { return one == place.order.front(); });
  if (is_switch && half > 0 && place.order[half] != place.order.front()) {
    const bool is_freehand = place.order.front() == Approach::kFreehand;
    return fmt::format("{} {}, then {} {}", half, is_freehand ? "free-hand" : "by sleeve",
                       place.order.size() - half, is_freehand ? "by sleeve" : "free-hand");
  }
  std::string words;
  for (const Approach one : place.order) {
    words += words.empty() ? "" : " ";
    words += one == Approach::kFreehand ? 'F' : 'S';
  }
  return words;
}

}  // namespace driftbench::classroom
