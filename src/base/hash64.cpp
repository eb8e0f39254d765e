// 64-bit FNV-1a, byte by byte.
#include "base/hash64.h"

#include "base/contract.h"

#include <array>
#include <cstring>

namespace driftbench::base {
namespace {

constexpr std::uint64_t kFnvPrime = 0x100000001b3U;
constexpr unsigned kBitsPerByte = 8;

}  // namespace

void Hash64::add_bytes(std::span<const std::uint8_t> bytes) {
  for (const std::uint8_t byte : bytes) {
    value_ = (value_ ^ byte) * kFnvPrime;
  }
}

void Hash64::add(double number) {
  DRIFTBENCH_EXPECTS(number == number);
  const double same = number == 0.0 ? 0.0 : number;
  std::uint64_t word = 0;
  std::memcpy(&word, &same, sizeof word);
  add_word(word);
}

void Hash64::add_word(std::uint64_t word) {
  std::array<std::uint8_t, sizeof word> bytes{};
  for (std::uint8_t& byte : bytes) {
    byte = static_cast<std::uint8_t>(word & 0xffU);
    word >>= kBitsPerByte;
  }
  add_bytes(bytes);
}

std::uint64_t fnv1a64(std::span<const std::uint8_t> bytes) {
  Hash64 hash;
  hash.add_bytes(bytes);
  return hash.value();
}

std::string to_hex16(std::uint64_t value) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  constexpr std::size_t kDigitCount = 16;
  std::string text(kDigitCount, '0');
  for (std::size_t i = kDigitCount; i-- > 0;) {
    text[i] = kDigits[value & 0xfU];
    value >>= 4U;
  }
  return text;
}

}  // namespace driftbench::base
