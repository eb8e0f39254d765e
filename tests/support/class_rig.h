// Files of a small invented class, for tests of collecting and compiling.
#pragma once

#include "support/sample_attempt.h"

#include "record/attempt.h"
#include "session/session.h"

#include <fmt/format.h>

#include <string>

namespace driftbench::support {

/// Text of the made-up attempt with its own id and learner.
inline std::string attempt_text(int number, const std::string& learner,
                                std::size_t block_index = 0) {
  record::Attempt attempt = sample_attempt(block_index);
  attempt.attempt_id = fmt::format("{:032x}", number);
  attempt.operator_name = learner;
  attempt.engine = session::kEngine;
  return record::write_attempt(attempt);
}

/// A short real attempt in a small coarse block: one drill pressed for a second, done.
inline record::Attempt short_attempt(int number = 1) {
  lesson::AttemptSetup setup = sample_attempt().setup;
  specimen::block_in(setup.specimen)->edge_mm = 12.0;
  specimen::block_in(setup.specimen)->voxel_mm = 0.4;
  base::Result<session::Session> session = session::Session::create(setup);
  const auto give = [&](record::Op op, std::array<std::int32_t, record::kMaxArguments> arguments) {
    (void)session->submit({op, arguments});
  };
  give(record::Op::kTakeDrill, {1, 0});
  give(record::Op::kMotor, {1200});
  session->advance(400);
  give(record::Op::kHand, {150, -100, 10000, 0, 14000});
  session->advance(700 + 10 * number);
  give(record::Op::kFinish, {});
  session->advance(10);
  record::Attempt attempt = session->record();
  attempt.attempt_id = fmt::format("{:032x}", number);
  attempt.operator_name = "amber-heron";
  return attempt;
}

}  // namespace driftbench::support
