#include "app/rerun.h"

#include "platform/host.h"
#include "ui/strings.h"

#include <utility>

namespace driftbench::app {
namespace {

// Between two looks at the clock; a step takes some ten microseconds.
constexpr std::int64_t kPortion_steps = 50;

}  // namespace

Rerun::Rerun(record::AttemptFile file, session::Replay replay, Purpose purpose)
    : file_(std::move(file)), replay_(std::move(replay)), purpose_(purpose) {}

base::Result<std::unique_ptr<Rerun>> Rerun::start(record::AttemptFile file, Purpose purpose) {
  base::Result<session::Replay> replay = session::Replay::start(file);
  if (!replay.has_value()) {
    return tl::unexpected<base::Error>(replay.error());
  }
  return std::unique_ptr<Rerun>(new Rerun(std::move(file), std::move(*replay), purpose));
}

bool Rerun::work(double budget_s) {
  const double until_s = platform::now_s() + budget_s;
  bool more = true;
  while (more && platform::now_s() < until_s) {
    more = replay_.advance(kPortion_steps);
  }
  return more;
}

std::string Rerun::verdict() const {
  const session::ReplayReport report = replay_.report();
  if (!report.is_comparable) {
    // The digests that do not match stand before the engine.
    return report.reasons.size() > 1
               ? ui::say(ui::Str::kRecordChanged, report.reasons.front())
               : ui::say(ui::Str::kRecordOfOtherEngine, std::to_string(report.engine),
                         std::to_string(session::kEngine));
  }
  if (report.equal) {
    return std::string(ui::tr(ui::Str::kReplaysSame));
  }
  if (report.reasons.empty()) {
    return std::string(ui::tr(ui::Str::kReplaysNot));
  }
  return ui::say(ui::Str::kReplaysNotBecause, report.reasons.front());
}

session::Session Rerun::take_session() {
  return std::move(replay_.session());
}

}  // namespace driftbench::app
