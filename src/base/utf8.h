// Checks and repairs UTF-8 text.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace driftbench::base {

/// Length in bytes of the well-formed character at the start of the text; 0 when it is ill-formed.
/// No overlong forms, no surrogates, nothing above U+10FFFF. Contract: not empty.
///
/// Source: RFC 3629, section 4
[[nodiscard]] std::size_t utf8_character_bytes(std::string_view text);

/// True when all of the text is well-formed UTF-8.
[[nodiscard]] bool is_utf8(std::string_view bytes);

/// The text with every ill-formed byte replaced by U+FFFD.
[[nodiscard]] std::string to_valid_utf8(std::string_view bytes);

/// The first characters of the text, at most max_bytes long, never cut inside a character.
[[nodiscard]] std::string_view utf8_prefix(std::string_view text, std::size_t max_bytes);

/// The text without a leading byte-order mark.
[[nodiscard]] std::string_view without_byte_order_mark(std::string_view text);

}  // namespace driftbench::base
