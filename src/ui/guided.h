// What the sleeve approach asks of a drill: pure look-ups in a set-up.
#pragma once

#include "lesson/attempt_setup.h"

#include <cstdint>
#include <string_view>

namespace driftbench::ui {

/// Kit index of a drill id; -1 when the kit has none.
[[nodiscard]] std::int32_t drill_index_of(const lesson::AttemptSetup& setup, std::string_view id);

/// True when this drill of the kit runs through the guide in this set-up.
[[nodiscard]] bool is_guided(const lesson::AttemptSetup& setup, std::int32_t drill_index);

/// Kit index of the key for a drill; -1 when the sleeve guides it without one.
[[nodiscard]] std::int32_t key_index_of(const lesson::AttemptSetup& setup,
                                        std::int32_t drill_index);

/// The sleeve of the set-up's guide; null without one.
[[nodiscard]] const specimen::Sleeve* sleeve_of(const lesson::AttemptSetup& setup);

/// The planned implant; null when the kit has none of that id.
[[nodiscard]] const specimen::Implant* implant_of(const lesson::AttemptSetup& setup);

/// Diameter of the last planned drill; 0 without one.
[[nodiscard]] double last_drill_mm(const lesson::AttemptSetup& setup);

}  // namespace driftbench::ui
