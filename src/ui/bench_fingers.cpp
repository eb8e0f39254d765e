#include "ui/bench_fingers.h"

#include "math/vec.h"

#include <algorithm>

namespace driftbench::ui {
namespace {

constexpr double kLeastApart_px = 20.0;

bool is_look(FingerHold hold) {
  return hold == FingerHold::kFront || hold == FingerHold::kSide;
}

Look look_of(FingerHold hold) {
  return hold == FingerHold::kSide ? Look::kSide : Look::kFront;
}

}  // namespace

LookTurn turned(LookTurn turn, double heading_deg, double elevation_deg, double zoom) {
  turn.heading_deg = std::clamp(turn.heading_deg + heading_deg, -kTurnMost_deg, kTurnMost_deg);
  turn.elevation_deg =
      std::clamp(turn.elevation_deg + elevation_deg, -kTurnDownMost_deg, kTurnUpMost_deg);
  turn.zoom = std::clamp(turn.zoom * zoom, kZoomLeast, kZoomMost);
  return turn;
}

void BenchFingers::turn(Look look, double heading_deg, double elevation_deg, double zoom) {
  LookTurn& one = look == Look::kSide ? side_ : front_;
  one = turned(one, heading_deg, elevation_deg, zoom);
}

std::optional<double> BenchFingers::press_x_px() const {
  for (const Finger& finger : fingers_) {
    if (finger.hold == FingerHold::kPress) {
      return finger.at.x_px;
    }
  }
  return std::nullopt;
}

const BenchFingers::Finger* BenchFingers::other_on(const Finger& finger) const {
  for (const Finger& other : fingers_) {
    if (other.at.id != finger.at.id && other.hold == finger.hold) {
      return &other;
    }
  }
  return nullptr;
}

// What lies between two fingers follows them: their middle turns, their distance zooms.
void BenchFingers::pinch(const Finger& before, const FingerReading& now, const Finger& other) {
  const auto apart_px = [&other](const FingerReading& one) {
    return std::max(kLeastApart_px,
                    math::length(math::Vec2(one.x_px - other.at.x_px, one.y_px - other.at.y_px)));
  };
  // Each finger moves the middle by half of its own way.
  const double right_px = 0.5 * (now.x_px - before.at.x_px);
  const double down_px = 0.5 * (now.y_px - before.at.y_px);
  turn(look_of(before.hold), -kTurn_deg_per_px * right_px, kTurn_deg_per_px * down_px,
       apart_px(now) / apart_px(before.at));
}

void BenchFingers::feed(const FingerReading& reading, bool in_contact, BenchControls& controls) {
  const auto found = std::find_if(fingers_.begin(), fingers_.end(),
                                  [&](const Finger& finger) { return finger.at.id == reading.id; });
  if (!reading.is_down) {
    if (found != fingers_.end()) {
      fingers_.erase(found);
    }
    return;
  }
  if (found == fingers_.end()) {
    fingers_.push_back({reading, reading.under});
    return;
  }
  const Motion px{reading.x_px - found->at.x_px, found->at.y_px - reading.y_px};
  if (is_look(found->hold)) {
    if (const Finger* other = other_on(*found)) {
      pinch(*found, reading, *other);
    } else {
      controls.drag(px, look_of(found->hold), false, in_contact);
    }
  } else if (found->hold == FingerHold::kLean) {
    controls.drag(px, Look::kFront, true, in_contact);
  }
  found->at = reading;
}

}  // namespace driftbench::ui
