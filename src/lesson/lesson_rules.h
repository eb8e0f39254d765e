// The rules of a lesson: order, feedback, own estimates, criterion and devices. Declared only; the
// sequencing engine (sequence.h) acts on them.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::lesson {

/// Text by language code; "en" is always present.
using LocalText = std::map<std::string, std::string>;

enum class OrderKind {
  kFixed,           ///< block after block, as in the file
  kShuffled,        ///< attempts of the mixed blocks in a seeded order
  kPermutedBlocks,  ///< two blocks in short runs that hold both equally often
};

struct OrderPlan {
  OrderKind kind = OrderKind::kFixed;
  std::vector<std::string> mix;      ///< neighbouring blocks that are mixed; empty: all
  std::vector<int> run_sizes{2, 4};  ///< lengths of the runs of kPermutedBlocks, even

  friend bool operator==(const OrderPlan&, const OrderPlan&) = default;
};

enum class FeedbackKind {
  kTerminal,  ///< everything after every attempt
  kFading,    ///< everything ever more seldom
  kBand,      ///< everything only after an attempt outside the band
  kSummary,   ///< everything after the last attempt of the block
};

/// What is said after an attempt that does not get everything.
enum class Between { kInOrOut, kNothing };

struct FeedbackPlan {
  FeedbackKind kind = FeedbackKind::kTerminal;
  int full_first = 2;  ///< kFading: attempts in full before the gaps begin to grow
  Between between = Between::kInOrOut;
  double band_share = 1.0;  ///< kBand: part of the tolerance that the band is wide
  double delay_s = 0.0;     ///< from the end of the attempt to what is shown

  friend bool operator==(const FeedbackPlan&, const FeedbackPlan&) = default;
};

enum class EstimateKind { kEvery, kNone, kFirstAndLast, kEveryNth };

/// After which attempts of a block the own errors are estimated before they are shown.
struct EstimatePlan {
  EstimateKind kind = EstimateKind::kEvery;
  int every = 2;  ///< kEveryNth: the first attempt and every n-th from there

  friend bool operator==(const EstimatePlan&, const EstimatePlan&) = default;
};

enum class PassRule { kNone, kAllOf, kOfLast, kLearningEvidence };

enum class Measure { kEntry, kApex, kAngle, kDepth };

/// What must not happen, however good the numbers are.
enum class CriticalEvent {
  kPastDepth,
  kPlunge,
  kMarginBroken,
  kStructureTouched,
  kPlatePerforated,
};

/// How a standard was set. Source of the names: methods of standard setting in health professions.
enum class StandardMethod {
  kOwnChoice,
  kPublished,
  kContrastingGroups,
  kAngoff,
  kMasteryAngoff,
  kHofstee,
  kPatientSafety,
};

struct Standard {
  StandardMethod method = StandardMethod::kOwnChoice;
  LocalText source;

  friend bool operator==(const Standard&, const Standard&) = default;
};

/// When a lesson counts as passed. An attempt is good when every named measure is within its
/// tolerance and none of the events in `never` happened.
struct Criterion {
  PassRule rule = PassRule::kNone;
  std::vector<std::string> blocks;  ///< that count; empty: all
  std::vector<Measure> measures{Measure::kEntry, Measure::kApex, Measure::kAngle, Measure::kDepth};
  std::vector<CriticalEvent> never;
  int good = 8;         ///< kOfLast: so many good ones ...
  int last = 10;        ///< ... of so many last ones
  double p_bad = 0.40;  ///< kLearningEvidence: failure rate of the unready
  double p_ok = 0.15;   ///< ... and of the ready
  double limit = 2.5;   ///< ... and the evidence that is enough
  int cap = 20;         ///< kOfLast, kLearningEvidence: most attempts that count in one round
  Standard standard;

  friend bool operator==(const Criterion&, const Criterion&) = default;
};

enum class Device { kMouse, kPen, kTouch, kPad };

enum class DeviceCheck { kNone, kAdvised, kRequired };

struct DevicePolicy {
  std::vector<Device> allow;  ///< empty: every device
  DeviceCheck check = DeviceCheck::kNone;
  bool one_per_lesson = false;  ///< all attempts of a lesson with one device

  friend bool operator==(const DevicePolicy&, const DevicePolicy&) = default;
};

/// An attempt of a virtual operator that may be watched before the first own one of a block. It is
/// simulated when it is asked for, and it counts as nothing.
struct WorkedExample {
  std::string operator_id;  ///< file in assets/operators/
  std::uint64_t seed = 0;   ///< of all that is drawn in it; own attempts have the lesson's

  friend bool operator==(const WorkedExample&, const WorkedExample&) = default;
};

enum class PredictionAsk {
  kBiasOrSpread,  ///< of each group: which of the two is larger at the entry
  kWidest         ///< of all groups: whose holes end farthest from the plan
};

/// Holes that an operator makes in the set-up of a block.
struct PredictionGroup {
  LocalText title;
  std::string operator_id;  ///< file in assets/operators/
  std::string block_id;

  friend bool operator==(const PredictionGroup&, const PredictionGroup&) = default;
};

/// A judgement about the holes of virtual operators, simulated when it is asked for. What is right
/// is worked out from the holes. It counts as nothing.
struct Prediction {
  PredictionAsk ask = PredictionAsk::kBiasOrSpread;
  int holes = 8;  ///< of each group
  std::uint64_t seed = 0;
  std::vector<PredictionGroup> groups;
  LocalText afterwards;  ///< what follows from it, shown with the numbers

  friend bool operator==(const Prediction&, const Prediction&) = default;
};

}  // namespace driftbench::lesson
