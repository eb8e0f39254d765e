// The bench's bottom line: what the hands do now, and the next step with its key.
#pragma once

#include "session/view.h"

#include <string>

namespace driftbench::ui {

struct HintLine {
  std::string now;   ///< what the hands do
  std::string next;  ///< the one next step
  std::string key;   ///< its key; empty: the pointer
};

/// How the hand is steered, as far as the words depend on it.
enum class Steering { kPointer, kTouch, kSteps, kStepsLean };

struct HandNow {
  Steering steering = Steering::kPointer;  ///< a finger has neither keys nor buttons
  bool is_pressing = false;
  bool is_reaching = false;         ///< the pointer is in a look and has not come to the drill
  bool is_choosing_length = false;  ///< a guided drill was chosen that has not been taken yet
  std::string next_drill = {};      ///< the planned drill that is next, by name; empty: none
  std::string next_drill_key = {};
};

/// Contract: view handed out by a session.
[[nodiscard]] HintLine hint_line(const session::SessionView& view, const HandNow& hand = {});

/// A torque as it is shown, in N·cm.
[[nodiscard]] std::string torque_ncm(double torque_nmm, int decimals = 0);

/// What the probe found, in words; empty without a reading.
[[nodiscard]] std::string probe_words(const session::SessionView& view);

}  // namespace driftbench::ui
