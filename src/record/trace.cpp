#include "record/trace.h"

namespace driftbench::record {

int argument_count(Op op) {
  constexpr int kUnknown = -1;
  constexpr int kHandArguments = 5;
  constexpr int kPressArguments = 3;
  switch (op) {
    case Op::kHand:
      return kHandArguments;
    case Op::kPressGuide:
      return kPressArguments;
    case Op::kTakeDrill:
      return 2;
    case Op::kMotor:
    case Op::kIrrigation:
    case Op::kLift:
    case Op::kPlaceGuide:
    case Op::kHoldGuide:
    case Op::kKey:
    case Op::kTakeImplant:
    case Op::kTorqueLimit:
    case Op::kPin:
      return 1;
    case Op::kProbe:
    case Op::kFinish:
    case Op::kReleaseImplant:
      return 0;
  }
  return kUnknown;
}

}  // namespace driftbench::record
