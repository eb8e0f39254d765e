#include "classroom/attempt_entry.h"

#include "classroom/holes_rows.h"
#include "session/session.h"

#include <fmt/format.h>

#include <utility>

namespace driftbench::classroom {
namespace {

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

}  // namespace

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
  constexpr double kStep_s = 0.001;
  entry.engaged_s = kStep_s * static_cast<double>(attempt.end_step);
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

}  // namespace driftbench::classroom
