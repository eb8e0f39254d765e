// Which instruments of its kit a set-up uses: pure look-ups. Whatever asks "is this drill guided"
// asks here.
#pragma once

#include "base/result.h"
#include "lesson/attempt_setup.h"

#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

namespace driftbench::lesson {

/// Item of one of the kit's lists; null for an index outside it.
template <class T>
[[nodiscard]] const T* item_at(const std::vector<T>& items, std::int32_t index) {
  return index >= 0 && static_cast<std::size_t>(index) < items.size()
             ? &items[static_cast<std::size_t>(index)]
             : nullptr;
}

/// Kit index of a drill id; -1 when the kit has none.
[[nodiscard]] std::int32_t drill_index_of(const AttemptSetup& setup, std::string_view id);

/// Kit indices of the planned drills that are not among `used`, in the order of the plan.
[[nodiscard]] std::vector<std::int32_t> missing_drills(const AttemptSetup& setup,
                                                       std::span<const std::int32_t> used);

/// Whether this drill of the kit runs through the guide: all do in the sleeve approach, the first
/// of the plan in the pilot approach. False for an index outside the kit.
[[nodiscard]] bool is_guided(const AttemptSetup& setup, std::int32_t drill_index);

/// Kit index of the key that belongs to a drill; -1 when the sleeve guides it without one.
[[nodiscard]] std::int32_t key_index_of(const AttemptSetup& setup, std::int32_t drill_index);

/// The sleeve of the set-up's guide; null without one.
[[nodiscard]] const specimen::Sleeve* sleeve_of(const AttemptSetup& setup);

/// Kit index of the planned implant; -1 when the kit has none of that id.
[[nodiscard]] std::int32_t implant_index_of(const AttemptSetup& setup);

/// The planned implant; null when the kit has none of that id.
[[nodiscard]] const specimen::Implant* implant_of(const AttemptSetup& setup);

/// Diameter of the last planned drill; 0 without one.
[[nodiscard]] double last_drill_mm(const AttemptSetup& setup);

/// Whether the kit has what drilling needs: every planned drill and the guide's sleeve.
///
/// Errors: kMismatch, naming the first one that is missing
[[nodiscard]] base::Result<void> check_drilling_instruments(const AttemptSetup& setup);

/// Whether the kit also has the planned implant and a key for each guided twist drill, as a lesson
/// must.
///
/// Errors: kMismatch, naming the first one that is missing
[[nodiscard]] base::Result<void> check_all_instruments(const AttemptSetup& setup);

}  // namespace driftbench::lesson
