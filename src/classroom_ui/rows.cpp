// The rows under the bar: filters, and how far reading and repeating are.
#include "classroom_ui/frame.h"
#include "classroom_ui/strings.h"

#include "ui/bars.h"

#include <algorithm>
#include <array>

namespace driftbench::classroom_ui {
namespace {

using classroom::Filters;
using classroom::Source;
using classroom::Window;
using stats::Approach;
using ui::Button;
using ui::ButtonKind;
using ui::Rect;

/// A button at the left of a row; shortens the row.
bool row_button(Frame& frame, Rect& row, const Button& spec) {
  const Rect slot = ui::cut_left(row, ui::button_width(frame, spec));
  ui::cut_left(row, frame.px(ui::kGapSmall_px));
  const float height = frame.px(ui::kButtonSmall_px);
  return ui::button(frame, {slot.x, slot.y + 0.5F * (slot.height - height), slot.width, height},
                    spec);
}

bool filter_button(Frame& frame, Rect& row, Str name, std::string_view value, const char* id) {
  Button spec{say(name, value)};
  spec.description = tr(Str::kFilterHelp);
  spec.id = id;
  return row_button(frame, row, spec);
}

/// Simulated and real holes are never shown together: the source is always one of the two.
Source shown_source(const Frame& frame) {
  const classroom::Part* part = shown_part(frame);
  return part != nullptr ? part->source : frame.model.filters.source.value_or(Source::kSimulated);
}

std::string_view approach_name(const Filters& filters) {
  return filters.approach.has_value()
             ? stats::kApproachNames[static_cast<std::size_t>(*filters.approach)]
             : tr(Str::kAll);
}

/// All, then each approach, then all again.
std::optional<Approach> next_approach(std::optional<Approach> now) {
  if (!now.has_value()) {
    return Approach::kFreehand;
  }
  const std::size_t next = static_cast<std::size_t>(*now) + 1;
  return next < stats::kApproachNames.size() ? std::optional(static_cast<Approach>(next))
                                             : std::nullopt;
}

std::string next_device(const std::vector<std::string>& devices, const std::string& now) {
  if (now.empty()) {
    return devices.empty() ? std::string() : devices.front();
  }
  const auto found = std::find(devices.begin(), devices.end(), now);
  return found == devices.end() || found + 1 == devices.end() ? std::string() : *(found + 1);
}

}  // namespace

void filter_row(Frame& frame, const Rect& strip) {
  Rect row = ui::inset(strip, frame.px(ui::kGap_px), 0.0F);
  const Filters& now = frame.model.filters;
  Filters next = now;
  const bool is_simulated = shown_source(frame) == Source::kSimulated;
  if (filter_button(frame, row, Str::kFilterSource,
                    tr(is_simulated ? Str::kSimulated : Str::kRealBlocks), "filter source")) {
    next.source = is_simulated ? Source::kBench : Source::kSimulated;
  }
  if (filter_button(frame, row, Str::kFilterApproach, approach_name(now), "filter approach")) {
    next.approach = next_approach(now.approach);
  }
  if (filter_button(frame, row, Str::kFilterDevice,
                    now.device.empty() ? tr(Str::kAll) : std::string_view(now.device),
                    "filter device")) {
    next.device = next_device(*frame.model.devices, now.device);
  }
  constexpr std::array kWindows{Str::kAll, Str::kEarly, Str::kLate};
  const auto window = static_cast<std::size_t>(now.window);
  if (filter_button(frame, row, Str::kFilterWindow, tr(kWindows[window]), "filter window")) {
    next.window = static_cast<Window>((window + 1) % kWindows.size());
  }
  if (now != Filters{}) {
    Button all{std::string(tr(Str::kNoFilters))};
    all.kind = ButtonKind::kQuiet;
    if (row_button(frame, row, all)) {
      next = Filters{};
    }
  }
  if (next != now) {
    frame.emit(SetFilters{std::move(next)});
  }
}

void task_row(Frame& frame, const Rect& strip) {
  ui::fill(frame, strip, frame.colors.surface, 0.0F);
  Rect row = ui::inset(strip, frame.px(ui::kGap_px), 0.0F);
  const Model& model = frame.model;
  const Task& task = model.reading.is_running ? model.reading : model.checking;
  const Str words = model.reading.is_running    ? Str::kReading
                    : model.checking.is_running ? Str::kChecking
                                                : Str::kCheckingStopped;
  const std::string sentence = say(words, task.done, task.total);
  ui::TextStyle style = ui::body(frame);
  style.role = ui::Role::kStatus;
  const float width = ui::text_size(frame.fonts.body, sentence).x + frame.px(ui::kGap_px);
  if (!model.reading.is_running) {
    Button stop{std::string(tr(task.is_running ? Str::kStop : Str::kGoOn))};
    stop.id = "checking";
    Rect bar = row;
    if (ui::bar_button(frame, bar, stop)) {
      if (task.is_running) {
        frame.emit(StopChecking{});
      } else {
        frame.emit(GoOnChecking{});
      }
    }
    row = bar;
  }
  ui::text_middle(frame, ui::cut_left(row, width), style, sentence);
  const float thick = frame.px(10.0F);
  ui::progress_track(frame,
                     {row.x, row.y + 0.5F * (row.height - thick),
                      std::max(thick, row.width - frame.px(ui::kGap_px)), thick},
                     task.fraction());
}

}  // namespace driftbench::classroom_ui
