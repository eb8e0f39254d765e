// Words that lesson files use for the rules of a lesson.
#pragma once

#include "base/json_reader.h"
#include "lesson/lesson_rules.h"

#include <array>

namespace driftbench::lesson {

inline constexpr std::array<base::EnumName<OrderKind>, 3> kOrderWords{
    {{"fixed", OrderKind::kFixed},
     {"shuffled", OrderKind::kShuffled},
     {"permuted-blocks", OrderKind::kPermutedBlocks}}};

inline constexpr std::array<base::EnumName<FeedbackKind>, 4> kFeedbackWords{
    {{"terminal", FeedbackKind::kTerminal},
     {"fading", FeedbackKind::kFading},
     {"band", FeedbackKind::kBand},
     {"summary", FeedbackKind::kSummary}}};

inline constexpr std::array<base::EnumName<Between>, 2> kBetweenWords{
    {{"in-or-out", Between::kInOrOut}, {"nothing", Between::kNothing}}};

inline constexpr std::array<base::EnumName<EstimateKind>, 4> kEstimateWords{
    {{"every", EstimateKind::kEvery},
     {"none", EstimateKind::kNone},
     {"first-and-last", EstimateKind::kFirstAndLast},
     {"every-nth", EstimateKind::kEveryNth}}};

inline constexpr std::array<base::EnumName<PassRule>, 4> kPassRuleWords{
    {{"none", PassRule::kNone},
     {"all-of", PassRule::kAllOf},
     {"k-of-last", PassRule::kOfLast},
     {"learning-evidence", PassRule::kLearningEvidence}}};

inline constexpr std::array<base::EnumName<Measure>, 4> kMeasureWords{{{"entry", Measure::kEntry},
                                                                       {"apex", Measure::kApex},
                                                                       {"angle", Measure::kAngle},
                                                                       {"depth", Measure::kDepth}}};

inline constexpr std::array<base::EnumName<CriticalEvent>, 5> kCriticalEventWords{
    {{"past-depth", CriticalEvent::kPastDepth},
     {"plunge", CriticalEvent::kPlunge},
     {"margin-broken", CriticalEvent::kMarginBroken},
     {"structure-touched", CriticalEvent::kStructureTouched},
     {"plate-perforated", CriticalEvent::kPlatePerforated}}};

inline constexpr std::array<base::EnumName<StandardMethod>, 7> kStandardWords{
    {{"own-choice", StandardMethod::kOwnChoice},
     {"published", StandardMethod::kPublished},
     {"contrasting-groups", StandardMethod::kContrastingGroups},
     {"angoff", StandardMethod::kAngoff},
     {"mastery-angoff", StandardMethod::kMasteryAngoff},
     {"hofstee", StandardMethod::kHofstee},
     {"patient-safety", StandardMethod::kPatientSafety}}};

inline constexpr std::array<base::EnumName<Device>, 4> kDeviceWords{{{"mouse", Device::kMouse},
                                                                     {"pen", Device::kPen},
                                                                     {"touch", Device::kTouch},
                                                                     {"pad", Device::kPad}}};

inline constexpr std::array<base::EnumName<DeviceCheck>, 3> kDeviceCheckWords{
    {{"none", DeviceCheck::kNone},
     {"advised", DeviceCheck::kAdvised},
     {"required", DeviceCheck::kRequired}}};

inline constexpr std::array<base::EnumName<PredictionAsk>, 2> kPredictionWords{
    {{"bias-or-spread", PredictionAsk::kBiasOrSpread}, {"widest", PredictionAsk::kWidest}}};

}  // namespace driftbench::lesson
