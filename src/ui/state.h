// Interface state that lives from frame to frame and is nobody else's business.
#pragma once

#include "scoring/results.h"
#include "ui/bench_controls.h"
#include "ui/bench_fingers.h"
#include "ui/model.h"

#include <cstdint>
#include <optional>
#include <string>

namespace driftbench::ui {

struct BenchState {
  bool is_reaching = false;  ///< the pointer is in a look and has not come to the drill
  BenchControls controls;
  BenchFingers fingers;
  bool arrows_lean = false;         ///< step by step: arrows lean instead of moving
  std::int64_t last_step = -1;      ///< of the session seen last; going back means a new one
  std::int32_t chooser_drill = -1;  ///< guided: drill whose length is being chosen
  bool finger_on_guide = false;
  bool film = false;           ///< the check film is looked at
  bool shows_rack = false;     ///< upright, with a guide: the rack instead of the windows
  bool focus_chooser = false;  ///< the length chooser wants the keyboard focus
  bool hand_ring = false;      ///< keys went back to the hand by key: show where they are
};

struct EstimateState {
  scoring::SelfEstimate value;
};

struct ExampleState {
  std::size_t said = 0;  ///< remarks up to the one that was brought into sight last
};

struct DebriefState {
  bool compare_open = false;
  bool across = false;           ///< the section across the axis instead of the hole's size
  double across_depth_mm = 2.0;  ///< of that section, below the platform
};

/// Value change asked for from outside (the page's mirror), taken by the slider with this id.
struct PendingAdjust {
  std::uint32_t id = 0;
  int steps = 0;
};

struct State {
  BenchState bench;
  EstimateState estimate;
  DebriefState debrief;
  ExampleState example;
  StudyState study;
  std::string delete_armed;  ///< saved attempt that a second click deletes
  std::optional<Screen> last_screen;
  std::optional<PendingAdjust> adjust;
};

}  // namespace driftbench::ui
