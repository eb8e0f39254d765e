// What holds the drill: readings of pointers and gamepads, the device that a record names, and
// which hand and pace are kept.
#include "app/app.h"
#include "app/devices.h"
#include "lesson/device_check.h"
#include "lesson/rule_words.h"
#include "platform/host.h"
#include "platform/input.h"
#include "ui/strings.h"

#include <algorithm>

namespace driftbench::app {

std::string App::device_name() const {
  const lesson::Device device = device_in_hand();
  const bool has_keys = device == lesson::Device::kMouse && model_.step_by_step;
  return std::string(has_keys ? lesson::kKeysWord : base::name_of(lesson::kDeviceWords, device));
}

// Attempts that are to be compared are made with the same hand, in the same time.
bool App::is_hand_kept() const {
  if (!place_.has_value() || !course_.lesson(*place_).device.one_per_lesson) {
    return false;
  }
  const bool has_begun = bench_ != nullptr && !session_->trace().empty();
  return has_begun || std::any_of(saved_.begin(), saved_.end(), [this](const SavedEntry& entry) {
           return entry.shown.lesson_id == course_.lesson(*place_).id;
         });
}

bool App::is_foreign(platform::PointerDevice device) const {
  return bench_ != nullptr && model_.is_hand_kept &&
         device_of(device) != lesson::device_of(about_.device);
}

void App::read_devices() {
  model_.pointers.clear();
  for (const platform::PointerTrack& track : platform::take_pointer_track()) {
    const platform::PointerSample& sample = track.sample;
    if (is_foreign(sample.device)) {
      if (sample.phase == platform::PointerPhase::kDown) {
        notify(std::string(ui::tr(ui::Str::kHandKept)), false);
      }
      continue;
    }
    ui::PointerReading& reading = model_.pointers.emplace_back();
    reading.pointer_id = sample.pointer_id;
    reading.x_px = static_cast<double>(sample.x);
    reading.y_px = static_cast<double>(sample.y);
    reading.left = track.left;
    reading.right = track.right;
    reading.began = sample.phase == platform::PointerPhase::kDown;
    reading.cancelled = sample.phase == platform::PointerPhase::kCancel;
    if (sample.device == platform::PointerDevice::kPen) {
      reading.pen = {static_cast<double>(sample.pressure), static_cast<double>(sample.tilt_x_deg),
                     static_cast<double>(sample.tilt_y_deg)};
    }
  }
}

void App::read_pad() {
  const platform::PadSample pad = platform::take_pad_sum();
  model_.pad = {};
  if (!is_foreign(platform::PointerDevice::kPad)) {
    model_.pad = {{static_cast<double>(pad.move_right_s), static_cast<double>(pad.move_away_s)},
                  {static_cast<double>(pad.lean_right_s), static_cast<double>(pad.lean_away_s)},
                  static_cast<double>(pad.trigger)};
  }
}

void App::toggle_left_hand() {
  if (is_hand_kept()) {
    return;
  }
  model_.left_handed = !model_.left_handed;
  platform::remember("hand", model_.left_handed ? "left" : "right");
}

void App::toggle_steps() {
  if (is_hand_kept()) {
    return;
  }
  model_.step_by_step = !model_.step_by_step;
  platform::remember("steps", model_.step_by_step ? "1" : "0");
  if (bench_ != nullptr && model_.step_by_step) {
    about_.device = lesson::kKeysWord;  // an attempt in which time once waited stays one
  }
}

}  // namespace driftbench::app
