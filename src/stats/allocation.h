// Random order of two techniques in short blocks.
#pragma once

#include "base/result.h"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace driftbench::stats {

/// Arms 0 and 1 in permuted blocks: within each block both are as frequent, and each block's length
/// is drawn from `block_sizes`. The first `count` places are given; the last block may be cut.
///
/// Errors: kInvalidArgument when there is no block size or one is odd, 0 or above 100
/// Source: permuted-block randomisation with random block sizes; shuffling: Knuth, TAOCP 2, 3.4.2 P
[[nodiscard]] base::Result<std::vector<int>> permuted_blocks(
    std::size_t count, std::span<const std::size_t> block_sizes, std::uint64_t seed);

}  // namespace driftbench::stats
