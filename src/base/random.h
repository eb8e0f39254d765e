// Seeded random numbers with the same stream in every build.
#pragma once

#include <array>
#include <cstdint>

namespace driftbench::base {

/// One step of splitmix64: advances the state and gives a well mixed number.
///
/// Source: Steele, Lea, Flood (2014), Fast splittable pseudorandom number generators, OOPSLA
[[nodiscard]] std::uint64_t splitmix64(std::uint64_t& state);

/// Generator xoshiro256**, seeded by four draws of splitmix64.
///
/// Source: Blackman, Vigna (2021), Scrambled linear pseudorandom number generators, ACM TOMS 47(4)
class Rng {
 public:
  explicit Rng(std::uint64_t seed);

  /// Starts from a raw state. Contract: not all zero.
  explicit Rng(const std::array<std::uint64_t, 4>& state);

  /// Next 64 random bits.
  [[nodiscard]] std::uint64_t next();

  /// Uniform on [0, 1) in steps of 2^-53.
  [[nodiscard]] double uniform01();

  /// Uniform on [low, high). Contract: low <= high, both finite.
  [[nodiscard]] double uniform(double low, double high);

  /// Uniform on 0 ... n-1 without bias; draws again where the last partial block is hit.
  /// Contract: n > 0.
  [[nodiscard]] std::uint64_t below(std::uint64_t n);

  /// The whole state, for state hashes and for going on later.
  [[nodiscard]] const std::array<std::uint64_t, 4>& state() const { return state_; }

 private:
  std::array<std::uint64_t, 4> state_{};
};

/// Seed of an independent stream: attempt `i` of approach `a` under `seed`.
///
/// Each argument passes through its own splitmix64 step, so neighbouring arguments give unrelated
/// seeds, and the seed of one (a, i) never depends on how many others are drawn.
/// Source: own construction from splitmix64
[[nodiscard]] std::uint64_t split(std::uint64_t seed, std::uint64_t a, std::uint64_t i);

}  // namespace driftbench::base
