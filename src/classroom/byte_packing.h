// Small whole numbers, doubles and texts as bytes, and back without trusting them.
#pragma once

#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>

namespace driftbench::classroom {

class ByteWriter {
 public:
  /// Seven bits a byte, the lowest first.
  void whole(std::uint64_t value) {
    constexpr std::uint64_t kLow = 0x7F;
    constexpr std::uint64_t kMore = 0x80;
    while (value > kLow) {
      bytes_.push_back(static_cast<char>((value & kLow) | kMore));
      value >>= 7U;
    }
    bytes_.push_back(static_cast<char>(value));
  }

  /// All bits, the lowest byte first.
  void number(double value) {
    std::uint64_t bits = 0;
    std::memcpy(&bits, &value, sizeof bits);
    for (int i = 0; i < 8; ++i) {
      bytes_.push_back(static_cast<char>(bits >> (8U * static_cast<unsigned>(i)) & 0xFFU));
    }
  }

  void text(std::string_view value) {
    whole(value.size());
    bytes_ += value;
  }

  [[nodiscard]] const std::string& bytes() const { return bytes_; }

 private:
  std::string bytes_;
};

/// After a failure everything is 0 or empty; ask ok() at the end.
class ByteReader {
 public:
  explicit ByteReader(std::string_view bytes) : rest_(bytes) {}

  [[nodiscard]] std::uint64_t whole(std::uint64_t most) {
    std::uint64_t value = 0;
    constexpr unsigned kBits = 56;
    for (unsigned shift = 0; shift <= kBits; shift += 7U) {
      const std::uint64_t byte = next();
      value |= (byte & 0x7FU) << shift;
      if ((byte & 0x80U) == 0) {
        return value <= most ? value : fail();
      }
    }
    return fail();
  }

  [[nodiscard]] double number() {
    std::uint64_t bits = 0;
    for (unsigned i = 0; i < 8; ++i) {
      bits |= next() << (8U * i);
    }
    double value = 0.0;
    std::memcpy(&value, &bits, sizeof value);
    // Neither infinite nor NaN: those have all bits of the exponent set.
    if ((bits >> 52U & 0x7FFU) == 0x7FFU) {
      return static_cast<double>(fail());
    }
    return ok_ ? value : 0.0;
  }

  [[nodiscard]] std::string text(std::size_t most) {
    const std::size_t size = static_cast<std::size_t>(whole(most));
    if (!ok_ || size > rest_.size()) {
      fail();
      return {};
    }
    std::string value(rest_.substr(0, size));
    rest_.remove_prefix(size);
    return value;
  }

  /// Nothing was missing, too large, or left over.
  [[nodiscard]] bool ok() const { return ok_ && rest_.empty(); }

  [[nodiscard]] bool failed() const { return !ok_; }

 private:
  std::uint64_t fail() {
    ok_ = false;
    rest_ = {};
    return 0;
  }

  [[nodiscard]] std::uint64_t next() {
    if (rest_.empty()) {
      return fail();
    }
    const auto byte = static_cast<unsigned char>(rest_.front());
    rest_.remove_prefix(1);
    return byte;
  }

  std::string_view rest_;
  bool ok_ = true;
};

}  // namespace driftbench::classroom
