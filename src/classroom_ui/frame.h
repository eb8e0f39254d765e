// What every panel of the Classroom works with in one frame, and the panels.
#pragma once

#include "classroom_ui/action.h"
#include "classroom_ui/model.h"

#include "classroom/picture.h"
#include "ui/canvas.h"
#include "ui/layout.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace driftbench::classroom_ui {

/// Pages of a class, in reading order.
enum class Page : std::uint8_t {
  kCollected,
  kGrid,
  kBiasMap,
  kSmallTargets,
  kPooledTarget,
  kPairs,
  kCurves,
  kEstimates,
  kEvents,
  kHoleSizes,
  kExperiment,
  kReplay,
  kFiles,
  kCount
};

inline constexpr std::size_t kPageCount = static_cast<std::size_t>(Page::kCount);

/// Interface state that lives from frame to frame.
struct State {
  Page page = Page::kGrid;
  bool is_one_at_a_time = false;
  bool shows_details = false;
  bool is_start_over_armed = false;
  /// Pictures of one page and source, drawn once.
  std::optional<std::pair<Page, classroom::Source>> pictured;
  std::vector<classroom::Picture> pictures;
};

struct Frame : ui::Canvas {
  const Model& model;
  State& state;
  Actions& actions;

  template <class T>
  void emit(T action) {
    actions.emplace_back(std::move(action));
  }
};

/// The part of the class that is shown: of the chosen source, else the first; null: nothing left.
[[nodiscard]] const classroom::Part* shown_part(const Frame& frame);

/// Heading of a page.
[[nodiscard]] std::string_view page_title(Page page);

void empty_page(Frame& frame, const ui::Rect& page);
void class_page(Frame& frame, const ui::Rect& page);

void filter_row(Frame& frame, const ui::Rect& row);
void task_row(Frame& frame, const ui::Rect& row);

/// Chart of a page with heading and caption.
void chart_page(Frame& frame, const ui::Rect& room);
void collected_page(Frame& frame, const ui::Rect& room);
void events_page(Frame& frame, const ui::Rect& room);
void experiment_page(Frame& frame, const ui::Rect& room);
void replay_page(Frame& frame, const ui::Rect& room);
void files_page(Frame& frame, const ui::Rect& room);
void statistics_panel(Frame& frame, const ui::Rect& room);

}  // namespace driftbench::classroom_ui
