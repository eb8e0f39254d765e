// Hexadecimal texts of fixed length in files: digests, ids and 64-bit values.
#pragma once

#include "base/json_reader.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace driftbench::lesson {

inline constexpr std::size_t kSha256Digits = 64;
inline constexpr std::size_t kHash64Digits = 16;

/// True for exactly `digits` lower-case hexadecimal digits.
[[nodiscard]] bool is_hex(std::string_view text, std::size_t digits);

/// The value of 16 lower-case hexadecimal digits.
[[nodiscard]] std::optional<std::uint64_t> parse_hash64(std::string_view text);

/// Reads a required text of that many digits; another form adds an error.
[[nodiscard]] std::string read_hex(base::ObjectReader& reader, std::string_view key,
                                   std::size_t digits);

/// Reads a required 64-bit value written as 16 hexadecimal digits.
[[nodiscard]] std::uint64_t read_hash64(base::ObjectReader& reader, std::string_view key);

}  // namespace driftbench::lesson
