#include "session/guide_budget.h"

#include "base/contract.h"
#include "drilling/sleeve_fit.h"
#include "lesson/instruments.h"
#include "math/angle.h"
#include "math/elementary.h"
#include "session/operator_aim.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace driftbench::session {
namespace {

constexpr int kDraws = 4000;
constexpr std::uint64_t kBudgetSeed = 4203;
constexpr double kLimit_sd = 3.0;

/// A small displacement of the drill's axis: where it meets the platform, and its lean out of the
/// bone.
struct Shift {
  math::Vec2 entry_mm{0.0};
  math::Vec2 lean{0.0};

  Shift& operator+=(const Shift& other) {
    entry_mm += other.entry_mm;
    lean += other.lean;
    return *this;
  }
};

/// The rings of the guide above the platform, and how far the axis may leave their middles.
struct Rings {
  double low_mm = 0.0;
  double high_mm = 0.0;
  double low_room_mm = 0.0;
  double high_room_mm = 0.0;
};

/// Everything that does not change between two draws.
struct Case {
  const lesson::AttemptSetup& setup;
  const OperatorProfile& hand;
  Rings rings;
  double gap_left_mm = 0.0;

  [[nodiscard]] const specimen::Guide& guide() const { return *setup.guide; }
};

double rad_of(double degrees) {
  return math::Radians(math::Degrees(degrees)).value;
}

HoleError error_of(const Shift& shift, double depth_mm) {
  const double lean = math::length(shift.lean);
  return {math::length(shift.entry_mm), math::length(shift.entry_mm - depth_mm * shift.lean),
          math::to_degrees(math::Radians{math::atan2(lean, 1.0)}).value};
}

HoleError sum_of(const HoleError& a, const HoleError& b) {
  return {a.entry_mm + b.entry_mm, a.apex_mm + b.apex_mm, a.angle_deg + b.angle_deg};
}

/// Of the first guided drill, at its stop: there the guided length is full.
Rings rings_of(const lesson::AttemptSetup& setup) {
  const auto index = lesson::drill_index_of(setup, setup.plan.drill_ids.front());
  const specimen::Drill& drill = setup.kit.drills[static_cast<std::size_t>(index)];
  const specimen::Key* key = lesson::item_at(setup.kit.keys, lesson::key_index_of(setup, index));
  const double stop_mm = drill.stop_lengths_mm.empty() ? 0.0 : drill.stop_lengths_mm.front();
  const drilling::SleeveFit fit = drilling::make_sleeve_fit(
      *lesson::sleeve_of(setup), key, drilling::make_tool(drill), drill, stop_mm);
  const bool by_collar = fit.collar_radius_mm > 0.0;
  const double radius_mm = by_collar ? fit.collar_radius_mm : 0.5 * drill.diameter_mm;
  const double low_mm =
      by_collar ? std::max(0.0, fit.end_face_mm - drill.collar_length_mm) : fit.rings[0].height_mm;
  return {setup.guide->gap_mm + low_mm, setup.guide->gap_mm + fit.rings[1].height_mm,
          std::max(0.0, fit.rings[0].bore_radius_mm - radius_mm),
          std::max(0.0, fit.rings[1].bore_radius_mm - radius_mm)};
}

math::Vec2 within(const math::Vec2& wanted_mm, double room_mm) {
  const double off_mm = math::length(wanted_mm);
  return off_mm > room_mm ? (room_mm / off_mm) * wanted_mm : wanted_mm;
}

/// What the rings let through of what the hand wants: the balance of the springs of hand and wrist
/// with the two rings, found by turns. Each turn is exact, because a ring is round and the springs
/// are alike in all directions.
Shift let_through(const Case& of, const Shift& wanted) {
  constexpr int kTurns = 40;
  const Rings& rings = of.rings;
  const double height_mm = rings.high_mm - rings.low_mm;
  const double grip_mm = of.setup.hand.grip_height_mm;
  const double beyond = (grip_mm - rings.low_mm) / height_mm;
  const double side = of.setup.hand.lateral_stiffness_n_per_mm;
  const double wrist = of.setup.hand.wrist_stiffness_nmm_per_rad / (height_mm * height_mm);
  const math::Vec2 at_grip = wanted.entry_mm + grip_mm * wanted.lean;
  const math::Vec2 over_height = height_mm * wanted.lean;
  math::Vec2 low(0.0);
  math::Vec2 high(0.0);
  for (int turn = 0; turn < kTurns; ++turn) {
    high = within((side * beyond * (at_grip - (1.0 - beyond) * low) + wrist * (low + over_height)) /
                      (side * beyond * beyond + wrist),
                  rings.high_room_mm);
    low =
        within((side * (1.0 - beyond) * (at_grip - beyond * high) + wrist * (high - over_height)) /
                   (side * (1.0 - beyond) * (1.0 - beyond) + wrist),
               rings.low_room_mm);
  }
  Shift shift;
  shift.lean = (high - low) / height_mm;
  shift.entry_mm = low - rings.low_mm * shift.lean;
  return shift;
}

/// How the guide shifts and rocks under a side force at the grip and a moment of the wrist.
Shift yield_of(const Case& of, const math::Vec2& force_n, const math::Vec2& wrist_nmm) {
  const specimen::Guide& guide = of.guide();
  const double rock_nmm = guide.foot_stiffness_n_per_mm * guide.foot_span_mm * guide.foot_span_mm;
  Shift shift;
  shift.entry_mm = force_n / guide.support_stiffness_n_per_mm;
  shift.lean = (of.setup.hand.grip_height_mm * force_n + wrist_nmm) / rock_nmm;
  return shift;
}

/// What the hand still pulls when the play is used up, and the guide's answer.
Shift give_way(const Case& of, const Shift& wanted, const Shift& let) {
  const drilling::HandParams& hand = of.setup.hand;
  const math::Vec2 lean = wanted.lean - let.lean;
  const math::Vec2 off_mm = wanted.entry_mm - let.entry_mm + hand.grip_height_mm * lean;
  return yield_of(of, hand.lateral_stiffness_n_per_mm * off_mm,
                  hand.wrist_stiffness_nmm_per_rad * lean);
}

using Shifts = std::array<Shift, kBudgetSources>;

/// One hand, one guide, one seat; in the order of BudgetSource. The hand aims along the sleeve as
/// it stands, so the sources add.
Shifts draw(const Case& of, base::Rng& rng) {
  Shift wanted;
  wanted.entry_mm = draw_pair(rng, of.hand.guided_side_sd_mm);
  wanted.lean = rad_of(1.0) * draw_pair(rng, of.hand.guided_lean_sd_deg);
  Shift making;
  making.entry_mm = draw_pair(rng, of.guide().fit_sd_mm);
  making.lean = rad_of(1.0) * draw_pair(rng, of.guide().fit_tilt_sd_deg);
  const double gap_mm = of.gap_left_mm * rng.uniform01();
  const math::SinCos toward = math::sincos(2.0 * math::kPi * rng.uniform01());
  Shift seat;
  seat.lean = (gap_mm / of.guide().foot_span_mm) * math::Vec2(toward.cos, toward.sin);
  const Shift play = let_through(of, wanted);
  return {play, seat, making, give_way(of, wanted, play)};
}

/// The limits, in the order of BudgetSource.
std::array<HoleError, kBudgetSources> limits_of(const Case& of) {
  const double depth_mm = of.setup.plan.depth_mm;
  const Rings& rings = of.rings;
  Shift play;
  play.lean.x = -(rings.low_room_mm + rings.high_room_mm) / (rings.high_mm - rings.low_mm);
  play.entry_mm.x = rings.low_room_mm - rings.low_mm * play.lean.x;
  Shift seat;
  seat.lean.x = of.gap_left_mm / of.guide().foot_span_mm;
  Shift making;
  making.entry_mm.x = kLimit_sd * of.guide().fit_sd_mm;
  making.lean.x = -kLimit_sd * rad_of(of.guide().fit_tilt_sd_deg);
  Shift wanted;
  wanted.entry_mm.x = kLimit_sd * of.hand.guided_side_sd_mm;
  wanted.lean.x = kLimit_sd * rad_of(of.hand.guided_lean_sd_deg);
  const Shift support = give_way(of, wanted, Shift{});
  return {error_of(play, depth_mm), error_of(seat, depth_mm), error_of(making, depth_mm),
          error_of(support, depth_mm)};
}

/// Sums of one column of errors.
struct Tally {
  std::vector<double> entry_mm;
  std::vector<double> apex_mm;
  std::vector<double> angle_deg;

