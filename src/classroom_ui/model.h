// Everything the Classroom's screens may show in one frame. Built by desk/, read by the panels.
#pragma once

#include "classroom/compile.h"
#include "classroom/filters.h"
#include "ui/model.h"

#include <cstddef>
#include <string>
#include <vector>

namespace driftbench::classroom_ui {

/// How far a long task is.
struct Task {
  std::size_t done = 0;
  std::size_t total = 0;
  bool is_running = false;

  [[nodiscard]] bool is_complete() const { return done >= total; }

  [[nodiscard]] double fraction() const {
    return total == 0 ? 1.0 : static_cast<double>(done) / static_cast<double>(total);
  }
};

struct Model {
  const classroom::Roster* roster = nullptr;          ///< all that was collected; null: nothing yet
  const classroom::Class* whole = nullptr;            ///< what the filters leave, compiled
  const std::vector<std::string>* devices = nullptr;  ///< that the records name
  classroom::Filters filters;
  Task reading;   ///< files
  Task checking;  ///< attempts being repeated
  bool is_demo = false;
  bool has_names = false;  ///< the instructor gave a list
  bool are_names_hidden = false;
  ui::Theme theme = ui::Theme::kDark;
  bool is_touch = false;
  std::string notice;
  bool notice_is_error = false;
};

}  // namespace driftbench::classroom_ui
