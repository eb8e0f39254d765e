// Pointer samples as the device gives them: fractional positions, pressure, kind of device.
#pragma once

#include <cstdint>
#include <vector>

namespace driftbench::platform {

enum class PointerDevice { kMouse = 0, kTouch = 1, kPen = 2 };

enum class PointerPhase { kMove = 0, kDown = 1, kUp = 2, kCancel = 3 };

/// One sample. Positions are logical pixels from the top left of the canvas, not rounded.
struct PointerSample {
  PointerPhase phase = PointerPhase::kMove;
  PointerDevice device = PointerDevice::kMouse;
  std::int32_t pointer_id = 0;
  std::int32_t button = 0;  ///< of a press or release: 0 left, 1 middle, 2 right
  float x = 0.0F;
  float y = 0.0F;
  float pressure = 0.0F;  ///< 0..1; a mouse button gives 0.5
};

/// The pointer that drove the interface last.
struct PointerState {
  PointerDevice device = PointerDevice::kMouse;
  float pressure = 0.0F;
  bool is_down = false;
};

/// Feeds a sample to Dear ImGui. Only the first finger counts while it is down.
void take_pointer(const PointerSample& sample);

[[nodiscard]] const PointerState& pointer_state();

/// A sample with the buttons that are down at its moment.
struct PointerTrack {
  PointerSample sample;
  bool left = false;
  bool right = false;
};

/// All samples since the last call, oldest first: more than one a frame from a fast device.
[[nodiscard]] std::vector<PointerTrack> take_pointer_track();

}  // namespace driftbench::platform
