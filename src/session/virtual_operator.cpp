#include "session/virtual_operator.h"

#include "base/hash64.h"
#include "base/random.h"
#include "lesson/instruments.h"
#include "math/angle.h"
#include "session/implant_operator.h"
#include "session/operator_aim.h"
#include "session/operator_hands.h"
#include "session/operator_press.h"
#include "session/session.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace driftbench::session {
namespace {

constexpr std::int64_t kLongest_steps = 600'000;  // 10 minutes
constexpr double kSeatPress_n = 45.0;
constexpr std::int64_t kSeatPress_steps = 400;
constexpr int kSeatTries = 12;
constexpr double kSeenGap_mm = 0.05;
constexpr int kLiftLooks = 500;
// After a slide the first drill is set down anew, so often at most; each slide shows where it is
// steep, and the next place is aimed at so much better. Own assumptions.
constexpr int kStarts = 8;
constexpr double kErrorAfterSlide = 0.5;
const double kRadPerDeg = math::Radians(math::Degrees(1.0)).value;

math::Vec2 lean_of(const drilling::DrillPose& pose) {
  return math::Vec2(pose.axis_out_unit.x, pose.axis_out_unit.y) / pose.axis_out_unit.z;
}

/// Where the drill's axis meets the platform plane.
math::Vec2 mouth_of(const drilling::DrillPose& pose) {
  return math::Vec2(pose.tip_mm.x, pose.tip_mm.y) - pose.tip_mm.z * lean_of(pose);
}

/// One operator at work on one session.
class Operator {
 public:
  Operator(Session& session, const OperatorProfile& profile, std::uint64_t seed, const Turn& turn)
      : session_(session),
        profile_(profile),
        learner_(turn.learner),
        error_share_(error_share(profile, turn.tries_before)),
        aim_shares_{error_share_, error_share_},
        rng_(base::split(seed, kOperatorStream, 0)) {
    aim();
  }

  /// Does one action, or one look's worth of it; false once there is nothing left to do.
  bool turn() {
    switch (stage_) {
      case Stage::kSeat:
        if (session_.setup().guide) {
          seat_guide();
        }
        stage_ = Stage::kTake;
        break;
      case Stage::kTake:
        take_next_drill();
        break;
      case Stage::kPress:
        look_at_pressing();
        break;
      case Stage::kLift:
        look_at_lifting();
        break;
      case Stage::kImplant:
        if (!placing_->turn()) {
          finish();
        }
        break;
      case Stage::kDone:
        break;
    }
    return stage_ != Stage::kDone;
  }

  /// Share of the work that is done, 0 to 1: drills, and the depth of the one in hand.
  [[nodiscard]] double progress() const {
    const specimen::Plan& plan = session_.setup().plan;
    const double parts =
        static_cast<double>(plan.drill_ids.size()) + (session_.setup().place_implant ? 1.0 : 0.0);
    const double depth = std::clamp(session_.view().shoulder_depth_mm / plan.depth_mm, 0.0, 1.0);
    const double begun = stage_ == Stage::kPress ? depth - 1.0 : 0.0;
    return stage_ == Stage::kDone
               ? 1.0
               : std::clamp((static_cast<double>(next_drill_) + begun) / parts, 0.0, 1.0);
  }

 private:
  static constexpr std::uint64_t kOperatorStream = 3;
  static constexpr std::uint64_t kPersonStream = 101;  // apart from the approaches' streams

  enum class Stage { kSeat, kTake, kPress, kLift, kImplant, kDone };

  /// Looks at the site and holds the hand where the first drill is to be set down.
  void aim() {
    base::Rng person(base::split(session_.setup().lesson_seed, kPersonStream, learner_));
    const OperatorAim aim = draw_aim(profile_, session_.setup().plan, aim_shares_, person, rng_);
    hand_mm_ = aim.tip_mm;
    lean_rad_ = aim.lean_rad;
  }

