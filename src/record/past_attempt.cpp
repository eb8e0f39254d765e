#include "record/past_attempt.h"

#include "lesson/guide_room.h"
#include "lesson/instruments.h"

#include <algorithm>
#include <cmath>

namespace driftbench::record {
namespace {

std::optional<lesson::AttemptErrors> errors_of(const Attempt& attempt) {
  if (!attempt.results.has_value()) {
    return std::nullopt;
  }
  const scoring::Results& results = *attempt.results;
  const auto row = [](const scoring::Deviation& deviation, double depth_error_mm) {
    return lesson::AttemptErrors{deviation.entry_lateral_mm, deviation.apex_lateral_mm,
                                 deviation.angle_deg, depth_error_mm};
  };
  if (results.implant.has_value()) {
    return row(results.implant->deviation, results.implant->depth_error_mm);
  }
  if (attempt.setup.place_implant || !results.hole.has_value()) {
    return std::nullopt;
  }
  return row(results.hole->deviation, results.hole->depth_error_mm);
}

bool is_plate(specimen::Structure structure) {
  return structure == specimen::Structure::kFacialPlate ||
         structure == specimen::Structure::kLingualPlate || structure == specimen::Structure::kBase;
}

/// Each kind once: a margin broken, a structure touched, the bone left.
void add_jaw_events(const scoring::JawMeasures& jaw, std::vector<lesson::CriticalEvent>& events) {
  using lesson::CriticalEvent;
  const auto add_if = [&](bool happened, CriticalEvent event) {
    if (happened) {
      events.push_back(event);
    }
  };
  const auto touched = [&](bool plate) {
    return std::any_of(jaw.events.begin(), jaw.events.end(), [&](const scoring::JawEvent& event) {
      return is_plate(event.structure) == plate;
    });
  };
  add_if(std::any_of(jaw.clearances.begin(), jaw.clearances.end(),
                     [](const scoring::ClearanceMeasure& one) { return !one.is_kept(); }),
         CriticalEvent::kMarginBroken);
  add_if(touched(false), CriticalEvent::kStructureTouched);
  add_if(touched(true), CriticalEvent::kPlatePerforated);
}

}  // namespace

std::vector<lesson::CriticalEvent> critical_events(const Attempt& attempt,
                                                   std::span<const scoring::Moment> moments) {
  std::vector<lesson::CriticalEvent> events;
  if (attempt.results.has_value() &&
      attempt.results->process.plunge_mm > attempt.setup.tolerance.depth_high_mm) {
    events.push_back(lesson::CriticalEvent::kPastDepth);
  }
  if (std::any_of(moments.begin(), moments.end(), [](const scoring::Moment& moment) {
        return moment.kind == scoring::MomentKind::kPlunge;
      })) {
    events.push_back(lesson::CriticalEvent::kPlunge);
  }
  if (attempt.results.has_value() && attempt.results->jaw.has_value()) {
    add_jaw_events(*attempt.results->jaw, events);
  }
  return events;
}

std::vector<std::int32_t> drills_taken(const Trace& trace) {
  std::vector<std::int32_t> taken;
  for (const TraceEntry& entry : trace) {
    const std::int32_t drill = entry.command.arguments[0];
    if (entry.command.op == Op::kTakeDrill &&
        std::find(taken.begin(), taken.end(), drill) == taken.end()) {
      taken.push_back(drill);
    }
  }
  return taken;
}

std::vector<WrongLength> wrong_lengths(const lesson::AttemptSetup& setup, const Trace& trace) {
  constexpr double kMmPerUm = 1e-3;
  constexpr double kSame_mm = 0.05;
  std::vector<WrongLength> wrong;
  for (const lesson::GuidedLength& length : lesson::guided_lengths(setup)) {
    const auto last =
        std::find_if(trace.rbegin(), trace.rend(), [&length](const TraceEntry& entry) {
          return entry.command.op == Op::kTakeDrill &&
                 entry.command.arguments[0] == length.drill_index;
        });
    if (last == trace.rend()) {
      continue;
    }
    const double taken_mm = kMmPerUm * static_cast<double>(last->command.arguments[1]);
    if (std::abs(taken_mm - length.nearest_mm) > kSame_mm) {
      wrong.push_back({length.drill_index, taken_mm, length.nearest_mm});
    }
  }
  return wrong;
}

lesson::PastAttempt past_attempt(const Attempt& attempt, std::span<const std::int32_t> used_drills,
                                 std::span<const scoring::Moment> moments, double finished_days) {
  lesson::PastAttempt past;
  past.lesson_id = attempt.setup.lesson_id;
  past.block_id = attempt.setup.block_id;
  past.approach = attempt.setup.approach;
  past.attempt_index = attempt.setup.attempt_index;
  past.finished_days = finished_days;
  past.errors = errors_of(attempt);
  past.events = critical_events(attempt, moments);
  past.is_complete = lesson::missing_drills(attempt.setup, used_drills).empty();
  return past;
}

}  // namespace driftbench::record
