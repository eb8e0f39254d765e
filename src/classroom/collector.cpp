#include "base/sha256.h"
#include "classroom/holes_rows.h"
#include "classroom/roster.h"
#include "record/attempt.h"
#include "session/session.h"

#include <fmt/format.h>

#include <utility>

namespace driftbench::classroom {
namespace {

constexpr std::string_view kTableEnding = ".csv";

std::string place_of(const Entry& entry) {
  return entry.is_record() ? entry.file : fmt::format("{}:{}", entry.file, entry.line);
}

/// What the record itself shows of events that fail an attempt whatever its accuracy.
std::vector<std::string> events_of(const record::Attempt& attempt) {
  std::vector<std::string> events;
  if (!attempt.results.has_value()) {
    return events;
  }
  const double allowed_mm = attempt.setup.tolerance.depth_high_mm;
  if (attempt.results->process.plunge_mm > allowed_mm) {
    events.push_back(fmt::format("went {:.2f} mm past the planned depth, {:.2f} mm allowed",
                                 attempt.results->process.plunge_mm, allowed_mm));
  }
  if (attempt.results->implant.has_value() && attempt.results->implant->grip_frac <= 0.0) {
    events.emplace_back("stripped the implant's thread");
  }
  return events;
}

/// The attempt as its row in holes.csv tells it, and what only the file knows.
base::Result<Entry> entry_of(const record::AttemptFile& file, const std::string& name) {
  const record::Attempt& attempt = file.attempt;
  Entry entry;
  std::string refused;
  const base::Result<void> read = visit_holes(
      record::holes_csv_header() + record::holes_csv_row(attempt), name,
      [&entry](Entry&& row) -> base::Result<void> {
        entry = std::move(row);
        return {};
      },
      [&refused](std::string sentence) { refused = std::move(sentence); });
  if (!read || !refused.empty()) {
    return base::fail(base::ErrorCode::kParse, read ? refused : read.error().message);
  }
  entry.line = 0;
  entry.standing = Standing::kUnchecked;
  entry.lesson_id = attempt.setup.lesson_id;
  entry.lesson_sha256 = attempt.setup.lesson_sha256;
  entry.block_id = attempt.setup.block_id;
  entry.device = attempt.device;
  entry.engine = attempt.engine;
  entry.tolerance = attempt.setup.tolerance;
  entry.estimate = attempt.estimate;
  entry.events = events_of(attempt);
  if (attempt.results.has_value()) {
    entry.inside = attempt.results->inside_tolerance;
  }
  for (const std::string& link : record::check_chain(file).broken) {
    entry.standing = Standing::kDiffers;
    entry.reasons.push_back(fmt::format("the {} does not match its digest", link));
  }
  if (entry.standing == Standing::kUnchecked && attempt.engine != session::kEngine) {
    entry.standing = Standing::kOtherEngine;
    entry.reasons.push_back(
        fmt::format("recorded by engine {}, this is engine {}", attempt.engine, session::kEngine));
  }
  return entry;
}

/// The lesson that most records are of; of equally frequent ones the first in order of id and hash.
void settle_lesson(Roster& roster) {
  std::map<std::pair<std::string, std::string>, std::size_t> counts;
  for (const Entry& entry : roster.entries) {
    if (entry.is_record()) {
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
    if (!entry.is_record() || entry.lesson_sha256 == roster.lesson_sha256) {
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
