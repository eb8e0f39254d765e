#include "session/operator_hands.h"

#include <cmath>

namespace driftbench::session {
namespace {

constexpr double kMilli = 1e3;  // um per mm, mN per N
constexpr double kMicro = 1e6;  // urad per rad

}  // namespace

std::int32_t rounded(double value) {
  return static_cast<std::int32_t>(std::floor(value + 0.5));
}

void give(Session& session, record::Op op,
          std::array<std::int32_t, record::kMaxArguments> arguments) {
  static_cast<void>(session.submit({op, arguments}));
}

math::Vec2 middle_of_gaps(const GuideView& guide, double foot_span_mm) {
  const double half_mm = 0.5 * foot_span_mm;
  math::Vec2 sum(0.0);
  double weight = 0.0;
  for (std::size_t k = 0; k < guide.gap_mm.size(); ++k) {
    const math::Vec2 foot(k == 0 || k == 3 ? half_mm : -half_mm, k < 2 ? half_mm : -half_mm);
    sum += guide.gap_mm[k] * foot;
    weight += guide.gap_mm[k];
  }
  return weight > 0.0 ? sum / weight : math::Vec2(0.0);
}

void move_hand(Session& session, const math::Vec2& tip_mm, const math::Vec2& lean_rad,
               double press_n) {
  give(session, record::Op::kHand,
       {rounded(tip_mm.x * kMilli), rounded(tip_mm.y * kMilli), rounded(lean_rad.x * kMicro),
        rounded(lean_rad.y * kMicro), rounded(press_n * kMilli)});
}

}  // namespace driftbench::session
