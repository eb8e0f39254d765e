#include "lesson/sequence_order.h"

#include "base/contract.h"

#include <algorithm>
#include <utility>

namespace driftbench::lesson {
namespace {

/// Stream of the order; attempts use the streams of the approaches, 0 to 2.
constexpr std::uint64_t kOrderStream = 1000;

void shuffle(std::span<std::size_t> items, base::Rng& rng) {
  for (std::size_t i = items.size(); i > 1; --i) {
    const auto other = static_cast<std::size_t>(rng.below(i));
    std::swap(items[i - 1], items[other]);
  }
}

std::vector<std::size_t> mixed_order(const Lesson& lesson, const std::vector<std::size_t>& mixed,
                                     base::Rng& rng) {
  std::vector<std::size_t> order;
  if (lesson.order.kind == OrderKind::kPermutedBlocks && mixed.size() == 2) {
    const auto per_arm = static_cast<std::size_t>(lesson.blocks[mixed[0]].attempts);
    for (const std::size_t arm : balanced_runs(per_arm, lesson.order.run_sizes, rng)) {
      order.push_back(mixed[arm]);
    }
    return order;
  }
  for (const std::size_t block : mixed) {
    order.insert(order.end(), static_cast<std::size_t>(lesson.blocks[block].attempts), block);
  }
  shuffle(order, rng);
  return order;
}

}  // namespace

bool is_mixed(const OrderPlan& order, const LessonBlock& block) {
  return order.kind != OrderKind::kFixed &&
         (order.mix.empty() ||
          std::find(order.mix.begin(), order.mix.end(), block.id) != order.mix.end());
}

std::vector<std::size_t> balanced_runs(std::size_t per_arm, std::span<const int> run_sizes,
                                       base::Rng& rng) {
  DRIFTBENCH_EXPECTS(!run_sizes.empty());
  std::vector<std::size_t> arms;
  while (arms.size() < 2 * per_arm) {
    const int drawn = run_sizes[static_cast<std::size_t>(rng.below(run_sizes.size()))];
    DRIFTBENCH_EXPECTS(drawn > 0 && drawn % 2 == 0);
    const std::size_t start = arms.size();
    const std::size_t size = std::min(static_cast<std::size_t>(drawn), 2 * per_arm - start);
    arms.insert(arms.end(), size / 2, 0);
    arms.insert(arms.end(), size / 2, 1);
    shuffle(std::span<std::size_t>(arms).subspan(start), rng);
  }
  return arms;
}

std::vector<std::size_t> planned_order(const Lesson& lesson, std::uint64_t seed,
                                       std::uint64_t round) {
  base::Rng rng(base::split(seed, kOrderStream, round));
  std::vector<std::size_t> mixed;
  for (std::size_t i = 0; i < lesson.blocks.size(); ++i) {
    if (is_mixed(lesson.order, lesson.blocks[i])) {
      mixed.push_back(i);
    }
  }
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < lesson.blocks.size(); ++i) {
    if (!mixed.empty() && i == mixed.front()) {
      const std::vector<std::size_t> part = mixed_order(lesson, mixed, rng);
      order.insert(order.end(), part.begin(), part.end());
    } else if (!is_mixed(lesson.order, lesson.blocks[i])) {
      order.insert(order.end(), static_cast<std::size_t>(lesson.blocks[i].attempts), i);
    }
  }
  return order;
}

}  // namespace driftbench::lesson
