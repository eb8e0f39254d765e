// Short sentences for people who hear the page: contact, depth reached, the result.
#pragma once

#include "session/view.h"
#include "ui/model.h"
#include "ui/motor_sound.h"
#include "ui/strings.h"

#include <cstddef>
#include <string>

namespace driftbench::app {

class Announcer {
 public:
  /// Speaks when something worth a sentence has changed since the last frame.
  void frame(const ui::Model& model);

 private:
  void say(ui::Str sentence);
  void say(std::string sentence);
  void bench(const ui::Model& model);
  void example(const ui::Model& model);

  ui::Screen screen_ = ui::Screen::kShelf;
  bool has_screen_ = false;
  bool waits_ = false;  // before feedback is shown
  bool in_contact_ = false;
  bool at_depth_ = false;
  bool was_running_ = false;  // time, step by step
  bool at_stop_ = false;
  ui::Listener listener_;
  std::size_t remarks_said_ = 0;
  std::string notice_;
  std::string said_;
};

}  // namespace driftbench::app
