// Eye, hand, habit and learning of an invented operator, as an operator file states them.
#pragma once

#include "lesson/lesson.h"

#include <string>
#include <string_view>

namespace driftbench::session {

/// Every number is an own assumption unless a source is named; what they are held to together are
/// published populations (tests/evidence).
///
/// Spread within a person is drawn anew for every attempt; spread between persons once for each.
struct OperatorProfile {
  std::string id;
  std::string name;

  // Eye.
  double aim_sd_mm = 0.5;         ///< per axis, of the place where the first drill is set down
  double aim_person_sd_mm = 0.0;  ///< per axis, of a person's own bias
  double aim_bias_md_mm = 0.0;    ///< that all persons share
  double aim_bias_bl_mm = 0.0;
  double lean_sd_deg = 2.8;  ///< per axis; 84.5 % of surgeons within 4 deg of square, one plane
                             ///< (Brioschi, Cook, Arthurs 2016)
  double lean_person_sd_deg = 0.0;
  double lean_bias_md_deg = 0.0;
  double lean_bias_bl_deg = 0.0;
  double pivot_frac = 0.0;     ///< share of the entry's error that the lean takes back at the apex:
                               ///< the hand turns about the place it aims at
  double relean_sd_deg = 1.0;  ///< per axis, added anew with every later drill

  // Hand.
  double press_n = 16.0;            ///< usual feed force
  double press_sd_n = 2.0;          ///< between drills
  double follow_s = 0.6;            ///< time in which the hand gives way to where the drill went
  double guided_lean_sd_deg = 2.0;  ///< lean held against the sleeve's play
  double guided_side_sd_mm = 0.5;   ///< pull against the sleeve's play

  // Habit.
  double easy_feed_mm_per_s = 80.0;  ///< advance beyond which the press is eased
  double depth_sd_mm = 0.3;          ///< of reading the depth line
  double reaction_s = 0.2;           ///< between seeing and doing
  double seat_care = 1.0;            ///< 0 never looks into a window, 1 seats until all are closed

  // Learning: errors of eye and depth times max(floor, (tries before + 1)^-rate).
  double learning_rate = 0.0;        ///< exponent of the power law of practice
  double learning_floor_frac = 0.0;  ///< what practice alone does not remove
};

/// Whose turn it is among the people that an operator file stands for.
struct Turn {
  std::uint64_t learner = 0;       ///< 0-based
  std::uint64_t tries_before = 0;  ///< own, with the same approach
};

/// Reads an operator file (format "driftbench-operator", version 1).
[[nodiscard]] lesson::ReadOutcome<OperatorProfile> read_operator(std::string_view text,
                                                                 std::string_view file_name);

/// Share of the untrained errors that is left after so many tries, 0..1.
///
/// Source: power law of practice (Newell, Rosenbloom 1981, from memory); rate and floor of a file
[[nodiscard]] double error_share(const OperatorProfile& profile, std::uint64_t tries_before);

}  // namespace driftbench::session