  void run(std::int64_t steps) { session_.advance(steps); }

  void finish() {
    if (session_.view().phase == Phase::kDrilling) {
      give(session_, record::Op::kFinish);
    }
    stage_ = Stage::kDone;
  }

  [[nodiscard]] bool is_over() const {
    return session_.view().phase != Phase::kDrilling || session_.view().step > kLongest_steps;
  }

  void move_hand(double press_n) { session::move_hand(session_, hand_mm_, lean_rad_, press_n); }

  /// Presses where the gaps are until every window is closed, or does not care.
  void seat_guide() {
    give(session_, record::Op::kPlaceGuide, {1});
    check_windows();
    give(session_, record::Op::kHoldGuide, {1});
    run(kSeatPress_steps);
  }

  /// Before every drill, if this operator cares.
  void check_windows() {
    if (rng_.uniform01() < profile_.seat_care) {
      close_windows();
    }
  }

  void close_windows() {
    for (int attempt = 0; attempt < kSeatTries; ++attempt) {
      const GuideView& guide = session_.view().guide;
      if (*std::max_element(guide.gap_mm.begin(), guide.gap_mm.end()) < kSeenGap_mm) {
        return;
      }
      const math::Vec2 at = middle_of_gaps(guide, session_.setup().guide->foot_span_mm);
      give(session_, record::Op::kPressGuide,
           {rounded(at.x * 1000.0), rounded(at.y * 1000.0), rounded(kSeatPress_n * 1000.0)});
      run(kSeatPress_steps);
      give(session_, record::Op::kPressGuide, {0, 0, 0});
      run(kLook_steps);
    }
  }

  /// Stop length by arithmetic, the nearest that the kit has.
  [[nodiscard]] double stop_length_mm(std::int32_t drill, std::int32_t key) const {
    const lesson::AttemptSetup& setup = session_.setup();
    double wanted = setup.plan.depth_mm + setup.guide->gap_mm + lesson::sleeve_of(setup)->height_mm;
    wanted += key < 0 ? 0.0 : setup.kit.keys[static_cast<std::size_t>(key)].collar_mm;
    double best = 0.0;
    for (const double length : setup.kit.drills[static_cast<std::size_t>(drill)].stop_lengths_mm) {
      if (best == 0.0 || std::fabs(length - wanted) < std::fabs(best - wanted)) {
        best = length;
      }
    }
    return best;
  }

  /// Takes the next drill of the sequence up to the moment at which it is pressed; after the last
  /// one the implant, or the end.
  void take_next_drill() {
    const std::vector<std::string>& ids = session_.setup().plan.drill_ids;
    if (next_drill_ < ids.size()) {
      take_drill(lesson::drill_index_of(session_.setup(), ids[next_drill_]));
      ++next_drill_;
      stage_ = Stage::kPress;
    } else if (session_.setup().place_implant) {
      placing_.emplace(session_, draw_implant_hold());
      stage_ = Stage::kImplant;
    } else {
      finish();
    }
  }

