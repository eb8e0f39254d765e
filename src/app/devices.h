// The device in hand.
#pragma once

#include "lesson/lesson_rules.h"

#include <string>

namespace driftbench::app {

[[nodiscard]] lesson::Device device_in_hand();

/// The word that an attempt keeps: "mouse", "touch", "pen".
[[nodiscard]] std::string device_name();

}  // namespace driftbench::app
