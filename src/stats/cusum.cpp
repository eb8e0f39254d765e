// Sums along a series, and the exact distribution of the learning sum.
#include "stats/cusum.h"

#include "base/contract.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace driftbench::stats {
namespace {

// One attempt more: passes and failures since the evidence was last 0 tell the evidence.
using State = std::pair<int, int>;

double evidence_of(const State& state, const LearningScores& scores) {
  return state.first * scores.pass + state.second * scores.fail;
}

}  // namespace

Cusum cusum(std::span<const double> values, const CusumPlan& plan) {
  DRIFTBENCH_EXPECTS(plan.slack >= 0.0 && plan.limit > 0.0 && plan.head_start >= 0.0);
  Cusum sums;
  double upper = plan.head_start;
  double lower = plan.head_start;
  for (std::size_t i = 0; i < values.size(); ++i) {
    upper = std::max(0.0, upper + values[i] - plan.target - plan.slack);
    lower = std::max(0.0, lower + plan.target - plan.slack - values[i]);
    sums.upper.push_back(upper);
    sums.lower.push_back(lower);
    if (upper > plan.limit && !sums.first_upper_signal.has_value()) {
      sums.first_upper_signal = i;
    }
    if (lower > plan.limit && !sums.first_lower_signal.has_value()) {
      sums.first_lower_signal = i;
    }
  }
  return sums;
}

base::Result<LearningScores> learning_scores(const LearningCusumPlan& plan) {
  if (!(plan.p_ok > 0.0 && plan.p_ok < plan.p_bad && plan.p_bad < 1.0 && plan.limit > 0.0)) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "found failure rates or a limit that make no sense together, expected 0 < "
                      "p_ok < p_bad < 1 and a limit above 0");
  }
  return LearningScores{std::log((1.0 - plan.p_ok) / (1.0 - plan.p_bad)),
                        std::log(plan.p_ok / plan.p_bad)};
}

base::Result<LearningCusum> learning_cusum(const std::vector<bool>& passed,
                                           const LearningCusumPlan& plan) {
  const base::Result<LearningScores> scores = learning_scores(plan);
  if (!scores) {
    return tl::unexpected<base::Error>(scores.error());
  }
  LearningCusum sum;
  double evidence = 0.0;
  for (std::size_t i = 0; i < passed.size(); ++i) {
    evidence = std::max(0.0, evidence + (passed[i] ? scores->pass : scores->fail));
    sum.evidence.push_back(evidence);
    if (evidence >= plan.limit && !sum.signal.has_value()) {
      sum.signal = i;
    }
  }
  return sum;
}

base::Result<std::vector<double>> learning_signal_probability(const LearningCusumPlan& plan,
                                                              double failure_rate,
                                                              std::size_t attempts) {
  const base::Result<LearningScores> scores = learning_scores(plan);
  if (!scores) {
    return tl::unexpected<base::Error>(scores.error());
  }
  constexpr std::size_t kMaxAttempts = 1000;
  if (!(failure_rate >= 0.0 && failure_rate <= 1.0) || attempts < 1 || attempts > kMaxAttempts) {
    return base::fail(base::ErrorCode::kOutOfRange,
                      "found a failure rate or a number of attempts out of range, expected 0 to 1 "
                      "and 1 to 1000");
  }
  std::vector<double> signalled;
  std::map<State, double> states{{{0, 0}, 1.0}};
  double done = 0.0;
  for (std::size_t i = 0; i < attempts; ++i) {
    std::map<State, double> next;
    for (const auto& [state, probability] : states) {
      const State pass{state.first + 1, state.second};
      const State fail{state.first, state.second + 1};
      if (evidence_of(pass, *scores) >= plan.limit) {
        done += probability * (1.0 - failure_rate);
      } else {
        next[pass] += probability * (1.0 - failure_rate);
      }
      next[evidence_of(fail, *scores) > 0.0 ? fail : State{0, 0}] += probability * failure_rate;
    }
    states = std::move(next);
    signalled.push_back(done);
  }
  return signalled;
}

}  // namespace driftbench::stats
