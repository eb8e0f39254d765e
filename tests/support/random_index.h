// Random positions and bytes for generated test cases.
#pragma once

#include "base/random.h"

#include <cstddef>

namespace driftbench::support {

/// Uniform position in something that has `count` entries; count > 0.
inline std::size_t random_index(base::Rng& rng, std::size_t count) {
  return static_cast<std::size_t>(rng.below(count));
}

}  // namespace driftbench::support
