#include "lesson/device_check.h"

#include "lesson/rule_words.h"
#include "lesson/sequence_evidence.h"
#include "lesson/sequence_feedback.h"

#include <algorithm>

namespace driftbench::lesson {

std::optional<Device> device_of(std::string_view word) {
  if (word == kKeysWord) {
    return Device::kMouse;
  }
  const auto* const found = std::find_if(kDeviceWords.begin(), kDeviceWords.end(),
                                         [&](const auto& entry) { return entry.name == word; });
  return found != kDeviceWords.end() ? std::optional(found->value) : std::nullopt;
}

bool is_device_checked(const Lesson& check, std::span<const DeviceAttempt> history, Device now) {
  const Criterion& criterion = check.criterion;
  return std::all_of(check.blocks.begin(), check.blocks.end(), [&](const LessonBlock& block) {
    const auto& counting = criterion.blocks;
    if (!counting.empty() &&
        std::find(counting.begin(), counting.end(), block.id) == counting.end()) {
      return true;
    }
    return block.attempts <=
           std::count_if(history.begin(), history.end(), [&](const DeviceAttempt& made) {
             return made.device == now && made.attempt->lesson_id == check.id &&
                    made.attempt->block_id == block.id &&
                    mark_of(*made.attempt, check.tolerance, criterion).is_good;
           });
  });
}

DeviceHurdle device_hurdle(const DevicePolicy& policy, Device now, std::optional<Device> before,
                           bool is_checked) {
  if (!is_device_welcome(policy, now, before)) {
    return DeviceHurdle::kOtherDevice;
  }
  return policy.check == DeviceCheck::kRequired && !is_checked ? DeviceHurdle::kCheckFirst
                                                               : DeviceHurdle::kNone;
}

}  // namespace driftbench::lesson