  void add(const HoleError& error) {
    entry_mm.push_back(error.entry_mm);
    apex_mm.push_back(error.apex_mm);
    angle_deg.push_back(error.angle_deg);
  }

  template <class Of>
  [[nodiscard]] HoleError each(Of of) {
    return {of(entry_mm), of(apex_mm), of(angle_deg)};
  }
};

double mean_of(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double value : values) {
    sum += value;
  }
  return sum / static_cast<double>(values.size());
}

double square_sum(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double value : values) {
    sum += value * value;
  }
  return sum;
}

double upper_bound_95(std::vector<double>& values) {
  const auto place = values.begin() + static_cast<std::ptrdiff_t>(values.size() * 95 / 100);
  std::nth_element(values.begin(), place, values.end());
  return *place;
}

}  // namespace

GuideBudget guide_budget(const lesson::AttemptSetup& setup, const OperatorProfile& hand,
                         double gap_left_mm) {
  DRIFTBENCH_EXPECTS(setup.guide.has_value() && lesson::sleeve_of(setup) != nullptr);
  DRIFTBENCH_EXPECTS(!setup.plan.drill_ids.empty() &&
                     lesson::drill_index_of(setup, setup.plan.drill_ids.front()) >= 0);
  DRIFTBENCH_EXPECTS(gap_left_mm >= 0.0);
  const Case of{setup, hand, rings_of(setup), gap_left_mm};
  const double depth_mm = setup.plan.depth_mm;
  base::Rng rng(kBudgetSeed);
  std::array<Tally, kBudgetSources> alone;
  Tally together;
  for (int i = 0; i < kDraws; ++i) {
    const Shifts shifts = draw(of, rng);
    Shift sum;
    for (std::size_t k = 0; k < kBudgetSources; ++k) {
      alone[k].add(error_of(shifts[k], depth_mm));
      sum += shifts[k];
    }
    together.add(error_of(sum, depth_mm));
  }
  GuideBudget budget;
  const std::array<HoleError, kBudgetSources> limits = limits_of(of);
  double all_squares = 0.0;
  for (const Tally& tally : alone) {
    all_squares += square_sum(tally.apex_mm);
  }
  for (std::size_t k = 0; k < kBudgetSources; ++k) {
    BudgetLine& line = budget.lines[k];
    line.source = static_cast<BudgetSource>(k);
    line.mean = alone[k].each(mean_of);
    line.limit = limits[k];
    line.apex_share = all_squares > 0.0 ? square_sum(alone[k].apex_mm) / all_squares : 0.0;
    budget.limit = sum_of(budget.limit, line.limit);
  }
  budget.mean = together.each(mean_of);
  budget.within_95 = together.each(upper_bound_95);
  return budget;
}

}  // namespace driftbench::session
