// Which device is in hand, and whether the open lesson takes it.
#include "app/devices.h"

#include "app/app.h"
#include "lesson/device_check.h"
#include "lesson/rule_words.h"
#include "platform/input.h"
#include "ui/course_words.h"
#include "ui/language.h"
#include "ui/strings.h"

namespace driftbench::app {

lesson::Device device_of(platform::PointerDevice device) {
  switch (device) {
    case platform::PointerDevice::kTouch:
      return lesson::Device::kTouch;
    case platform::PointerDevice::kPen:
      return lesson::Device::kPen;
    case platform::PointerDevice::kPad:
      return lesson::Device::kPad;
    case platform::PointerDevice::kMouse:
      break;
  }
  return lesson::Device::kMouse;
}

lesson::Device device_in_hand() {
  return device_of(platform::pointer_state().device);
}

// How the device in hand stands to what the open lesson asks of it.
ui::DeviceView App::device_view() const {
  ui::DeviceView view;
  view.now = device_in_hand();
  if (!place_.has_value() || course_.lesson(*place_).device == lesson::DevicePolicy{}) {
    return view;
  }
  const lesson::Lesson& lesson = course_.lesson(*place_);
  std::vector<lesson::DeviceAttempt> history;
  for (const SavedEntry& entry : saved_) {
    history.push_back({&entry.past, lesson::device_of(entry.device)});
    if (entry.shown.lesson_id == lesson.id && history.back().device.has_value()) {
      view.before = history.back().device;
    }
  }
  // A check that asked for itself would never begin.
  if (lesson.device.check != lesson::DeviceCheck::kNone &&
      lesson.id != lesson::kDeviceCheckLesson) {
    view.check = course_.find(lesson::kDeviceCheckLesson, {place_->set, 0});
    view.is_checked = !view.check.has_value() ||
                      lesson::is_device_checked(course_.lesson(*view.check), history, view.now);
  }
  return view;
}

// Whether the open lesson takes the device in hand; says so where it does not. Authors try blocks
// out with any.
bool App::takes_device() {
  if (!place_.has_value() || launch_.trial_block.has_value()) {
    return true;
  }
  const lesson::DevicePolicy& policy = course_.lesson(*place_).device;
  const ui::DeviceView view = device_view();
  switch (lesson::device_hurdle(policy, view.now, view.before, view.is_checked)) {
    case lesson::DeviceHurdle::kNone:
      return true;
    case lesson::DeviceHurdle::kOtherDevice:
      notify(ui::say(ui::Str::kNotWelcome, ui::devices_words(policy, view.before)), false);
      return false;
    case lesson::DeviceHurdle::kCheckFirst:
      break;
  }
  notify(ui::say(ui::Str::kCheckRefused, ui::in_language(course_.lesson(*view.check).title),
                 std::string(ui::device_name(view.now))),
         false);
  return false;
}

}  // namespace driftbench::app
