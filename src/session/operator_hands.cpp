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

void move_hand(Session& session, const math::Vec2& tip_mm, const math::Vec2& lean_rad,
               double press_n) {
  give(session, record::Op::kHand,
       {rounded(tip_mm.x * kMilli), rounded(tip_mm.y * kMilli), rounded(lean_rad.x * kMicro),
        rounded(lean_rad.y * kMicro), rounded(press_n * kMilli)});
}

}  // namespace driftbench::session
