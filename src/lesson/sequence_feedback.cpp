#include "lesson/sequence_feedback.h"

#include <algorithm>

namespace driftbench::lesson {

bool is_full_turn(std::size_t place, int full_first) {
  const auto first = static_cast<std::size_t>(full_first);
  if (place < first) {
    return true;
  }
  std::size_t turn = first - 1;
  for (std::size_t gap = 2; turn < place; ++gap) {
    turn += gap;
  }
  return turn == place;
}

Shown shown_after(const FeedbackPlan& plan, std::size_t place, std::size_t planned,
                  std::optional<double> share) {
  const Shown otherwise = plan.between == Between::kInOrOut ? Shown::kInOrOut : Shown::kNothing;
  if (plan.kind == FeedbackKind::kSummary) {
    return place + 1 >= planned ? Shown::kEverything : otherwise;
  }
  const bool is_full =
      !share.has_value() || plan.kind == FeedbackKind::kTerminal ||
      (plan.kind == FeedbackKind::kFading && is_full_turn(place, plan.full_first)) ||
      (plan.kind == FeedbackKind::kBand && *share > plan.band_share);
  return is_full ? Shown::kEverything : otherwise;
}

bool is_estimate_asked(const EstimatePlan& plan, std::size_t place, std::size_t planned) {
  switch (plan.kind) {
    case EstimateKind::kEvery:
      return true;
    case EstimateKind::kNone:
      return false;
    case EstimateKind::kFirstAndLast:
      return place == 0 || place + 1 >= planned;
    case EstimateKind::kEveryNth:
      return place % static_cast<std::size_t>(plan.every) == 0;
  }
  return true;
}

bool is_device_welcome(const DevicePolicy& policy, Device now, std::optional<Device> before) {
  const bool is_listed = policy.allow.empty() || std::find(policy.allow.begin(), policy.allow.end(),
                                                           now) != policy.allow.end();
  return is_listed && (!policy.one_per_lesson || !before.has_value() || *before == now);
}

}  // namespace driftbench::lesson
