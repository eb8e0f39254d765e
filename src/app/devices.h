// The device in hand.
#pragma once

#include <string>

namespace driftbench::app {

/// The word that an attempt keeps: "mouse", "touch", "pen".
[[nodiscard]] std::string device_name();

}  // namespace driftbench::app
