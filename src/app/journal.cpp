#include "app/journal.h"

#include "platform/host.h"

#include <utility>

namespace driftbench::app {

std::vector<std::int32_t> journal_rows(const record::Trace& trace, std::size_t first_entry) {
  std::vector<std::int32_t> rows;
  for (std::size_t i = first_entry; i < trace.size(); ++i) {
    rows.push_back(static_cast<std::int32_t>(trace[i].step));
    rows.push_back(static_cast<std::int32_t>(trace[i].command.op));
    rows.insert(rows.end(), trace[i].command.arguments.begin(), trace[i].command.arguments.end());
  }
  return rows;
}

record::Trace trace_of_rows(const std::vector<std::int32_t>& rows) {
  record::Trace trace;
  for (std::size_t at = 0; at + platform::kJournalRow <= rows.size(); at += platform::kJournalRow) {
    record::TraceEntry entry;
    entry.step = rows[at];
    entry.command.op = static_cast<record::Op>(rows[at + 1]);
    for (std::size_t i = 0; i < record::kMaxArguments; ++i) {
      entry.command.arguments[i] = rows[at + 2 + i];
    }
    trace.push_back(entry);
  }
  return trace;
}

void Journal::begin(const record::Attempt& head, std::string title) {
  *this = Journal();
  id_ = head.attempt_id;
  title_ = std::move(title);
  head_ = record::write_attempt(head);
}

void Journal::resume(const std::string& attempt_id, std::size_t entry_count, std::int64_t step) {
  *this = Journal();
  id_ = attempt_id;
  is_stored_ = true;
  kept_entries_ = entry_count;
  kept_step_ = step;
}

void Journal::keep(const session::Session& session, double time_s, bool now) {
  const record::Trace& trace = session.trace();
  const std::int64_t step = session.view().step;
  const bool has_news = trace.size() > kept_entries_ || (step > kept_step_ && !trace.empty());
  if (id_.empty() || !has_news || (!now && time_s - kept_at_s_ < kJournalPeriod_s)) {
    return;
  }
  if (!is_stored_) {
    platform::begin_journal(id_, title_, head_);
    is_stored_ = true;
  }
  platform::append_journal(id_, step, journal_rows(trace, kept_entries_));
  kept_entries_ = trace.size();
  kept_step_ = step;
  kept_at_s_ = time_s;
}

void Journal::end() {
  *this = Journal();
}

void Journal::discard() {
  if (is_stored_) {
    platform::drop_journal(id_);
  }
  end();
}

}  // namespace driftbench::app
