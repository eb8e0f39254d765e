// The input of an attempt: integer commands, each stamped with the step at which it takes effect.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

namespace driftbench::record {

/// What a command does, and its integer arguments.
enum class Op : std::int32_t {
  kHand = 1,   ///< x_um, y_um, lean_x_urad, lean_y_urad, press_mn: where the hand wants the drill
  kMotor = 2,  ///< rpm; 0 off, negative reverse
  kIrrigation = 3,       ///< 0 or 1
  kLift = 4,             ///< 1: draw the drill out and hold it above the site; 0: stop lifting
  kTakeDrill = 5,        ///< drill index in the kit, stop length in um (0: no stop)
  kPlaceGuide = 6,       ///< 1 put the guide on the block, 0 take it off
  kPressGuide = 7,       ///< x_um, y_um, force_mn: a finger on the guide; force 0 lets go
  kHoldGuide = 8,        ///< 1 held down by the other hand, 0 not
  kKey = 9,              ///< key index in the kit, -1 none
  kProbe = 10,           ///< sound the floor and walls (drill out)
  kFinish = 11,          ///< the attempt is done
  kTakeImplant = 12,     ///< implant index in the kit: on the driver, or the driver on a seated one
  kReleaseImplant = 13,  ///< driver off; the implant stays where it sits
  kTorqueLimit = 14,     ///< of the motor with an implant, N mm
  kPin = 15              ///< 1: the direction pin into the hole, 0: out of it (drill out)
};

inline constexpr std::size_t kMaxArguments = 5;

/// One command. Unused arguments are 0.
struct Command {
  Op op = Op::kHand;
  std::array<std::int32_t, kMaxArguments> arguments{};

  friend bool operator==(const Command&, const Command&) = default;
};

/// Number of arguments that an op takes; -1 for an unknown op.
[[nodiscard]] int argument_count(Op op);

/// A command and its step. In a file: [step, op, arguments...].
struct TraceEntry {
  std::int64_t step = 0;
  Command command;

  friend bool operator==(const TraceEntry&, const TraceEntry&) = default;
};

using Trace = std::vector<TraceEntry>;

}  // namespace driftbench::record
