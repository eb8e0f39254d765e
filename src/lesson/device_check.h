// Which device a lesson takes, and whether the device was checked before it.
#pragma once

#include "lesson/lesson.h"
#include "lesson/past_attempt.h"

#include <optional>
#include <span>
#include <string_view>

namespace driftbench::lesson {

/// The lesson that checks a device: shallow holes held to their depth.
inline constexpr std::string_view kDeviceCheckLesson = "first-holes";

/// The word that attempts made step by step, by keys alone, keep: to a lesson they are a mouse's.
inline constexpr std::string_view kKeysWord = "keys";

/// The device by the word that attempts keep; none: nobody's hand, as "virtual".
[[nodiscard]] std::optional<Device> device_of(std::string_view word);

/// A stored attempt with the device that it was made with.
struct DeviceAttempt {
  const PastAttempt* attempt = nullptr;
  std::optional<Device> device;
};

/// Whether `now` passed the check: in every block that counts for the criterion of `check` (in
/// every block where it names none) as many good attempts as are planned were made with it,
/// whenever that was.
[[nodiscard]] bool is_device_checked(const Lesson& check, std::span<const DeviceAttempt> history,
                                     Device now);

/// What stands between a device and a lesson.
enum class DeviceHurdle { kNone, kOtherDevice, kCheckFirst };

/// `before`: device of the attempts so far.
[[nodiscard]] DeviceHurdle device_hurdle(const DevicePolicy& policy, Device now,
                                         std::optional<Device> before, bool is_checked);

}  // namespace driftbench::lesson
