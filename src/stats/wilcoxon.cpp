// Counts rank sums over all signs by adding one difference after the other.
#include "stats/wilcoxon.h"

#include "stats/series.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <utility>

namespace driftbench::stats {
namespace {

// Sizes that differ by less than this part of the largest are ties that rounding has parted.
constexpr double kTie = 1e-12;

std::vector<double> ranks_of(std::span<const double> differences) {
  std::vector<double> sizes;
  sizes.reserve(differences.size());
  for (const double difference : differences) {
    sizes.push_back(std::abs(difference));
  }
  return mid_ranks(sizes);
}

// Twice a mid-rank is a whole number.
std::size_t doubled(double rank) {
  return static_cast<std::size_t>(std::lround(2.0 * rank));
}

}  // namespace

std::vector<double> mid_ranks(std::span<const double> sizes) {
  std::vector<std::size_t> order(sizes.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return sizes[a] < sizes[b]; });
  std::vector<double> ranks(sizes.size());
  const double tie = sizes.empty() ? 0.0 : kTie * std::abs(sizes[order.back()]);
  std::size_t first = 0;
  while (first < order.size()) {
    std::size_t last = first;
    while (last + 1 < order.size() && sizes[order[last + 1]] - sizes[order[last]] <= tie) {
      ++last;
    }
    for (std::size_t i = first; i <= last; ++i) {
      ranks[order[i]] = 0.5 * real(first + last) + 1.0;
    }
    first = last + 1;
  }
  return ranks;
}

double signed_rank_sum(std::span<const double> differences) {
  const std::vector<double> ranks = ranks_of(differences);
  double sum = 0.0;
  for (std::size_t i = 0; i < differences.size(); ++i) {
    sum += differences[i] > 0.0 ? ranks[i] : 0.0;
  }
  return sum;
}

base::Result<double> signed_rank_p(std::span<const double> differences) {
  if (differences.empty()) {
    return too_few(0, 1, "pair");
  }
  if (differences.size() > kMaxExactPairs) {
    return base::fail(base::ErrorCode::kOutOfRange,
                      fmt::format("found {} pairs, expected at most {} for the exact test",
                                  differences.size(), kMaxExactPairs));
  }
  const std::vector<double> ranks = ranks_of(differences);
  // ways[s]: choices of signs whose doubled rank sum is s.
  std::vector<std::uint64_t> ways{1};
  std::uint64_t all = 1;
  for (std::size_t i = 0; i < differences.size(); ++i) {
    if (differences[i] == 0.0) {
      continue;
    }
    const std::size_t rank = doubled(ranks[i]);
    std::vector<std::uint64_t> more = ways;
    more.resize(ways.size() + rank, 0);
    for (std::size_t s = 0; s < ways.size(); ++s) {
      more[s + rank] += ways[s];
    }
    ways = std::move(more);
    all *= 2;
  }
  // The distribution is symmetric: as far from the middle on either side.
  const std::size_t total = ways.size() - 1;
  const std::size_t found = doubled(signed_rank_sum(differences));
  const auto distance = [total](std::size_t s) {
    return 2 * s > total ? 2 * s - total : total - 2 * s;
  };
  std::uint64_t extreme = 0;
  for (std::size_t s = 0; s < ways.size(); ++s) {
    extreme += distance(s) >= distance(found) ? ways[s] : 0;
  }
  return static_cast<double>(extreme) / static_cast<double>(all);
}

}  // namespace driftbench::stats
