// SHA-256 as the standard describes it: padding, message schedule, 64 rounds a block.
#include "base/sha256.h"

#include <array>
#include <cstddef>
#include <cstdint>

namespace driftbench::base {
namespace {

using Word = std::uint32_t;
using State = std::array<Word, 8>;

constexpr std::size_t kBlockBytes = 64;
constexpr std::size_t kRoundCount = 64;
constexpr std::size_t kLengthBytes = 8;
constexpr unsigned kBitsPerByte = 8;

// FIPS 180-4, 5.3.3: fractional parts of the square roots of the first 8 primes.
constexpr State kInitialState = {0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                                 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};

// FIPS 180-4, 4.2.2: fractional parts of the cube roots of the first 64 primes.
constexpr std::array<Word, kRoundCount> kRoundConstants = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

constexpr Word rotated_right(Word word, unsigned count) {
  return (word >> count) | (word << (32U - count));
}

constexpr Word small_sigma0(Word x) {
  return rotated_right(x, 7) ^ rotated_right(x, 18) ^ (x >> 3U);
}

constexpr Word small_sigma1(Word x) {
  return rotated_right(x, 17) ^ rotated_right(x, 19) ^ (x >> 10U);
}

constexpr Word big_sigma0(Word x) {
  return rotated_right(x, 2) ^ rotated_right(x, 13) ^ rotated_right(x, 22);
}

constexpr Word big_sigma1(Word x) {
  return rotated_right(x, 6) ^ rotated_right(x, 11) ^ rotated_right(x, 25);
}

Word byte_at(std::string_view bytes, std::size_t index) {
  return static_cast<Word>(static_cast<unsigned char>(bytes[index]));
}

void add_block(State& state, std::string_view block) {
  // Message schedule: sixteen words of the block, then 48 mixed ones.
  std::array<Word, kRoundCount> w{};
  for (std::size_t t = 0; t < 16; ++t) {
    w[t] = (byte_at(block, 4 * t) << 24U) | (byte_at(block, 4 * t + 1) << 16U) |
           (byte_at(block, 4 * t + 2) << 8U) | byte_at(block, 4 * t + 3);
  }
  for (std::size_t t = 16; t < kRoundCount; ++t) {
    w[t] = small_sigma1(w[t - 2]) + w[t - 7] + small_sigma0(w[t - 15]) + w[t - 16];
  }
  // Rounds on working variables a ... h.
  auto [a, b, c, d, e, f, g, h] = state;
  for (std::size_t t = 0; t < kRoundCount; ++t) {
    const Word choice = (e & f) ^ (~e & g);
    const Word majority = (a & b) ^ (a & c) ^ (b & c);
    const Word t1 = h + big_sigma1(e) + choice + kRoundConstants[t] + w[t];
    const Word t2 = big_sigma0(a) + majority;
    h = g;
    g = f;
    f = e;
    e = d + t1;
    d = c;
    c = b;
    b = a;
    a = t1 + t2;
  }
  const State mixed = {a, b, c, d, e, f, g, h};
  for (std::size_t i = 0; i < state.size(); ++i) {
    state[i] += mixed[i];
  }
}

// Rest of the message, a 1 bit, zeros, and the length in bits, highest byte first.
std::string padded_tail(std::string_view bytes) {
  std::string tail(bytes.substr(bytes.size() / kBlockBytes * kBlockBytes));
  tail.push_back(static_cast<char>(0x80));
  while (tail.size() % kBlockBytes != kBlockBytes - kLengthBytes) {
    tail.push_back('\0');
  }
  const std::uint64_t bit_count = static_cast<std::uint64_t>(bytes.size()) * kBitsPerByte;
  for (std::size_t i = kLengthBytes; i-- > 0;) {
    tail.push_back(static_cast<char>((bit_count >> (i * kBitsPerByte)) & 0xffU));
  }
  return tail;
}

}  // namespace

std::string sha256_hex(std::string_view bytes) {
  State state = kInitialState;
  for (std::size_t at = 0; at + kBlockBytes <= bytes.size(); at += kBlockBytes) {
    add_block(state, bytes.substr(at, kBlockBytes));
  }
  const std::string tail = padded_tail(bytes);
  for (std::size_t at = 0; at < tail.size(); at += kBlockBytes) {
    add_block(state, std::string_view(tail).substr(at, kBlockBytes));
  }
  // Eight words as hexadecimal digits, highest first.
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string text;
  for (const Word word : state) {
    for (unsigned shift = 32; shift > 0; shift -= 4) {
      text.push_back(kDigits[(word >> (shift - 4)) & 0xfU]);
    }
  }
  return text;
}

}  // namespace driftbench::base
