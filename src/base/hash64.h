// 64-bit FNV-1a state hash: equal states give equal values in every build. Not for security.
#pragma once

#include <concepts>
#include <cstdint>
#include <span>
#include <string>

namespace driftbench::base {

/// Running FNV-1a hash over bytes; numbers enter as 8 bytes, lowest byte first.
///
/// Source: Fowler, Noll, Vo: the FNV non-cryptographic hash algorithm, 64-bit variant 1a
class Hash64 {
 public:
  void add_bytes(std::span<const std::uint8_t> bytes);

  /// Any integer, widened to 64 bits (sign extended), so `int` and `long` hash alike everywhere.
  template <std::integral T>
  void add(T number) {
    add_word(static_cast<std::uint64_t>(static_cast<std::int64_t>(number)));
  }

  /// Bit pattern of the number; -0 counts as 0. Contract: not NaN.
  void add(double number);

  [[nodiscard]] std::uint64_t value() const { return value_; }

 private:
  void add_word(std::uint64_t word);

  std::uint64_t value_ = 0xcbf29ce484222325U;  // offset basis of the 64-bit variant
};

/// Hash of a run of bytes.
[[nodiscard]] std::uint64_t fnv1a64(std::span<const std::uint8_t> bytes);

/// Sixteen lower-case hexadecimal digits, highest first.
[[nodiscard]] std::string to_hex16(std::uint64_t value);

}  // namespace driftbench::base
