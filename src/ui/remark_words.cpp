#include "ui/remark_words.h"

#include "base/text.h"
#include "lesson/instruments.h"
#include "ui/implant_debrief.h"
#include "ui/strings.h"
#include "ui/words.h"

#include <cmath>

namespace driftbench::ui {

namespace {

using session::Remark;
using session::RemarkKind;

constexpr double kClosed_mm = 0.05;
constexpr double kLighter = 0.8;      // of the full press
constexpr double kSamePress_n = 1.0;  // differences below these are not worth a sentence
constexpr double kSameLean_deg = 0.5;
constexpr double kNmmPerNcm = 10.0;

std::string one(double value) {
  return base::fixed(value, 1);
}

std::string whole(double value) {
  return base::fixed(value, 0);
}

std::string diameter(const Remark& remark, const lesson::AttemptSetup& setup) {
  const specimen::Drill* drill = lesson::item_at(setup.kit.drills, remark.drill_index);
  return drill == nullptr ? std::string() : one(drill->diameter_mm);
}

std::string seats_guide(const Remark& remark) {
  return say(remark.amount < kClosed_mm ? Str::kRemarkSeated : Str::kRemarkSeatedGap,
             std::to_string(remark.count), one(remark.amount));
}

std::string takes_drill(const Remark& remark, const lesson::AttemptSetup& setup) {
  std::string sentence = say(remark.count == 1 ? Str::kRemarkFirstDrill : Str::kRemarkNextDrill,
                             diameter(remark, setup));
  const specimen::Sleeve* sleeve = lesson::sleeve_of(setup);
  if (remark.amount > 0.0 && sleeve != nullptr) {
    const std::int32_t key = lesson::key_index_of(setup, remark.drill_index);
    const specimen::Key* collar = lesson::item_at(setup.kit.keys, key);
    sentence += ' ' + say(Str::kRemarkLength, one(remark.amount), one(setup.plan.depth_mm),
                          one(setup.guide->gap_mm), one(sleeve->height_mm),
                          one(collar != nullptr ? collar->collar_mm : 0.0));
  } else if (remark.count > 1) {
    sentence += ' ' + say(Str::kRemarkFollows, one(remark.second));
  }
  return sentence;
}

std::string touches(const Remark& remark) {
  if (remark.kind == RemarkKind::kTouchesAtRest) {
    return std::string(tr(Str::kRemarkAtRest));
  }
  return remark.amount < kLighter * remark.second
             ? say(Str::kRemarkLightly, one(remark.amount), one(remark.second))
             : say(Str::kRemarkFirmly, one(remark.amount));
}

std::string meets(const Remark& remark) {
  std::string sentence =
      say(remark.kind == RemarkKind::kMeetsHarder ? Str::kRemarkHarder : Str::kRemarkSofter,
          one(std::max(0.0, remark.depth_mm)));
  if (remark.amount > 0.0 && remark.second > 0.0 &&
      std::abs(remark.amount - remark.second) >= kSamePress_n) {
    sentence += ' ' + say(remark.second < remark.amount ? Str::kRemarkLess : Str::kRemarkMore,
                          whole(remark.amount), whole(remark.second));
  }
  return sentence;
}

std::string pushed(const Remark& remark, const lesson::AttemptSetup& setup) {
  const std::string where =
      direction_words(site_words(setup), remark.direction_md, remark.direction_bl);
  std::string sentence =
      say(remark.kind == RemarkKind::kGuideCarries ? Str::kRemarkCarried : Str::kRemarkPushed,
          diameter(remark, setup), one(remark.amount), where);
  sentence += ' ';
  sentence += remark.second >= kOnLine_mm ? say(Str::kRemarkGaveWay, one(remark.second))
                                          : std::string(tr(Str::kRemarkHeld));
  return sentence;
}

std::string reaches(const Remark& remark, const lesson::AttemptSetup& setup) {
  std::string sentence =
      say(Str::kRemarkDepth, diameter(remark, setup), depth_words(remark.amount));
  sentence += ' ';
  sentence += remark.count > 1
                  ? say(Str::kRemarkStretches, std::to_string(remark.count), one(remark.second))
                  : say(Str::kRemarkOneStretch, one(remark.second));
  return sentence;
}

std::string stands(const Remark& remark) {
  const double gain_deg = remark.amount - remark.second;
  const Str name = gain_deg > kSameLean_deg    ? Str::kRemarkStraighter
                   : gain_deg < -kSameLean_deg ? Str::kRemarkLeansMore
                                               : Str::kRemarkLeansSame;
  return say(name, one(remark.amount), one(remark.second));
}

std::string ends(const scoring::Results& results) {
  const scoring::Deviation* measured = measured_deviation(results);
  if (measured == nullptr) {
    return std::string(tr(Str::kNoHole));
  }
  return say(Str::kRemarkEnd, one(measured->entry_lateral_mm), one(measured->apex_lateral_mm),
             one(measured->angle_deg), depth_words(measured_depth_error_mm(results))) +
         ' ' + std::string(tr(results.inside_tolerance ? Str::kRemarkInside : Str::kRemarkOutside));
}

}  // namespace

std::string remark_words(const Remark& remark, const lesson::AttemptSetup& setup,
                         const scoring::Results& results) {
  switch (remark.kind) {
    case RemarkKind::kSeatsGuide:
      return seats_guide(remark);
    case RemarkKind::kTakesDrill:
      return takes_drill(remark, setup);
    case RemarkKind::kTouches:
    case RemarkKind::kTouchesAtRest:
      return touches(remark);
    case RemarkKind::kMeetsHarder:
    case RemarkKind::kMeetsSofter:
      return meets(remark);
    case RemarkKind::kSidePush:
    case RemarkKind::kGuideCarries:
      return pushed(remark, setup);
    case RemarkKind::kEasesOff:
      return say(Str::kRemarkEases, one(remark.depth_mm), whole(remark.amount),
                 whole(remark.second));
    case RemarkKind::kReachesDepth:
      return reaches(remark, setup);
    case RemarkKind::kStandsNow:
      return stands(remark);
    case RemarkKind::kLeavesImplant:
      return say(Str::kRemarkImplant, whole(remark.amount / kNmmPerNcm),
                 depth_words(remark.second));
    case RemarkKind::kEnds:
      break;
  }
  return ends(results);
}

}  // namespace driftbench::ui
