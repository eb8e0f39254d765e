#include "session/replay.h"

#include "base/hash64.h"
#include "record/compare_results.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace driftbench::session {

std::string other_engine_words(int engine) {
  return fmt::format("recorded by engine {}; this is engine {}", engine, kEngine);
}

base::Result<Replay> Replay::start(const record::AttemptFile& file) {
  base::Result<Session> session = Session::create(file.attempt.setup);
  if (!session) {
    return tl::unexpected<base::Error>(session.error());
  }
  return Replay(file, std::move(*session));
}

Replay::Replay(record::AttemptFile file, Session session)
    : file_(std::move(file)),
      session_(std::move(session)),
      is_complete_(file_.attempt.engine != kEngine) {}

void Replay::submit_due_commands() {
  const record::Trace& trace = file_.attempt.trace;
  const std::int64_t step = session_.view().step;
  for (; next_entry_ < trace.size() && trace[next_entry_].step <= step; ++next_entry_) {
    const base::Result<void> taken = session_.submit(trace[next_entry_].command);
    if (!taken) {
      refused_.push_back(
          fmt::format("the command of step {} is refused: {}", step, taken.error().message));
      note_difference(step);
    }
  }
}

void Replay::compare_new_hashes() {
  const std::vector<record::StateHash>& recorded = file_.attempt.state_hashes;
  const std::vector<record::StateHash>& replayed = session_.state_hashes();
  for (; next_hash_ < std::min(recorded.size(), replayed.size()); ++next_hash_) {
    if (recorded[next_hash_] != replayed[next_hash_]) {
      note_difference(std::min(recorded[next_hash_].step, replayed[next_hash_].step));
    }
  }
}

void Replay::note_difference(std::int64_t step) {
  if (first_difference_step_ < 0 || step < first_difference_step_) {
    first_difference_step_ = step;
  }
}

bool Replay::advance(std::int64_t step_count) {
  if (!is_comparable()) {
    return false;
  }
  const record::Trace& trace = file_.attempt.trace;
  const std::int64_t end_step = file_.attempt.end_step;
  std::int64_t left = step_count;
  bool is_stuck = false;
  submit_due_commands();
  while (left > 0 && !is_stuck && session_.view().step < end_step) {
    // Up to the next command, so that each acts at the step at which it was given.
    std::int64_t count = std::min(left, end_step - session_.view().step);
    if (next_entry_ < trace.size()) {
      count = std::min(count, trace[next_entry_].step - session_.view().step);
    }
    const std::int64_t done = session_.advance(count);
    is_stuck = done < count;
    left -= done;
    submit_due_commands();
    compare_new_hashes();
  }
  is_complete_ = is_stuck || session_.view().step >= end_step;
  return !is_complete_;
}

double Replay::progress() const {
  const std::int64_t end_step = file_.attempt.end_step;
  if (is_complete_ || end_step <= 0) {
    return 1.0;
  }
  return static_cast<double>(session_.view().step) / static_cast<double>(end_step);
}

void Replay::add_course_reasons(std::vector<std::string>& reasons) const {
  const std::vector<record::StateHash>& recorded = file_.attempt.state_hashes;
  const std::vector<record::StateHash>& replayed = session_.state_hashes();
  if (session_.view().step != file_.attempt.end_step) {
    reasons.push_back(fmt::format("the record ends at step {}, the replay at step {}",
                                  file_.attempt.end_step, session_.view().step));
  }
  add_hash_reason(reasons);
  if (recorded.size() != replayed.size()) {
    reasons.push_back(
        fmt::format("{} state hashes are recorded, {} replayed", recorded.size(), replayed.size()));
  }
}

std::int64_t Replay::last_equal_step() const {
  std::int64_t step = 0;
  const std::vector<record::StateHash>& recorded = file_.attempt.state_hashes;
  const std::vector<record::StateHash>& replayed = session_.state_hashes();
  for (std::size_t i = 0; i < std::min(recorded.size(), replayed.size()); ++i) {
    if (recorded[i] != replayed[i] ||
        (first_difference_step_ >= 0 && recorded[i].step >= first_difference_step_)) {
      break;
    }
    step = recorded[i].step;
  }
  return step;
}

/// Says what the hashes can say: in which steps the course parts, or that only a hash was changed.
void Replay::add_hash_reason(std::vector<std::string>& reasons) const {
  const std::vector<record::StateHash>& recorded = file_.attempt.state_hashes;
  const std::vector<record::StateHash>& replayed = session_.state_hashes();
  const auto [a, b] =
      std::mismatch(recorded.begin(), recorded.end(), replayed.begin(), replayed.end());
  if (a == recorded.end() || b == replayed.end()) {
    return;
  }
  std::string reason =
      fmt::format("state hash: recorded {} at step {}, replayed {} at step {}; ",
                  base::to_hex16(a->hash), a->step, base::to_hex16(b->hash), b->step);
  // Two courses that have parted never meet again in all their bits.
  if (std::equal(a + 1, recorded.end(), b + 1, replayed.end()) && a + 1 != recorded.end()) {
    reason += "all later ones agree, so this hash was changed and not the course";
  } else {
    reason += fmt::format("the first step that differs is one of {} to {}", last_equal_step() + 1,
                          std::min(a->step, b->step));
  }
  reasons.push_back(std::move(reason));
}

ReplayReport Replay::report() const {
  ReplayReport report;
  report.engine = file_.attempt.engine;
  report.is_comparable = is_comparable();
  report.first_difference_step = first_difference_step_;
  report.last_equal_step = last_equal_step();
  for (const std::string& link : record::check_chain(file_).broken) {
    report.reasons.push_back(link == "results"
                                 ? "the results do not match their digest"
                                 : fmt::format("the {} does not match its digest", link));
  }
  if (!is_comparable()) {
    report.reasons.push_back(other_engine_words(report.engine));
    return report;
  }
  if (!is_complete_) {
    report.reasons.push_back("the replay has not run to its end");
    return report;
  }
  report.reasons.insert(report.reasons.end(), refused_.begin(), refused_.end());
  add_course_reasons(report.reasons);
  if (file_.attempt.results.has_value()) {
    const std::vector<std::string> differences =
        record::result_differences(*file_.attempt.results, session_.measure());
    report.reasons.insert(report.reasons.end(), differences.begin(), differences.end());
  }
  report.equal = report.reasons.empty();
  return report;
}

}  // namespace driftbench::session
