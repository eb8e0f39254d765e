// Completion: who did which block, and how much of it inside the tolerance.
#include "classroom/charts.h"
#include "classroom/picture.h"
#include "classroom/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace driftbench::classroom {
namespace {

struct Cell {
  std::size_t attempts = 0;
  std::size_t judged = 0;
  std::size_t inside = 0;
  stats::Approach approach = stats::Approach::kFreehand;
};

/// The block of the lesson, or the approach where only a table is known.
std::string block_of(const Entry& entry) {
  return entry.block_id.empty() ? std::string(approach_word(entry.approach)) : entry.block_id;
}

}  // namespace

bool is_shown(const Part& part, stats::Approach approach) {
  return std::find(part.hidden.begin(), part.hidden.end(), approach) == part.hidden.end();
}

std::vector<const Entry*> thinned(const Part& part) {
  const std::size_t step = (part.entries.size() + kMaxMarks - 1) / kMaxMarks;
  std::vector<const Entry*> some;
  for (std::size_t i = 0; i < part.entries.size(); i += step) {
    some.push_back(part.entries[i]);
  }
  return some;
}

std::vector<Picture> completion_grid(const Class& whole, const Part& part) {
  std::map<std::pair<std::size_t, std::string>, Cell> cells;
  std::vector<std::string> blocks;
  std::vector<std::size_t> learners;
  for (const LearnerSummary& summary : part.learners) {
    if (!is_shown(part, summary.approach)) {
      continue;
    }
    if (learners.empty() || learners.back() != summary.learner) {
      learners.push_back(summary.learner);
    }
    for (const Entry* entry : summary.entries) {
      const std::string block = block_of(*entry);
      if (std::find(blocks.begin(), blocks.end(), block) == blocks.end()) {
        blocks.push_back(block);
      }
      Cell& cell = cells[{summary.learner, block}];
      ++cell.attempts;
      cell.judged += entry->inside.has_value() ? 1U : 0U;
      cell.inside += entry->inside.value_or(false) ? 1U : 0U;
      cell.approach = summary.approach;
    }
  }
  if (learners.empty()) {
    return {};
  }
  learners.resize(std::min(learners.size(), kMaxPictured));
  constexpr double kLeft = 250.0;
  constexpr double kRow = 34.0;
  constexpr double kTop = 50.0;
  constexpr double kMark = 9.0;
  constexpr double kBaseline = 6.0;
  const double column = std::min(240.0, 950.0 / static_cast<double>(blocks.size()));
  const double width = kLeft + column * static_cast<double>(blocks.size());
  // A picture for every twenty learners, so that paper can break between them.
  constexpr std::size_t kRows = 20;
  std::vector<Picture> pictures;
  for (std::size_t first = 0; first < learners.size(); first += kRows) {
    const std::size_t count = std::min(kRows, learners.size() - first);
    Picture picture(
        width, kTop + kRow * static_cast<double>(count) + 10.0, "Completion",
        "A row a learner, a column a block: attempts inside the tolerance of attempts made.");
    for (std::size_t b = 0; b < blocks.size(); ++b) {
      picture.text(kLeft + column * static_cast<double>(b), kTop - 20.0, blocks[b], Anchor::kStart,
                   "name");
    }
    for (std::size_t i = 0; i < count; ++i) {
      const std::size_t learner = learners[first + i];
      const double y = kTop + kRow * (static_cast<double>(i) + 0.5);
      picture.line(0.0, y - 0.5 * kRow, width, y - 0.5 * kRow, "grid");
      picture.text(0.0, y + kBaseline, label_of(whole, learner));
      for (std::size_t b = 0; b < blocks.size(); ++b) {
        const double x = kLeft + column * static_cast<double>(b) + kMark;
        const auto found = cells.find({learner, blocks[b]});
        if (found == cells.end()) {
          picture.text(x - kMark, y + kBaseline, "none yet", Anchor::kStart, "faint");
          continue;
        }
        const Cell& cell = found->second;
        picture.mark(x, y, kMark, cell.approach, part.source, cell.inside > 0 ? "" : "hollow");
        picture.text(x + 2.0 * kMark, y + kBaseline,
                     cell.judged == 0 ? counted(cell.attempts, "hole")
                                      : fmt::format("{} of {} inside", cell.inside, cell.attempts));
      }
    }
    pictures.push_back(std::move(picture));
  }
  return pictures;
}

}  // namespace driftbench::classroom
