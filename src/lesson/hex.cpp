#include "lesson/hex.h"

#include "base/json_writer.h"

#include <fmt/format.h>

#include <algorithm>

namespace driftbench::lesson {

bool is_hex(std::string_view text, std::size_t digits) {
  return text.size() == digits && std::all_of(text.begin(), text.end(), [](char c) {
           return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
         });
}

std::optional<std::uint64_t> parse_hash64(std::string_view text) {
  constexpr unsigned kBitsPerDigit = 4;
  constexpr int kTen = 10;
  if (!is_hex(text, kHash64Digits)) {
    return std::nullopt;
  }
  std::uint64_t value = 0;
  for (const char c : text) {
    const int digit = c <= '9' ? c - '0' : c - 'a' + kTen;
    value = (value << kBitsPerDigit) | static_cast<std::uint64_t>(digit);
  }
  return value;
}

std::string read_hex(base::ObjectReader& reader, std::string_view key, std::size_t digits) {
  constexpr std::size_t kMaxBytes = 256;
  std::string text = reader.required_string(key, kMaxBytes);
  if (!text.empty() && !is_hex(text, digits)) {
    reader.add_error(key, "the text " + base::json_quoted(text),
                     fmt::format("{} lower-case hexadecimal digits", digits));
  }
  return text;
}

std::uint64_t read_hash64(base::ObjectReader& reader, std::string_view key) {
  return parse_hash64(read_hex(reader, key, kHash64Digits)).value_or(0);
}

}  // namespace driftbench::lesson
