// splitmix64 and xoshiro256** in unsigned 64-bit arithmetic.
#include "base/random.h"

#include "base/contract.h"

namespace driftbench::base {
namespace {

constexpr std::uint64_t rotated_left(std::uint64_t word, unsigned count) {
  return (word << count) | (word >> (64U - count));
}

}  // namespace

std::uint64_t splitmix64(std::uint64_t& state) {
  // Increment: 2^64 / golden ratio, odd; multipliers: Stafford's mix 13 (Steele et al. 2014).
  state += 0x9e3779b97f4a7c15U;
  std::uint64_t z = state;
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
  return z ^ (z >> 31U);
}

Rng::Rng(std::uint64_t seed) {
  for (std::uint64_t& word : state_) {
    word = splitmix64(seed);
  }
}

Rng::Rng(const std::array<std::uint64_t, 4>& state) : state_(state) {
  DRIFTBENCH_EXPECTS((state[0] | state[1] | state[2] | state[3]) != 0);
}

std::uint64_t Rng::next() {
  const std::uint64_t result = rotated_left(state_[1] * 5U, 7) * 9U;
  const std::uint64_t shifted = state_[1] << 17U;
  state_[2] ^= state_[0];
  state_[3] ^= state_[1];
  state_[1] ^= state_[2];
  state_[0] ^= state_[3];
  state_[2] ^= shifted;
  state_[3] = rotated_left(state_[3], 45);
  return result;
}

double Rng::uniform01() {
  constexpr double kStep = 1.0 / 9007199254740992.0;  // 2^-53
  return static_cast<double>(next() >> 11U) * kStep;
}

double Rng::uniform(double low, double high) {
  DRIFTBENCH_EXPECTS(low <= high);
  return low + (high - low) * uniform01();
}

std::uint64_t Rng::below(std::uint64_t n) {
  DRIFTBENCH_EXPECTS(n > 0);
  // The first 2^64 mod n values would make small results likelier: they are drawn again.
  const std::uint64_t skipped = (0U - n) % n;
  std::uint64_t draw = next();
  while (draw < skipped) {
    draw = next();
  }
  return draw % n;
}

std::uint64_t split(std::uint64_t seed, std::uint64_t a, std::uint64_t i) {
  std::uint64_t state = seed;
  state = splitmix64(state) ^ a;
  state = splitmix64(state) ^ i;
  return splitmix64(state);
}

}  // namespace driftbench::base
