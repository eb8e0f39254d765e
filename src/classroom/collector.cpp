#include "base/sha256.h"
#include "classroom/attempt_entry.h"
#include "classroom/holes_rows.h"
#include "classroom/roster.h"
#include "classroom/turn_in.h"

#include <fmt/format.h>

#include <utility>

namespace driftbench::classroom {
namespace {

constexpr std::string_view kTableEnding = ".csv";

std::string place_of(const Entry& entry) {
  return entry.is_record() ? entry.file : fmt::format("{}:{}", entry.file, entry.line);
}

/// The lesson that most records are of; of equally frequent ones the first in order of id and hash.
void settle_lesson(Roster& roster) {
  std::map<std::pair<std::string, std::string>, std::size_t> counts;
  for (const Entry& entry : roster.entries) {
    if (!entry.lesson_sha256.empty()) {
      ++counts[{entry.lesson_id, entry.lesson_sha256}];
    }
  }
  std::size_t most = 0;
  for (const auto& [lesson, count] : counts) {
    if (count > most) {
      most = count;
      roster.lesson_id = lesson.first;
      roster.lesson_sha256 = lesson.second;
    }
  }
  for (Entry& entry : roster.entries) {
    if (entry.lesson_sha256.empty() || entry.lesson_sha256 == roster.lesson_sha256) {
      continue;
    }
    entry.is_other_lesson = true;
    entry.reasons.push_back(
        entry.lesson_id == roster.lesson_id
            ? fmt::format("another version of the lesson {}: its hash differs", entry.lesson_id)
            : fmt::format("of the lesson {}, most are of {}", entry.lesson_id, roster.lesson_id));
  }
}

}  // namespace

void Sentences::add(std::string sentence) {
  ++count;
  if (items.size() < kMaxSentences) {
    items.push_back(std::move(sentence));
  }
}

void Collector::add(std::string_view bytes, const std::string& name) {
  const std::string sha256 = base::sha256_hex(bytes);
  if (!files_seen_.insert(sha256).second) {
    roster_.notes.add(fmt::format("{}: the same file was given before, taken once", name));
    return;
  }
  if (name.ends_with(kTableEnding)) {
    add_table(bytes, name, sha256);
  } else if (name.find(kExperimentEnding) != std::string::npos) {
    add_experiment(bytes, name);
  } else if (name.find(kTurnInEnding) != std::string::npos) {
    add_turn_in(bytes, name, sha256);
  } else {
    add_attempt(bytes, name, sha256);
  }
}

void Collector::add_attempt(std::string_view bytes, const std::string& name,
                            const std::string& sha256) {
  const auto outcome = record::read_attempt(bytes, name);
  if (!outcome.value.has_value()) {
    roster_.refused.add(outcome.first_error());
    return;
  }
  base::Result<Entry> entry = entry_of(*outcome.value, name);
  if (!entry) {
    roster_.refused.add(entry.error().message);
    return;
  }
  entry->file_sha256 = sha256;
  take_record(std::move(*entry));
}

void Collector::add_experiment(std::string_view bytes, const std::string& name) {
  auto outcome = read_experiment(bytes, name);
  if (!outcome.value.has_value()) {
    roster_.refused.add(outcome.first_error());
  } else if (roster_.experiment.has_value()) {
    roster_.refused.add(fmt::format(
        "{}: found a second planned experiment, expected one; the first is kept", name));
  } else {
    roster_.experiment = std::move(outcome.value);
  }
}

void Collector::add_table(std::string_view bytes, const std::string& name,
                          const std::string& sha256) {
  const base::Result<void> read = visit_holes(
      bytes, name,
      [&](Entry&& row) -> base::Result<void> {
        if (rows_.size() >= kMaxEntries) {
          return base::fail(base::ErrorCode::kOutOfRange,
                            fmt::format("{}: found more than {} holes in all, expected at most "
                                        "that many",
                                        place_of(row), kMaxEntries));
        }
        row.file_sha256 = sha256;
        rows_.push_back(std::move(row));
        return {};
      },
      [&](std::string sentence) { roster_.refused.add(std::move(sentence)); });
  if (!read) {
    roster_.refused.add(read.error().message);
  }
}

void Collector::add_turn_in(std::string_view bytes, const std::string& name,
                            const std::string& sha256) {
  base::Result<std::vector<Entry>> entries = read_turn_in(bytes, name);
  if (!entries) {
    roster_.refused.add(entries.error().message);
    return;
  }
  for (Entry& entry : *entries) {
    entry.file_sha256 = sha256;
    rows_.push_back(std::move(entry));
  }
}

void Collector::take_record(Entry&& entry) {
  const auto known = records_by_id_.find(entry.attempt_id);
  if (known != records_by_id_.end()) {
    roster_.refused.add(
        fmt::format("{}: found another file with the attempt id {} of {}, expected one; the first "
                    "is kept",
                    entry.file, entry.attempt_id, roster_.entries[known->second].file));
    return;
  }
  records_by_id_.emplace(entry.attempt_id, roster_.entries.size());
  roster_.entries.push_back(std::move(entry));
}

void Collector::take_row(Entry&& row) {
  if (!row.attempt_id.empty()) {
    const auto record = records_by_id_.find(row.attempt_id);
    const auto other = rows_by_id_.find(row.attempt_id);
    const bool is_record = record != records_by_id_.end();
    if (is_record || other != rows_by_id_.end()) {
      const Entry& known = roster_.entries[is_record ? record->second : other->second];
      if (known.measures != row.measures || known.approach != row.approach ||
          known.learner != row.learner || known.source != row.source) {
        roster_.refused.add(fmt::format(
            "{}: found other values than {} has for the attempt id {}, expected the same; {} is "
            "kept",
            place_of(row), place_of(known), row.attempt_id,
            is_record ? "the attempt file" : "the first row"));
      }
      return;
    }
    rows_by_id_.emplace(row.attempt_id, roster_.entries.size());
  }
  roster_.entries.push_back(std::move(row));
}

Roster Collector::finish() {
  for (Entry& row : rows_) {
    take_row(std::move(row));
  }
  settle_lesson(roster_);
  return std::move(roster_);
}

}  // namespace driftbench::classroom