  void take_drill(std::int32_t drill) {
    const bool is_guided = lesson::is_guided(session_.setup(), drill);
    double stop_mm = 0.0;
    if (session_.setup().guide && !is_guided) {
      give(session_, record::Op::kPlaceGuide, {0});
    }
    if (is_guided) {
      const std::int32_t key = lesson::key_index_of(session_.setup(), drill);
      stop_mm = stop_length_mm(drill, key);
      check_windows();
      give(session_, record::Op::kKey, {key});
      lean_rad_ = kRadPerDeg * draw_pair(rng_, profile_.guided_lean_sd_deg);
      hand_mm_ = draw_pair(rng_, profile_.guided_side_sd_mm);
    } else if (has_hole_) {
      // Into the hole that is there, as upright as it looks now.
      hand_mm_ = hole_mm_;
      lean_rad_ = draw_lean_of_hole();
    }
    move_hand(0.0);
    give(session_, record::Op::kTakeDrill, {drill, rounded(stop_mm * 1000.0)});
    run(kSeatPress_steps);
    const double speed_rpm = session_.setup().kit.drills[static_cast<std::size_t>(drill)].speed_rpm;
    if (is_guided) {
      engage();
    }
    give(session_, record::Op::kMotor, {rounded(speed_rpm)});
    run(kSeatPress_steps);
    const double misread_mm = draw_misread_mm();
    PressTask task;
    task.is_guided = is_guided;
    const bool is_first_hole = !is_guided && !has_hole_;
    task.is_start = is_first_hole && starts_ + 1 < kStarts;
    task.is_light = is_first_hole && starts_ > 0;
    task.diameter_mm = session_.setup().kit.drills[static_cast<std::size_t>(drill)].diameter_mm;
    task.wanted_mm = session_.setup().plan.depth_mm + (is_guided ? 0.0 : misread_mm);
    task.usual_n =
        std::max(kLeastPress_n, draw_within(rng_, profile_.press_n, profile_.press_sd_n));
    press_.begin(profile_, task, session_.view().shoulder_depth_mm);
  }

  /// The lean of the hole that is there, as it looks now.
  [[nodiscard]] math::Vec2 draw_lean_of_hole() {
    return hole_lean_rad_ + (error_share_ * kRadPerDeg) * draw_pair(rng_, profile_.relean_sd_deg);
  }

  /// Error of reading a depth, + deeper.
  [[nodiscard]] double draw_misread_mm() {
    return draw_within(rng_, 0.0, error_share_ * profile_.depth_sd_mm);
  }

  /// How the implant is held: into the hole that is there, lightly.
  [[nodiscard]] ImplantHold draw_implant_hold() {
    ImplantHold hold;
    hold.tip_mm = hole_mm_;
    hold.lean_rad = draw_lean_of_hole();
    hold.misread_mm = draw_misread_mm();
    hold.reaction_s = profile_.reaction_s;
    return hold;
  }

  /// Lowers a guided drill into its key, motor off, until it stands on the surface.
  void engage() {
    move_hand(1.0);
    for (int i = 0; i < 200 && !session_.view().load.in_contact && !is_over(); ++i) {
      run(kLook_steps);
    }
    move_hand(0.0);
  }

  /// One look while the drill is pressed toward its depth.
  void look_at_pressing() {
    if (is_over()) {
      begin_lift(false);
      return;
    }
    move_hand(press_.now_n());
    run(kLook_steps);
    follow(press_.is_guided());
    switch (press_.look(session_.view())) {
      case Seen::kGoingOn:
        break;
      case Seen::kArrived:
        run(static_cast<std::int64_t>(profile_.reaction_s * 1000.0));
        move_hand(0.0);
        begin_lift(true);
        break;
      case Seen::kSlid:
        ++starts_;
        aim_shares_.place *= kErrorAfterSlide;
        aim();
        take_again();
        break;
      case Seen::kCaught:
        take_again();
        break;
    }
  }

  /// The hand gives way toward where the drill went; in a sleeve it also comes into line with it.
  void follow(bool is_guided) {
    const drilling::DrillPose& pose = session_.view().pose;
    if (!session_.view().load.in_contact) {
      return;
    }
    const double share = kLook_s / std::max(kLook_s, profile_.follow_s);
    hand_mm_ += share * (math::Vec2(pose.tip_mm.x, pose.tip_mm.y) - hand_mm_);
    if (is_guided) {
      lean_rad_ += share * (lean_of(pose) - lean_rad_);
    }
  }

  void begin_lift(bool is_at_depth) {
    const drilling::DrillPose pose = session_.view().pose;
    hole_mm_ = mouth_of(pose);
    hole_lean_rad_ = lean_of(pose);
    has_hole_ = true;
    is_at_depth_ = is_at_depth;
    lift();
  }

