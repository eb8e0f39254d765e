#include "lesson/sequence_evidence.h"

#include "stats/cusum.h"

#include <algorithm>
#include <limits>

namespace driftbench::lesson {
namespace {

double share(double error, double tolerance) {
  if (error == 0.0) {
    return 0.0;
  }
  return tolerance > 0.0 ? error / tolerance : std::numeric_limits<double>::infinity();
}

/// Good ones in a row from the start, as a part of all.
double level_of_all(std::span<const Mark> marks, std::size_t planned) {
  const bool is_clean =
      std::all_of(marks.begin(), marks.end(), [](const Mark& mark) { return mark.is_good; });
  return is_clean && planned > 0 ? static_cast<double>(marks.size()) / static_cast<double>(planned)
                                 : 0.0;
}

/// Good ones among the last ones since the last wipe.
double level_of_last(std::span<const Mark> marks, const Criterion& criterion) {
  int good = 0;
  int seen = 0;
  for (auto mark = marks.rbegin(); mark != marks.rend() && seen < criterion.last; ++mark, ++seen) {
    if (mark->wipes) {
      break;
    }
    good += mark->is_good ? 1 : 0;
  }
  return static_cast<double>(good) / static_cast<double>(criterion.good);
}

double level_of_learning(std::span<const Mark> marks, const Criterion& criterion) {
  const auto scores = stats::learning_scores({criterion.p_bad, criterion.p_ok, criterion.limit});
  if (!scores) {
    return 0.0;
  }
  double sum = 0.0;
  for (const Mark& mark : marks) {
    sum = mark.wipes ? 0.0 : std::max(0.0, sum + (mark.is_good ? scores->pass : scores->fail));
  }
  return sum / criterion.limit;
}

double level_after(std::span<const Mark> marks, const Criterion& criterion, std::size_t planned) {
  switch (criterion.rule) {
    case PassRule::kAllOf:
      return level_of_all(marks, planned);
    case PassRule::kOfLast:
      return level_of_last(marks, criterion);
    case PassRule::kLearningEvidence:
      return level_of_learning(marks, criterion);
    case PassRule::kNone:
      break;
  }
  return 0.0;
}

}  // namespace

double largest_share(const AttemptErrors& errors, const scoring::Tolerance& tolerance,
                     std::span<const Measure> measures) {
  double largest = 0.0;
  for (const Measure measure : measures) {
    switch (measure) {
      case Measure::kEntry:
        largest = std::max(largest, share(errors.entry_mm, tolerance.entry_mm));
        break;
      case Measure::kApex:
        largest = std::max(largest, share(errors.apex_mm, tolerance.apex_mm));
        break;
      case Measure::kAngle:
        largest = std::max(largest, share(errors.angle_deg, tolerance.angle_deg));
        break;
      case Measure::kDepth:
        largest = std::max(largest, errors.depth_mm > 0.0
                                        ? share(errors.depth_mm, tolerance.depth_high_mm)
                                        : share(-errors.depth_mm, -tolerance.depth_low_mm));
        break;
    }
  }
  return largest;
}

Mark mark_of(const PastAttempt& attempt, const scoring::Tolerance& tolerance,
             const Criterion& criterion) {
  const bool wipes =
      std::any_of(attempt.events.begin(), attempt.events.end(), [&](CriticalEvent event) {
        return std::find(criterion.never.begin(), criterion.never.end(), event) !=
               criterion.never.end();
      });
  const bool is_within = attempt.is_complete && attempt.errors.has_value() &&
                         largest_share(*attempt.errors, tolerance, criterion.measures) <= 1.0;
  return {is_within && !wipes, wipes};
}

Evidence evidence_of(std::span<const Mark> marks, const Criterion& criterion, std::size_t planned) {
  Evidence evidence;
  if (criterion.rule == PassRule::kNone) {
    return evidence;
  }
  std::size_t count = marks.size();
  if (criterion.rule != PassRule::kAllOf) {
    count = std::min(count, static_cast<std::size_t>(criterion.cap));
  }
  for (std::size_t i = 0; i < count; ++i) {
    const double level = level_after(marks.first(i + 1), criterion, planned);
    evidence.level.push_back(std::min(level, 1.0));
    if (level >= 1.0 && !evidence.passed_at.has_value()) {
      evidence.passed_at = i;
    }
  }
  return evidence;
}

}  // namespace driftbench::lesson
