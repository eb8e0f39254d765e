// A made-up attempt with every part filled, for tests of files (it was never simulated).
#pragma once

#include "support/read_file.h"

#include "lesson/lesson.h"
#include "record/attempt.h"

#include <string>

namespace driftbench::support {

inline scoring::Results sample_results() {
  scoring::Results results;
  scoring::HoleMeasures hole;
  hole.entry_mm = {0.1, -0.2, 0.0};
  hole.apex_mm = {1.0 / 3.0, -0.25, -10.4};
  hole.deviation.entry_md_mm = 0.1;
  hole.deviation.entry_bl_mm = -0.2;
  hole.deviation.apex_md_mm = 1.0 / 3.0;
  hole.deviation.apex_bl_mm = -0.25;
  hole.deviation.tilt_md_deg = 1.3;
  hole.deviation.angle_deg = 1.35;
  hole.depth_error_mm = 0.4;
  hole.hole_diameter_mm = 4.12;
  hole.slices = {{0.0, 0.1, -0.2, 4.2, 4.3, 4.1, 12.5}, {0.5, 0.11, -0.2, 4.1, 4.15, 4.05, 0.0}};
  results.hole = hole;
  results.process.time_s = 21.75;
  results.process.peak_side_n = 5.2;
  results.process.peak_side_step = 340;
  results.reasons = {{"entry_lateral_mm", 1.2, 0.0, 1.0}};
  return results;
}

/// Attempt of the shipped lesson; `block_index` 0 is free-hand, 1 through the sleeve.
inline record::Attempt sample_attempt(std::size_t block_index = 0) {
  const auto lesson =
      lesson::read_lesson(read_file("lessons/find-the-centre.lesson.json"), "lesson");
  const auto kit = lesson::read_kit(read_file("assets/kits/bench.kit.json"), "kit");
  record::Attempt attempt;
  attempt.attempt_id = "00112233445566778899aabbccddeeff";
  attempt.engine = 1;
  attempt.operator_name = "calm otter";
  attempt.cohort = "course \"A\", day 1";
  attempt.device = "mouse";
  attempt.period = 2;
  attempt.setup = lesson::resolve(*lesson.value, *kit.value, block_index, 3, 42).value();
  attempt.trace = {{0, {record::Op::kTakeDrill, {1, 0}}},
                   {0, {record::Op::kHand, {120, -80, 1500, -2147483647 - 1, 0}}},
                   {250, {record::Op::kMotor, {1200}}},
                   {900, {record::Op::kProbe, {}}},
                   {2345, {record::Op::kFinish, {}}}};
  attempt.end_step = 2346;
  attempt.state_hashes = {{1000, 0x0123456789abcdefU}, {2000, 0xfedcba9876543210U}, {2346, 7U}};
  attempt.estimate = scoring::SelfEstimate{0.2, 0.1, -0.5, 1.0, 0.0, 2};
  attempt.results = sample_results();
  return attempt;
}

}  // namespace driftbench::support
