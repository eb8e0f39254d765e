// UTF-8 by the byte ranges of RFC 3629.
#include "base/utf8.h"

#include "base/contract.h"

#include <algorithm>

namespace driftbench::base {
namespace {

bool is_within(unsigned char byte, unsigned low, unsigned high) {
  return byte >= low && byte <= high;
}

}  // namespace

std::size_t utf8_character_bytes(std::string_view text) {
  DRIFTBENCH_EXPECTS(!text.empty());
  const auto byte = [text](std::size_t i) {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : static_cast<unsigned char>(0);
  };
  const auto is_tail = [&byte](std::size_t i) { return is_within(byte(i), 0x80, 0xbf); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) {
    return 1;
  }
  if (is_within(lead, 0xc2, 0xdf)) {
    return is_tail(1) ? 2 : 0;
  }
  if (is_within(lead, 0xe0, 0xef)) {
    // E0 excludes overlong forms, ED excludes surrogates.
    const unsigned low = lead == 0xe0 ? 0xa0 : 0x80;
    const unsigned high = lead == 0xed ? 0x9f : 0xbf;
    return is_within(byte(1), low, high) && is_tail(2) ? 3 : 0;
  }
  if (is_within(lead, 0xf0, 0xf4)) {
    // F0 excludes overlong forms, F4 what lies above U+10FFFF.
    const unsigned low = lead == 0xf0 ? 0x90 : 0x80;
    const unsigned high = lead == 0xf4 ? 0x8f : 0xbf;
    return is_within(byte(1), low, high) && is_tail(2) && is_tail(3) ? 4 : 0;
  }
  return 0;
}

bool is_utf8(std::string_view bytes) {
  while (!bytes.empty()) {
    const std::size_t count = utf8_character_bytes(bytes);
    if (count == 0) {
      return false;
    }
    bytes.remove_prefix(count);
  }
  return true;
}

std::string to_valid_utf8(std::string_view bytes) {
  constexpr std::string_view kReplacement = "\xef\xbf\xbd";
  std::string text;
  text.reserve(bytes.size());
  while (!bytes.empty()) {
    const std::size_t count = utf8_character_bytes(bytes);
    text += count == 0 ? kReplacement : bytes.substr(0, count);
    bytes.remove_prefix(std::max<std::size_t>(count, 1));
  }
  return text;
}

std::string_view utf8_prefix(std::string_view text, std::size_t max_bytes) {
  if (text.size() <= max_bytes) {
    return text;
  }
  std::size_t end = max_bytes;
  while (end > 0 && is_within(static_cast<unsigned char>(text[end]), 0x80, 0xbf)) {
    --end;
  }
  return text.substr(0, end);
}

std::string_view without_byte_order_mark(std::string_view text) {
  constexpr std::string_view kMark = "\xef\xbb\xbf";
  return text.substr(0, kMark.size()) == kMark ? text.substr(kMark.size()) : text;
}

}  // namespace driftbench::base
