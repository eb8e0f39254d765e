// An invented operator who works through an attempt: aims with an error, tilts, presses, follows.
#pragma once

#include "lesson/lesson.h"
#include "record/attempt.h"

#include <cstdint>
#include <string>
#include <string_view>

namespace driftbench::session {

/// Eye, hand and habit of an operator. Every number is an own assumption unless a source is named.
struct OperatorProfile {
  std::string id;
  std::string name;
  double aim_sd_mm = 0.5;  ///< per axis, of the place where the first drill is set down
  double aim_bias_md_mm = 0.0;
  double aim_bias_bl_mm = 0.0;
  double lean_sd_deg = 2.8;  ///< per axis; 84.5 % of surgeons within 4 deg of square, one plane
                             ///< (Brioschi, Cook, Arthurs 2016)
  double lean_bias_md_deg = 0.0;
  double lean_bias_bl_deg = 0.0;
  double relean_sd_deg = 1.0;       ///< per axis, added anew with every later drill
  double press_n = 16.0;            ///< usual feed force
  double press_sd_n = 2.0;          ///< between drills
  double depth_sd_mm = 0.3;         ///< of reading the depth line
  double reaction_s = 0.2;          ///< between seeing the depth reached and letting go
  double follow_s = 0.6;            ///< time in which the hand gives way to where the drill went
  double seat_care = 1.0;           ///< 0 never looks into a window, 1 seats until all are closed
  double guided_lean_sd_deg = 2.0;  ///< lean held against the sleeve's play
  double guided_side_sd_mm = 0.5;   ///< pull against the sleeve's play
};

/// Reads an operator file (format "driftbench-operator", version 1).
[[nodiscard]] lesson::ReadOutcome<OperatorProfile> read_operator(std::string_view text,
                                                                 std::string_view file_name);

/// Works through one attempt and returns its record (estimate absent, names empty).
///
/// Errors: as Session::create(); kUnsupported when the attempt does not end within 10 minutes of
///         simulated time
[[nodiscard]] base::Result<record::Attempt> practise_attempt(const lesson::AttemptSetup& setup,
                                                             const OperatorProfile& profile,
                                                             std::uint64_t seed);

}  // namespace driftbench::session
