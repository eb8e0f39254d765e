// The window with its OpenGL ES context and the Dear ImGui frame in it.
#pragma once

#include "base/result.h"

#include <memory>

namespace driftbench::platform {

/// Size of the window. `pixel_ratio` device pixels make one logical pixel.
struct WindowSize {
  float width = 0.0F;
  float height = 0.0F;
  float pixel_ratio = 1.0F;
};

class Window {
 public:
  /// Opens the window and makes the Dear ImGui context.
  ///
  /// Errors: kUnsupported with the reason when there is no window or no OpenGL ES 3 context
  [[nodiscard]] static base::Result<std::unique_ptr<Window>> open(const char* title);

  ~Window();
  Window(const Window&) = delete;
  Window& operator=(const Window&) = delete;

  /// Takes waiting events. Returns whether the picture may have to change.
  bool pump();

  /// Input that Dear ImGui still holds back for later frames.
  [[nodiscard]] bool has_queued_input() const;

  [[nodiscard]] bool wants_to_close() const;
  [[nodiscard]] WindowSize size() const;

  void begin_frame();                                  ///< between these two the interface draws
  void end_frame(float red, float green, float blue);  ///< clears, draws the interface, presents

  void renew_fonts();       ///< the font atlas was built anew; outside a frame
  void restore_graphics();  ///< after a lost context: rebuilds what Dear ImGui keeps in it

 private:
  Window();
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace driftbench::platform
