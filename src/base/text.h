// Numbers to text and back, independent of locale.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::base {

/// Shortest text that reads back as the same number; -0 is written "0". Contract: finite.
[[nodiscard]] std::string number(double value);

/// Fixed number of decimals for reports; a result that rounds to zero has no sign. Contract:
/// finite.
[[nodiscard]] std::string fixed(double value, int decimals);

/// The number when the whole text is one (decimal, optional exponent), else nothing.
///
/// A sign, digits, a point and an exponent are accepted; spaces, hexadecimal, "inf" and "nan" are
/// not, nor numbers beyond the range of double.
[[nodiscard]] std::optional<double> parse_number(std::string_view text);

/// The integer when the whole text is one that fits, else nothing.
[[nodiscard]] std::optional<std::int64_t> parse_integer(std::string_view text);

/// The text without spaces, tabs and line ends at both sides.
[[nodiscard]] std::string_view trim(std::string_view text);

/// Text for HTML and SVG, between tags or in quotes; control characters, which neither allows,
/// become spaces.
[[nodiscard]] std::string html_escaped(std::string_view text);

/// Names joined as "a, b, c".
[[nodiscard]] std::string join(const std::vector<std::string>& names, std::string_view separator);

}  // namespace driftbench::base
