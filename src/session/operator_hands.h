// What an operator does to a session, in the whole numbers of a command.
#pragma once

#include "session/session.h"

#include <array>
#include <cstdint>

namespace driftbench::session {

/// Steps between two looks: the eye renews its picture 50 times a second.
inline constexpr std::int64_t kLook_steps = 20;
inline constexpr double kLook_s = 0.02;

/// The nearest whole number, halves up.
[[nodiscard]] std::int32_t rounded(double value);

/// Gives a command; a refused one changes nothing, and the operator goes on with what is there.
void give(Session& session, record::Op op,
          std::array<std::int32_t, record::kMaxArguments> arguments = {});

/// Where the windows show the gaps, weighted by their width.
[[nodiscard]] math::Vec2 middle_of_gaps(const GuideView& guide, double foot_span_mm);

/// Moves the hand to a place on the platform plane, a lean and a press.
void move_hand(Session& session, const math::Vec2& tip_mm, const math::Vec2& lean_rad,
               double press_n);

}  // namespace driftbench::session
