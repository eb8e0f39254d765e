// Everything that one attempt starts from, resolved: enough to repeat it without any other file.
#pragma once

#include "drilling/params.h"
#include "scoring/tolerance.h"
#include "specimen/guide_seat.h"
#include "specimen/kit.h"
#include "specimen/plan.h"
#include "specimen/specimen.h"

#include <cstdint>
#include <optional>
#include <string>

namespace driftbench::lesson {

/// What the learner may see while drilling.
struct Visibility {
  bool plan = false;     ///< plan overlay
  bool numbers = false;  ///< live depth and lean
  bool section = false;  ///< live cut through the specimen
  bool sound = true;
  bool start_mark = true;  ///< cross at the planned centre

  friend bool operator==(const Visibility&, const Visibility&) = default;
};

/// Resolved set-up of one attempt.
struct AttemptSetup {
  std::string lesson_id;
  std::string lesson_sha256;  ///< of the exact bytes of the lesson file
  std::string block_id;       ///< block of the lesson
  std::string site_name = "centre";
  specimen::Approach approach = specimen::Approach::kFreehand;
  bool implant_through_guide = false;
  bool place_implant = false;   ///< the attempt ends with the planned implant in place
  specimen::Specimen specimen;  ///< block or jaw
  specimen::Kit kit;
  specimen::Plan plan;
  std::optional<specimen::Guide> guide;           ///< present when the approach uses one
  std::optional<specimen::GuideSeat> guide_seat;  ///< in a jaw, of a guide with a support
  Visibility show;
  bool ask_estimate = true;
  scoring::Tolerance tolerance;
  drilling::HandParams hand;
  drilling::CuttingParams cutting;
  std::uint64_t lesson_seed = 0;    ///< 0 to 2^53-1: the lesson's, or the one that overrode it
  std::uint64_t attempt_index = 0;  ///< 0-based, within the approach
  std::uint64_t seed = 0;  ///< of this attempt: split(lesson_seed, approach, attempt_index)

  friend bool operator==(const AttemptSetup&, const AttemptSetup&) = default;
};

}  // namespace driftbench::lesson
