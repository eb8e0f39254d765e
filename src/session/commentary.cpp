#include "session/commentary.h"

#include "drilling/params.h"
#include "lesson/instruments.h"
#include "math/angle.h"
#include "math/elementary.h"
#include "scoring/process.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>

namespace driftbench::session {
namespace {

using drilling::LoadSample;

constexpr double kBriefly_s = 0.2;       // an interruption of contact that is shorter is none
constexpr double kEasedShare = 0.75;     // of the usual press, before it is called eased
constexpr double kLastStretch_mm = 2.5;  // above the depth, where easing is looked for
constexpr std::int64_t kLittle_steps = 300;
constexpr std::int64_t kLater_steps = 600;
constexpr double kSameDepth_mm = 0.02;
const double kDegPerRad = 1.0 / math::Radians(math::Degrees(1.0)).value;

/// The time one drill was in hand.
struct Stint {
  std::int32_t drill_index = -1;
  double stop_mm = 0.0;
  std::int64_t from_step = 0;
  std::span<const LoadSample> samples;
};

std::vector<Stint> stints_of(const Session& session) {
  std::vector<Stint> stints;
  for (const record::TraceEntry& entry : session.trace()) {
    if (entry.command.op == record::Op::kTakeDrill) {
      constexpr double kMmPerUm = 1e-3;
      stints.push_back({entry.command.arguments[0],
                        kMmPerUm * static_cast<double>(entry.command.arguments[1]),
                        entry.step,
                        {}});
    }
  }
  const std::span<const LoadSample> all = session.view().samples;
  const auto first_after = [&all](std::int64_t step) {
    return std::upper_bound(
        all.begin(), all.end(), step,
        [](std::int64_t at, const LoadSample& sample) { return at < sample.step; });
  };
  for (std::size_t i = 0; i < stints.size(); ++i) {
    const auto begin = first_after(stints[i].from_step);
    const auto end = i + 1 < stints.size() ? first_after(stints[i + 1].from_step) : all.end();
    stints[i].samples = {begin, end};
  }
  return stints;
}

class Commentator {
 public:
  explicit Commentator(const Session& session)
      : session_(session), setup_(session.setup()), stints_(stints_of(session)) {}

  std::vector<Remark> remarks() {
    seats_guide();
    for (std::size_t i = 0; i < stints_.size(); ++i) {
      const bool is_last = i + 1 == stints_.size();
      if (i < 2 || is_last) {
        takes_drill(i);
      }
      if (i == 0) {
        touches(stints_[i]);
        eases_off(stints_[i]);
      }
      if (i == 0 || is_last) {
        reaches_depth(stints_[i]);
      }
    }
    stands_now();
    meets_layers();
    is_pushed();
    leaves_implant();
    add(RemarkKind::kEnds, session_.view().step);
    std::stable_sort(remarks_.begin(), remarks_.end(),
                     [](const Remark& a, const Remark& b) { return a.step < b.step; });
    return std::move(remarks_);
  }

 private:
  Remark& add(RemarkKind kind, std::int64_t step, std::int32_t drill_index = -1) {
    remarks_.push_back({});
    remarks_.back().kind = kind;
    remarks_.back().step = step;
    remarks_.back().drill_index = drill_index;
    return remarks_.back();
  }

  [[nodiscard]] double shoulder_mm(const LoadSample& sample) const {
    const specimen::Drill* drill = lesson::item_at(setup_.kit.drills, sample.drill_index);
    return drill == nullptr ? 0.0
                            : scoring::shoulder_depth_mm(sample.pose, *drill, setup_.plan.entry_mm,
                                                         -setup_.plan.axis_out_unit);
  }

  /// Deepest sample of a stint in contact; null when the drill never touched.
  [[nodiscard]] const LoadSample* deepest(const Stint& stint) const {
    const LoadSample* found = nullptr;
    for (const LoadSample& sample : stint.samples) {
      if (sample.in_contact &&
          (found == nullptr || shoulder_mm(sample) > shoulder_mm(*found) + kSameDepth_mm)) {
        found = &sample;
      }
    }
    return found;
  }

