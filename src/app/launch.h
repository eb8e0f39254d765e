// What the page's address and the kept settings ask for at start.
#pragma once

#include "ui/model.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>

namespace driftbench::app {

struct Launch {
  std::string lesson_id;                   ///< empty: the shelf
  std::string set_id;                      ///< empty: all sets
  std::string class_code;                  ///< over the set's; empty: the set's
  std::optional<std::size_t> trial_block;  ///< a try-out of the Lesson desk begins with this block
  bool is_locked = false;                  ///< nothing but the lesson or the set that is named
  std::optional<std::uint64_t> seed;       ///< over the lesson's
  ui::Theme theme = ui::Theme::kDark;
  bool muted = false;
  bool left_handed = false;
  bool step_by_step = false;
  std::string code_name;  ///< kept from an earlier visit; may be empty
  std::string notice;     ///< what could not be understood, one sentence; may be empty
};

/// Reads arguments of the form "--name=value". A value that makes no sense is named in `notice` and
/// the usual one stands; names that are not ours are ignored.
[[nodiscard]] Launch read_launch(std::span<const char* const> arguments);

/// Largest seed: integers up to it survive every program that reads JSON numbers as doubles.
inline constexpr std::int64_t kLargestSeed = 9007199254740991;

}  // namespace driftbench::app