  /// Draws the drill out and holds it anew.
  void take_again() {
    --next_drill_;
    is_at_depth_ = true;  // nothing is given up
    lift();
  }

  void lift() {
    give(session_, record::Op::kLift, {1});
    lift_looks_left_ = kLiftLooks;
    stage_ = Stage::kLift;
  }

  void look_at_lifting() {
    if (lift_looks_left_ > 0 && !session_.view().is_out && !is_over()) {
      run(kLook_steps);
      --lift_looks_left_;
      return;
    }
    give(session_, record::Op::kMotor, {0});
    run(kLook_steps);
    stage_ = is_at_depth_ && !is_over() ? Stage::kTake : Stage::kDone;
  }

  Session& session_;
  const OperatorProfile& profile_;
  std::uint64_t learner_;
  double error_share_;
  ErrorShares aim_shares_;
  base::Rng rng_;
  math::Vec2 hand_mm_{0.0};
  math::Vec2 lean_rad_{0.0};
  math::Vec2 hole_mm_{0.0};
  math::Vec2 hole_lean_rad_{0.0};
  bool has_hole_ = false;
  Stage stage_ = Stage::kSeat;
  std::size_t next_drill_ = 0;
  OperatorPress press_;
  int starts_ = 0;  ///< after a slide
  bool is_at_depth_ = false;
  int lift_looks_left_ = 0;
  std::optional<ImplantPlacing> placing_;
};

}  // namespace

struct Practice::Impl {
  Impl(Session started, const OperatorProfile& who, std::uint64_t attempt_seed, const Turn& turn)
      : session(std::move(started)),
        profile(who),
        seed(attempt_seed),
        worker(session, profile, attempt_seed, turn) {}

  Session session;
  OperatorProfile profile;
  std::uint64_t seed;
  Operator worker;
};

Practice::Practice(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}

Practice::Practice(Practice&&) noexcept = default;
Practice& Practice::operator=(Practice&&) noexcept = default;
Practice::~Practice() = default;

base::Result<Practice> Practice::start(const lesson::AttemptSetup& setup,
                                       const OperatorProfile& profile, std::uint64_t seed,
                                       const Turn& turn) {
  base::Result<Session> session = Session::create(setup);
  if (!session) {
    return tl::unexpected<base::Error>(session.error());
  }
  return Practice(std::make_unique<Impl>(std::move(*session), profile, seed, turn));
}

bool Practice::advance(std::int64_t step_count) {
  const std::int64_t until = impl_->session.view().step + step_count;
  bool more = true;
  while (more && impl_->session.view().step < until) {
    more = impl_->worker.turn();
  }
  return more;
}

double Practice::progress() const {
  return impl_->worker.progress();
}

const Session& Practice::session() const {
  return impl_->session;
}

base::Result<record::Attempt> Practice::record() const {
  if (impl_->session.view().phase == Phase::kDrilling) {
    return base::fail(base::ErrorCode::kUnsupported,
                      "The operator did not finish the attempt within ten minutes.");
  }
  record::Attempt attempt = impl_->session.record();
  attempt.operator_name = impl_->profile.name;
  attempt.device = "virtual";
  base::Hash64 high;
  high.add(impl_->seed);
  high.add(static_cast<int>(impl_->session.setup().approach));
  base::Hash64 low = high;
  low.add(attempt.end_step);
  attempt.attempt_id = base::to_hex16(high.value()) + base::to_hex16(low.value());
  return attempt;
}

Session Practice::take_session() {
  return std::move(impl_->session);
}

base::Result<record::Attempt> practise_attempt(const lesson::AttemptSetup& setup,
                                               const OperatorProfile& profile, std::uint64_t seed,
                                               const Turn& turn) {
  base::Result<Practice> practice = Practice::start(setup, profile, seed, turn);
  if (!practice) {
    return tl::unexpected<base::Error>(practice.error());
  }
  while (practice->advance(kLongest_steps)) {
  }
  return practice->record();
}

}  // namespace driftbench::session
