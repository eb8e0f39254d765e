// Pointer samples into Dear ImGui, one pointer at a time.
#include "platform/input.h"

#include <imgui.h>

#include <cfloat>

namespace driftbench::platform {
namespace {

constexpr std::int32_t kNoPointer = -1;

PointerState g_state;
std::int32_t g_captured_pointer = kNoPointer;

ImGuiMouseSource source_of(PointerDevice device) {
  switch (device) {
    case PointerDevice::kTouch:
      return ImGuiMouseSource_TouchScreen;
    case PointerDevice::kPen:
      return ImGuiMouseSource_Pen;
    case PointerDevice::kMouse:
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
  if (g_captured_pointer != kNoPointer && sample.pointer_id != g_captured_pointer) {
    return;
  }
  ImGuiIO& io = ImGui::GetIO();
  g_state.device = sample.device;
  g_state.pressure = sample.pressure;
  io.AddMouseSourceEvent(source_of(sample.device));
  io.AddMousePosEvent(sample.x, sample.y);
  switch (sample.phase) {
    case PointerPhase::kMove:
      break;
    case PointerPhase::kDown:
      g_captured_pointer = sample.pointer_id;
      g_state.is_down = true;
      io.AddMouseButtonEvent(imgui_button(sample.button), true);
      break;
    case PointerPhase::kUp:
      g_captured_pointer = kNoPointer;
      g_state.is_down = false;
      io.AddMouseButtonEvent(imgui_button(sample.button), false);
      break;
    case PointerPhase::kCancel:
      g_captured_pointer = kNoPointer;
      g_state.is_down = false;
      for (int button = 0; button < ImGuiMouseButton_COUNT; ++button) {
        io.AddMouseButtonEvent(button, false);
      }
      break;
  }
}

const PointerState& pointer_state() {
  return g_state;
}

}  // namespace driftbench::platform
