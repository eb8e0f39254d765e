// Pointer samples as the device gives them: fractional positions, pressure, kind of device.
#pragma once

#include <cstdint>
#include <vector>

namespace driftbench::platform {

enum class PointerDevice { kMouse = 0, kTouch = 1, kPen = 2, kPad = 3 };

enum class PointerPhase { kMove = 0, kDown = 1, kUp = 2, kCancel = 3 };

/// One sample. Positions are logical pixels from the top left of the canvas, not rounded.
struct PointerSample {
  PointerPhase phase = PointerPhase::kMove;
  PointerDevice device = PointerDevice::kMouse;
  std::int32_t pointer_id = 0;
  std::int32_t button = 0;  ///< of a press or release: 0 left, 1 middle, 2 right
  float x = 0.0F;
  float y = 0.0F;
  float pressure = 0.0F;    ///< 0..1; what has no sensor gives 0.5 while it is down
  float tilt_x_deg = 0.0F;  ///< of a pen: its upper end to the right
  float tilt_y_deg = 0.0F;  ///< its upper end toward the person
};

/// The device that drove the interface last.
struct PointerState {
  PointerDevice device = PointerDevice::kMouse;
};

/// Feeds a sample to Dear ImGui, where only the first finger counts while it is down. The track has
/// every finger.
void take_pointer(const PointerSample& sample);

[[nodiscard]] const PointerState& pointer_state();

/// A sample with the buttons that are down at its moment; a finger is left while it is down.
struct PointerTrack {
  PointerSample sample;
  bool left = false;
  bool right = false;
};

/// All samples since the last call, oldest first: more than one a frame from a fast device.
[[nodiscard]] std::vector<PointerTrack> take_pointer_track();

/// What a gamepad did: how far its sticks were out times how long, in seconds, and its trigger now.
struct PadSample {
  float move_right_s = 0.0F;
  float move_away_s = 0.0F;
  float lean_right_s = 0.0F;
  float lean_away_s = 0.0F;
  float trigger = 0.0F;  ///< 0..1
};

void take_pad(const PadSample& sample);

/// The sum since the last call.
[[nodiscard]] PadSample take_pad_sum();

}  // namespace driftbench::platform
