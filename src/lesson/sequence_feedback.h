// What is shown after an attempt, when the own estimate is asked for, and which device may be used.
#pragma once

#include "lesson/lesson_rules.h"

#include <cstddef>
#include <optional>

namespace driftbench::lesson {

enum class Shown { kNothing, kInOrOut, kEverything };

/// True for the attempts that fading shows in full: the first `full_first`, then with gaps of 2, 3,
/// 4 ... Places count from 0. Source: fading of feedback, own choice of the gaps
[[nodiscard]] bool is_full_turn(std::size_t place, int full_first);

/// What is shown right after the attempt at `place` (from 0) of a block of `planned`; attempts
/// beyond the planned ones are last ones. `share`: as largest_share(); none: not measured, which is
/// no secret.
[[nodiscard]] Shown shown_after(const FeedbackPlan& plan, std::size_t place, std::size_t planned,
                                std::optional<double> share);

[[nodiscard]] bool is_estimate_asked(const EstimatePlan& plan, std::size_t place,
                                     std::size_t planned);

/// Whether the next attempt may be made with `now`; `before`: device of the attempts so far.
[[nodiscard]] bool is_device_welcome(const DevicePolicy& policy, Device now,
                                     std::optional<Device> before);

}  // namespace driftbench::lesson
