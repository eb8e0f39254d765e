// Pointer samples into Dear ImGui, one pointer at a time.
#include "platform/input.h"

#include <imgui.h>

#include <cfloat>
#include <utility>

namespace driftbench::platform {
namespace {

constexpr std::int32_t kNoPointer = -1;

PointerState g_state;
std::int32_t g_captured_pointer = kNoPointer;
std::vector<PointerTrack> g_track;
PadSample g_pad;
bool g_left = false;
bool g_right = false;

// A page that is not drawn for long keeps no more than this.
constexpr std::size_t kLongestTrack = 4096;

void set_button(std::int32_t button, bool is_down) {
  if (button == 0) {
    g_left = is_down;
  } else if (button == 2) {
    g_right = is_down;
  }
}

void add_to_track(const PointerSample& sample) {
  if (g_track.size() >= kLongestTrack) {
    return;
  }
  if (sample.device == PointerDevice::kTouch) {
    const bool is_down = sample.phase == PointerPhase::kMove || sample.phase == PointerPhase::kDown;
    g_track.push_back({sample, is_down, false});
  } else {
    g_track.push_back({sample, g_left, g_right});
  }
}

// A second finger, or one that stays when the first has left, moves nothing in Dear ImGui.
bool is_other_finger(const PointerSample& sample) {
  if (g_captured_pointer != kNoPointer) {
    return sample.pointer_id != g_captured_pointer;
  }
  return sample.device == PointerDevice::kTouch && sample.phase == PointerPhase::kMove;
}

ImGuiMouseSource source_of(PointerDevice device) {
  switch (device) {
    case PointerDevice::kTouch:
      return ImGuiMouseSource_TouchScreen;
    case PointerDevice::kPen:
      return ImGuiMouseSource_Pen;
    case PointerDevice::kMouse:
    case PointerDevice::kPad:
      break;
  }
  return ImGuiMouseSource_Mouse;
}

// Dear ImGui numbers right 1 and middle 2, the browser the other way round.
int imgui_button(std::int32_t button) {
  switch (button) {
    case 1:
      return ImGuiMouseButton_Middle;
    case 2:
      return ImGuiMouseButton_Right;
    default:
      return ImGuiMouseButton_Left;
  }
}

}  // namespace

void take_pointer(const PointerSample& sample) {
  if (is_other_finger(sample)) {
    if (sample.device == PointerDevice::kTouch) {
      add_to_track(sample);
    }
    return;
  }
  ImGuiIO& io = ImGui::GetIO();
  g_state.device = sample.device;
  io.AddMouseSourceEvent(source_of(sample.device));
  switch (sample.phase) {
    case PointerPhase::kMove:
      io.AddMousePosEvent(sample.x, sample.y);
      break;
    case PointerPhase::kDown:
    case PointerPhase::kUp: {
      const bool is_down = sample.phase == PointerPhase::kDown;
      g_captured_pointer = is_down ? sample.pointer_id : kNoPointer;
      set_button(sample.button, is_down);
      io.AddMousePosEvent(sample.x, sample.y);
      io.AddMouseButtonEvent(imgui_button(sample.button), is_down);
      break;
    }
    case PointerPhase::kCancel:
      g_captured_pointer = kNoPointer;
      g_left = g_right = false;
      for (int button = 0; button < ImGuiMouseButton_COUNT; ++button) {
        io.AddMouseButtonEvent(button, false);
      }
      io.AddMousePosEvent(-FLT_MAX, -FLT_MAX);
      break;
  }
  add_to_track(sample);
}

std::vector<PointerTrack> take_pointer_track() {
  return std::exchange(g_track, {});
}

void take_pad(const PadSample& sample) {
  g_state.device = PointerDevice::kPad;
  g_pad.move_right_s += sample.move_right_s;
  g_pad.move_away_s += sample.move_away_s;
  g_pad.lean_right_s += sample.lean_right_s;
  g_pad.lean_away_s += sample.lean_away_s;
  g_pad.trigger = sample.trigger;
}

PadSample take_pad_sum() {
  return std::exchange(g_pad, {0.0F, 0.0F, 0.0F, 0.0F, g_pad.trigger});
}

const PointerState& pointer_state() {
  return g_state;
}

}  // namespace driftbench::platform
