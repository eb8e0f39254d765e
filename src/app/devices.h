// The device in hand.
#pragma once

#include "lesson/lesson_rules.h"
#include "platform/input.h"

namespace driftbench::app {

/// What a lesson calls it.
[[nodiscard]] lesson::Device device_of(platform::PointerDevice device);

[[nodiscard]] lesson::Device device_in_hand();

}  // namespace driftbench::app
