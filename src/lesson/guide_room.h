// Whether a guided drill fits: its length, sleeve and handpiece beside the neighbours, the mouth.
#pragma once

#include "lesson/attempt_setup.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace driftbench::lesson {

/// Length of one guided drill from stop to shoulder.
struct GuidedLength {
  std::int32_t drill_index = -1;
  double implant_mm = 0.0;
  double gap_mm = 0.0;
  double sleeve_mm = 0.0;
  double collar_mm = 0.0;   ///< of its key
  double nearest_mm = 0.0;  ///< length that the kit has; the longer of two; 0: the kit has none

  /// Where its stop comes to rest, above the platform.
  [[nodiscard]] double stop_mm() const { return gap_mm + sleeve_mm + collar_mm; }

  [[nodiscard]] double sum_mm() const { return implant_mm + gap_mm + sleeve_mm + collar_mm; }

  /// Deeper than planned with the nearest drill; 0 within 0.05 mm.
  [[nodiscard]] double too_deep_mm() const;
};

/// The neighbour that a part comes nearest to.
struct Beside {
  int fdi = 0;
  double distance_mm = 0.0;  ///< to its crown; negative: as far into it
};

/// How wide the mouth must open at this tooth, and how wide it does.
struct MouthRoom {
  double needed_mm = 0.0;          ///< between the teeth of both jaws at the site
  double share = 1.0;              ///< of the opening between the incisors that is left there
  std::optional<double> opens_mm;  ///< this patient's, between the incisors

  /// The same need, between the incisors.
  [[nodiscard]] double needed_between_incisors_mm() const { return needed_mm / share; }
};

/// Room for the guided drills of a set-up. In a block only the lengths.
struct GuideRoom {
  std::vector<GuidedLength> lengths;
  std::optional<Beside> sleeve;  ///< its outside
  std::optional<Beside> body;    ///< kGuideWall_mm round it; not of a guide that lies on teeth
  std::optional<Beside> head;    ///< the handpiece's, with the drill at its stop
  std::optional<MouthRoom> mouth;
};

/// Material of a guide round its sleeve; own assumption (guides 2.3 to 3 mm thick: PMC12801966).
inline constexpr double kGuideWall_mm = 2.0;

/// Normal opening between the incisors: 51.3 mm (39 to 70) in 463 men, 44.3 mm (36 to 56) in 431
/// women (PMC3428458).
inline constexpr double kMeanOpening_mm = 47.8;
inline constexpr double kLeastNormalOpening_mm = 36.0;
inline constexpr double kMostNormalOpening_mm = 70.0;

/// The part of the opening between the incisors that is left at a tooth: both jaws swing about a
/// hinge 95 mm behind the incisors, the tooth lies nearer to it.
///
/// Contract: is_fdi(fdi). Source: own assumption; that the opening is less there: common knowledge
[[nodiscard]] double opening_share(int fdi);

/// Of the guided drills in the order of the plan; none without a guide or its sleeve.
[[nodiscard]] std::vector<GuidedLength> guided_lengths(const AttemptSetup& setup);

/// Lengths, distances and the mouth of a guided set-up; nothing without a guide or its sleeve.
///
/// The handpiece's head rests 3.4 mm above the stop. The mouth takes the drill's point on the key,
/// the drill, and the head; it counts from the highest neighbouring crown. Handpiece: as drawn, own
/// assumption. Distances are exact (specimen/clearance.h); the neck of the handpiece is not
/// counted. Cost: some milliseconds in a jaw
[[nodiscard]] std::optional<GuideRoom> guide_room(const AttemptSetup& setup);

}  // namespace driftbench::lesson