  /// Where the drill's axis meets the platform plane, from the planned entry.
  [[nodiscard]] double beside_mm(const LoadSample& sample) const {
    const math::Vec3& out = setup_.plan.axis_out_unit;
    const math::Vec3 from = sample.pose.tip_mm - setup_.plan.entry_mm;
    const double along = math::dot(sample.pose.axis_out_unit, out);
    const math::Vec3 at = from - (math::dot(from, out) / along) * sample.pose.axis_out_unit;
    return math::length(at);
  }

  [[nodiscard]] double lean_deg(const LoadSample& sample) const {
    const math::Vec3& out = setup_.plan.axis_out_unit;
    const math::Vec3& axis = sample.pose.axis_out_unit;
    return kDegPerRad * math::atan2(math::length(math::cross(axis, out)), math::dot(axis, out));
  }

  void seats_guide() {
    if (!setup_.guide.has_value() || stints_.empty()) {
      return;
    }
    int presses = 0;
    std::optional<std::int64_t> step;
    for (const record::TraceEntry& entry : session_.trace()) {
      if (entry.step > stints_.front().from_step) {
        break;
      }
      if (entry.command.op == record::Op::kPressGuide && entry.command.arguments[2] > 0) {
        ++presses;
      }
      if (entry.command.op == record::Op::kPressGuide ||
          entry.command.op == record::Op::kPlaceGuide) {
        step = entry.step;
      }
    }
    if (step.has_value()) {
      Remark& remark = add(RemarkKind::kSeatsGuide, *step);
      remark.count = presses;
      const auto& gaps = session_.view().guide.gap_mm;
      remark.amount = *std::max_element(gaps.begin(), gaps.end());
    }
  }

  void takes_drill(std::size_t place) {
    const Stint& stint = stints_[place];
    const LoadSample* before = place > 0 ? deepest(stints_[place - 1]) : nullptr;
    Remark& remark = add(RemarkKind::kTakesDrill, stint.from_step, stint.drill_index);
    remark.count = static_cast<int>(place) + 1;
    remark.amount = stint.stop_mm;
    remark.second = before != nullptr ? beside_mm(*before) : 0.0;
  }

  [[nodiscard]] bool motor_runs_at(std::int64_t step) const {
    std::int32_t rpm = 0;
    for (const record::TraceEntry& entry : session_.trace()) {
      if (entry.step < step && entry.command.op == record::Op::kMotor) {
        rpm = entry.command.arguments[0];
      }
    }
    return rpm != 0;
  }

  void touches(const Stint& stint) {
    const auto first = std::find_if(stint.samples.begin(), stint.samples.end(),
                                    [](const LoadSample& sample) { return sample.in_contact; });
    if (first == stint.samples.end()) {
      return;
    }
    double most_n = 0.0;
    for (const LoadSample& sample : stint.samples) {
      most_n = std::max(most_n, sample.in_contact ? sample.press_n : 0.0);
    }
    Remark& remark =
        add(motor_runs_at(first->step) ? RemarkKind::kTouches : RemarkKind::kTouchesAtRest,
            first->step, stint.drill_index);
    remark.amount = first->press_n;
    remark.second = most_n;
  }

  /// The press just before the last stretch, and where and to what it falls there.
  void eases_off(const Stint& stint) {
    const LoadSample* bottom = deepest(stint);
    if (bottom == nullptr) {
      return;
    }
    const double depth_mm = shoulder_mm(*bottom);
    double usual_n = 0.0;
    double sum_n = 0.0;
    int count = 0;
    const LoadSample* eased = nullptr;
    for (const LoadSample& sample : stint.samples) {
      if (!sample.in_contact || sample.step > bottom->step) {
        continue;
      }
      const double left_mm = depth_mm - shoulder_mm(sample);
      if (left_mm > kLastStretch_mm) {
        sum_n += sample.press_n;
        ++count;
        usual_n = sum_n / count;
      } else if (eased == nullptr && usual_n > 0.0 && sample.press_n < kEasedShare * usual_n) {
        eased = &sample;
      }
    }
    if (eased == nullptr) {
      return;
    }
    Remark& remark = add(RemarkKind::kEasesOff, eased->step, stint.drill_index);
    remark.amount = usual_n;
    remark.second = eased->press_n;
    remark.depth_mm = depth_mm - shoulder_mm(*eased);
  }

