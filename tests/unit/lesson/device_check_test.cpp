// What a lesson asks of the device: kinds, one for all, a check beforehand.
#include "lesson/device_check.h"

#include "support/read_file.h"

#include <gtest/gtest.h>

namespace driftbench::lesson {
namespace {

Lesson check_lesson() {
  const std::string id(kDeviceCheckLesson);
  return read_lesson(support::read_file("lessons/" + id + ".lesson.json"), id).value.value();
}

// A hole of the check, its depth off by so much.
PastAttempt hole(const Lesson& check, std::size_t block, double depth_mm) {
  PastAttempt made;
  made.lesson_id = check.id;
  made.block_id = check.blocks[block].id;
  made.errors = AttemptErrors{0.2, 0.3, 1.0, depth_mm};
  return made;
}

TEST(DeviceCheck, TheCheckThatShipsHasABlockThatCounts) {
  const Lesson check = check_lesson();
  EXPECT_EQ(check.criterion.blocks, std::vector<std::string>{"without-help"});
  EXPECT_EQ(check.device.check, DeviceCheck::kNone) << "it must not ask for itself";
}

TEST(DeviceCheck, IsPassedByAsManyGoodHolesAsPlannedWithThisDevice) {
  const Lesson check = check_lesson();
  const PastAttempt good = hole(check, 1, 0.1);
  const PastAttempt bad = hole(check, 1, check.tolerance.depth_high_mm + 0.1);
  const PastAttempt helped = hole(check, 0, 0.0);
  PastAttempt elsewhere = good;
  elsewhere.lesson_id = "find-the-centre";
  ASSERT_EQ(check.blocks[1].attempts, 2);
  std::vector<DeviceAttempt> history{{&good, Device::kMouse},
                                     {&bad, Device::kMouse},
                                     {&helped, Device::kMouse},
                                     {&elsewhere, Device::kMouse},
                                     {&good, std::nullopt}};
  EXPECT_FALSE(is_device_checked(check, history, Device::kMouse)) << "one good hole of two";
  history.push_back({&good, Device::kTouch});
  EXPECT_FALSE(is_device_checked(check, history, Device::kMouse)) << "that was another device";
  history.push_back({&good, Device::kMouse});
  EXPECT_TRUE(is_device_checked(check, history, Device::kMouse));
  EXPECT_FALSE(is_device_checked(check, history, Device::kTouch));
  history.push_back({&bad, Device::kMouse});
  EXPECT_TRUE(is_device_checked(check, history, Device::kMouse)) << "what was passed stays passed";
}

TEST(DeviceCheck, StandsInTheWayOnlyWhereItIsRequired) {
  DevicePolicy policy;
  EXPECT_EQ(device_hurdle(policy, Device::kMouse, {}, false), DeviceHurdle::kNone);
  policy.check = DeviceCheck::kAdvised;
  EXPECT_EQ(device_hurdle(policy, Device::kMouse, {}, false), DeviceHurdle::kNone);
  policy.check = DeviceCheck::kRequired;
  EXPECT_EQ(device_hurdle(policy, Device::kMouse, {}, false), DeviceHurdle::kCheckFirst);
  EXPECT_EQ(device_hurdle(policy, Device::kMouse, {}, true), DeviceHurdle::kNone);
  // A device that is not taken need not be checked.
  policy.allow = {Device::kPen};
  EXPECT_EQ(device_hurdle(policy, Device::kMouse, {}, false), DeviceHurdle::kOtherDevice);
  policy.allow.clear();
  policy.one_per_lesson = true;
  EXPECT_EQ(device_hurdle(policy, Device::kMouse, Device::kTouch, true),
            DeviceHurdle::kOtherDevice);
}

TEST(DeviceCheck, KnowsTheWordsThatAttemptsKeep) {
  EXPECT_EQ(device_of("touch"), Device::kTouch);
  EXPECT_EQ(device_of("pad"), Device::kPad);
  EXPECT_EQ(device_of("virtual"), std::nullopt);
  EXPECT_EQ(device_of(""), std::nullopt);
}

}  // namespace
}  // namespace driftbench::lesson
