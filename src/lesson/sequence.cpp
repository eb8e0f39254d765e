#include "lesson/sequence.h"

#include "lesson/sequence_order.h"

#include <algorithm>

namespace driftbench::lesson {
namespace {

/// One time through the lesson.
class Round {
 public:
  Round(const Lesson& lesson, std::uint64_t seed, std::uint64_t number)
      : lesson_(&lesson),
        number_(number),
        order_(planned_order(lesson, seed, number)),
        done_(lesson.blocks.size(), 0) {
    for (std::size_t i = 0; i < lesson.blocks.size(); ++i) {
      const std::vector<std::string>& named = lesson.criterion.blocks;
      if (named.empty() ||
          std::find(named.begin(), named.end(), lesson.blocks[i].id) != named.end()) {
        counted_.push_back(i);
        planned_marks_ += static_cast<std::size_t>(lesson.blocks[i].attempts);
      }
    }
  }

  [[nodiscard]] std::size_t planned(std::size_t block) const {
    return static_cast<std::size_t>(lesson_->blocks[block].attempts);
  }

  [[nodiscard]] Evidence evidence() const {
    return evidence_of(marks_, lesson_->criterion, planned_marks_);
  }

  /// Block of the next attempt; none when the round is done.
  [[nodiscard]] std::optional<std::size_t> next_block() const {
    if (planned_done_ < order_.size()) {
      std::vector<std::size_t> seen(done_.size(), 0);
      return *std::find_if(order_.begin(), order_.end(),
                           [&](std::size_t block) { return seen[block]++ == done_[block]; });
    }
    const Criterion& criterion = lesson_->criterion;
    const bool goes_on =
        criterion.rule == PassRule::kOfLast || criterion.rule == PassRule::kLearningEvidence;
    if (goes_on && marks_.size() < static_cast<std::size_t>(criterion.cap) &&
        !evidence().passed_at.has_value() && !counted_.empty()) {
      const std::size_t extra = marks_.size() - std::min(marks_.size(), planned_marks_);
      return counted_[extra % counted_.size()];
    }
    return std::nullopt;
  }

  [[nodiscard]] bool is_over() const {
    return planned_done_ == order_.size() && !next_block().has_value();
  }

  [[nodiscard]] bool is_done(std::size_t block) const { return done_[block] >= planned(block); }

  [[nodiscard]] std::uint64_t number() const { return number_; }

  [[nodiscard]] std::size_t total() const { return total_; }

  [[nodiscard]] std::size_t planned_total() const { return order_.size(); }

  [[nodiscard]] std::size_t place(std::size_t block) const { return done_[block]; }

  void add(std::size_t block, const PastAttempt& attempt) {
    planned_done_ += is_done(block) ? 0U : 1U;
    ++done_[block];
    ++total_;
    if (std::find(counted_.begin(), counted_.end(), block) != counted_.end()) {
      marks_.push_back(mark_of(attempt, lesson_->tolerance, lesson_->criterion));
    }
  }

 private:
  const Lesson* lesson_;
  std::uint64_t number_;
  std::vector<std::size_t> order_;
  std::vector<std::size_t> done_;     // attempts by block
  std::vector<std::size_t> counted_;  // blocks that the criterion counts
  std::vector<Mark> marks_;
  std::size_t planned_marks_ = 0;
  std::size_t planned_done_ = 0;
  std::size_t total_ = 0;
};

std::optional<std::size_t> block_of(const Lesson& lesson, const PastAttempt& attempt) {
  for (std::size_t i = 0; i < lesson.blocks.size(); ++i) {
    if (attempt.lesson_id == lesson.id && lesson.blocks[i].id == attempt.block_id) {
      return i;
    }
  }
  return std::nullopt;
}

SeenAttempt seen(const Lesson& lesson, const Round& round, std::size_t block,
                 const PastAttempt& attempt, std::size_t history_index) {
  std::optional<double> share;
  if (attempt.errors.has_value()) {
    share = largest_share(*attempt.errors, lesson.tolerance, lesson.criterion.measures);
  }
  const std::size_t place = round.place(block);
  const Shown shown =
      shown_after(lesson.blocks[block].feedback, place, round.planned(block), share);
  return {history_index, round.number(), place, shown, shown};
}

Step step_of(const Lesson& lesson, const Round& round, std::size_t block,
             std::span<const PastAttempt> history) {
  Step step = step_in_block(lesson, block, round.place(block), round.planned(block), history);
  step.is_extra = round.is_done(block);
  return step;
}

}  // namespace

LessonProgress lesson_progress(const Lesson& lesson, std::uint64_t seed,
                               std::span<const PastAttempt> history) {
  LessonProgress progress;
  Round round(lesson, seed, 0);
  std::vector<std::size_t> blocks;  // of the attempts of this round
  const auto reveal = [&](bool whole_round) {
    const std::size_t first = progress.attempts.size() - blocks.size();
    for (std::size_t i = 0; i < blocks.size(); ++i) {
      const bool is_summed_up = lesson.blocks[blocks[i]].feedback.kind == FeedbackKind::kSummary &&
                                round.is_done(blocks[i]);
      if (whole_round || is_summed_up) {
        progress.attempts[first + i].now = Shown::kEverything;
      }
    }
  };
  for (std::size_t i = 0; i < history.size(); ++i) {
    const std::optional<std::size_t> block = block_of(lesson, history[i]);
    if (!block.has_value()) {
      continue;
    }
    if (progress.complete_days.has_value()) {
      progress.practice.push_back(i);
      continue;
    }
    if (progress.is_round_done) {
      round = Round(lesson, seed, round.number() + 1);
      blocks.clear();
      progress.is_round_done = false;
    }
    progress.attempts.push_back(seen(lesson, round, *block, history[i], i));
    blocks.push_back(*block);
    round.add(*block, history[i]);
    progress.is_round_done = round.is_over();
    reveal(progress.is_round_done);
    if (progress.is_round_done) {
      const double end = history[i].finished_days;
      progress.finished_days = progress.finished_days.value_or(end);
      progress.is_passed = round.evidence().passed_at.has_value();
      if (progress.is_passed || lesson.criterion.rule == PassRule::kNone) {
        progress.complete_days = end;
      }
    }
  }
  progress.round = round.number();
  progress.done = round.total();
  progress.planned = round.planned_total();
  progress.evidence = round.evidence();
  if (progress.is_round_done && !progress.complete_days.has_value()) {
    round = Round(lesson, seed, round.number() + 1);
  }
  const std::optional<std::size_t> next = round.next_block();
  if (next.has_value()) {
    progress.next = step_of(lesson, round, *next, history);
  }
  return progress;
}

std::uint64_t next_attempt_index(const Lesson& lesson, specimen::Approach approach,
                                 std::span<const PastAttempt> history) {
  std::uint64_t next = 0;
  for (const PastAttempt& attempt : history) {
    if (attempt.lesson_id == lesson.id && attempt.approach == approach) {
      next = std::max(next, attempt.attempt_index + 1);
    }
  }
  return next;
}

Step step_in_block(const Lesson& lesson, std::size_t block_index, std::size_t place,
                   std::size_t planned, std::span<const PastAttempt> history) {
  const LessonBlock& block = lesson.blocks[block_index];
  Step step;
  step.block_index = block_index;
  step.attempt_index = next_attempt_index(lesson, block.approach, history);
  step.place = place;
  step.planned = planned;
  step.show = block.show;
  step.ask_estimate = is_estimate_asked(block.estimate, place, planned);
  return step;
}

}  // namespace driftbench::lesson
