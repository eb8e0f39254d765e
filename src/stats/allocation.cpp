// Permuted blocks.
#include "stats/allocation.h"

#include "base/random.h"

#include <fmt/format.h>

#include <utility>

namespace driftbench::stats {

base::Result<std::vector<int>> permuted_blocks(std::size_t count,
                                               std::span<const std::size_t> block_sizes,
                                               std::uint64_t seed) {
  constexpr std::size_t kMaxBlock = 100;
  if (block_sizes.empty()) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      "found no block size, expected at least one");
  }
  for (const std::size_t size : block_sizes) {
    if (size == 0 || size % 2 != 0 || size > kMaxBlock) {
      return base::fail(base::ErrorCode::kInvalidArgument,
                        fmt::format("found a block of {}, expected an even number from 2 to {}",
                                    size, kMaxBlock));
    }
  }
  base::Rng rng(seed);
  std::vector<int> arms;
  arms.reserve(count + kMaxBlock);
  while (arms.size() < count) {
    const std::size_t start = arms.size();
    const std::size_t size = block_sizes[static_cast<std::size_t>(rng.below(block_sizes.size()))];
    for (std::size_t i = 0; i < size; ++i) {
      arms.push_back(i < size / 2 ? 0 : 1);
    }
    for (std::size_t i = size - 1; i > 0; --i) {
      const auto other = static_cast<std::size_t>(rng.below(i + 1));
      std::swap(arms[start + i], arms[start + other]);
    }
  }
  arms.resize(count);
  return arms;
}

}  // namespace driftbench::stats