  void reaches_depth(const Stint& stint) {
    const LoadSample* bottom = deepest(stint);
    if (bottom == nullptr) {
      return;
    }
    constexpr double kSample_s = drilling::kStep_s * drilling::kStepsPerSample;
    int stretches = 0;
    double contact_s = 0.0;
    double away_s = kBriefly_s;
    for (const LoadSample& sample : stint.samples) {
      if (sample.in_contact) {
        stretches += away_s >= kBriefly_s ? 1 : 0;
        contact_s += kSample_s;
        away_s = 0.0;
      } else {
        away_s += kSample_s;
      }
    }
    Remark& remark = add(RemarkKind::kReachesDepth, bottom->step, stint.drill_index);
    remark.amount = shoulder_mm(*bottom) - setup_.plan.depth_mm;
    remark.count = stretches;
    remark.second = contact_s;
  }

  void stands_now() {
    if (stints_.size() < 2) {
      return;
    }
    const LoadSample* first = deepest(stints_.front());
    const LoadSample* last = deepest(stints_.back());
    if (first == nullptr || last == nullptr) {
      return;
    }
    Remark& remark = add(RemarkKind::kStandsNow, last->step, stints_.back().drill_index);
    remark.amount = lean_deg(*first);
    remark.second = lean_deg(*last);
  }

  [[nodiscard]] double mean_press_n(std::int64_t from_step, std::int64_t to_step) const {
    double sum_n = 0.0;
    int count = 0;
    for (const LoadSample& sample : session_.view().samples) {
      if (sample.step >= from_step && sample.step < to_step && sample.in_contact) {
        sum_n += sample.press_n;
        ++count;
      }
    }
    return count > 0 ? sum_n / count : 0.0;
  }

  /// The first harder and the first softer ground that a drill met.
  void meets_layers() {
    meets(scoring::MomentKind::kHarder, RemarkKind::kMeetsHarder);
    meets(scoring::MomentKind::kSofter, RemarkKind::kMeetsSofter);
  }

  void meets(scoring::MomentKind found, RemarkKind kind) {
    const auto moment =
        std::find_if(moments_.begin(), moments_.end(),
                     [found](const scoring::Moment& one) { return one.kind == found; });
    if (moment == moments_.end()) {
      return;
    }
    Remark& remark = add(kind, moment->step, moment->drill_index);
    remark.depth_mm = moment->depth_mm;
    remark.amount = mean_press_n(moment->step - kLittle_steps, moment->step);
    remark.second = mean_press_n(moment->step + kLittle_steps, moment->step + kLater_steps);
  }

  /// The strongest push to the side.
  void is_pushed() {
    const scoring::Moment* strongest = nullptr;
    for (const scoring::Moment& moment : moments_) {
      const bool is_push = moment.kind == scoring::MomentKind::kSideForce ||
                           moment.kind == scoring::MomentKind::kGuideCarries;
      if (is_push && (strongest == nullptr || moment.force_n > strongest->force_n)) {
        strongest = &moment;
      }
    }
    if (strongest == nullptr) {
      return;
    }
    Remark& remark =
        add(strongest->kind == scoring::MomentKind::kSideForce ? RemarkKind::kSidePush
                                                               : RemarkKind::kGuideCarries,
            strongest->step, strongest->drill_index);
    remark.amount = strongest->force_n;
    remark.second = strongest->amount_mm;
    remark.direction_md = strongest->direction_md;
    remark.direction_bl = strongest->direction_bl;
  }

  void leaves_implant() {
    for (const record::TraceEntry& entry : session_.trace()) {
      if (entry.command.op == record::Op::kReleaseImplant && session_.view().implant.is_seated) {
        Remark& remark = add(RemarkKind::kLeavesImplant, entry.step);
        remark.amount = session_.view().implant.final_torque_nmm;
        remark.second = session_.view().implant.platform_depth_mm;
        return;
      }
    }
  }

  const Session& session_;
  const lesson::AttemptSetup& setup_;
  std::vector<Stint> stints_;
  std::vector<scoring::Moment> moments_ = session_.explain();
  std::vector<Remark> remarks_;
};

}  // namespace

std::vector<Remark> comment(const Session& session) {
  return Commentator(session).remarks();
}

}  // namespace driftbench::session
