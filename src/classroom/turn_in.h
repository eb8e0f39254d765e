// Turning in by a short text: the numbers of attempts without the recorded movement, to be pasted.
#pragma once

#include "base/result.h"
#include "classroom/entry.h"

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::classroom {

inline constexpr std::string_view kTurnInEnding = ".turn-in.txt";
inline constexpr std::size_t kMaxTurnInBytes = std::size_t{1} << 20U;
inline constexpr std::size_t kMaxTurnInAttempts = 500;

/// The code: one line that says in words what it holds, then the packed numbers and a check sum.
/// It holds what a row of holes.csv holds, lesson, device, own estimate and events of every
/// attempt; no movement, so it cannot be repeated.
///
/// Errors: kInvalidArgument for no attempt or too many
/// Source: base64url, RFC 4648, section 5; check sum: first 12 digits of the SHA-256
[[nodiscard]] base::Result<std::string> write_turn_in(std::span<const Entry> entries);

/// Reads a code out of a text around it: greetings, quotation marks and line ends of a mail do not
/// matter. The attempts stand as rows of a table.
///
/// Errors: kParse for no code, a damaged one (the check sum catches accidents, not intent) or one
///         that holds something else; kUnsupported for a later version
[[nodiscard]] base::Result<std::vector<Entry>> read_turn_in(std::string_view text,
                                                            const std::string& name);

}  // namespace driftbench::classroom
