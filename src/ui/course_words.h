// How sets and lessons stand, in words.
#pragma once

#include "ui/course_model.h"
#include "ui/strings.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::ui {

/// "3 days", "5 hours", "less than an hour"; days are rounded up.
[[nodiscard]] std::string wait_words(double days);

/// How a lesson stands: "Passed", "Opens in 2 days" ...
[[nodiscard]] std::string state_words(const ShelfLesson& shown);

/// What to press to go on in a lesson: "Go on: Free-hand, hole 2 of 3".
[[nodiscard]] std::string task_words(const ShelfLesson& shown);

[[nodiscard]] Str measure_name(lesson::Measure measure);

/// When a lesson is passed and where the line comes from, a sentence each.
[[nodiscard]] std::vector<std::string> pass_words(const lesson::Lesson& shown);

[[nodiscard]] std::string_view device_name(lesson::Device device);

/// Which devices the lesson still takes: "mouse, pen".
[[nodiscard]] std::string devices_words(const lesson::DevicePolicy& policy,
                                        std::optional<lesson::Device> before);

/// What a lesson asks of the device and how the one in hand stands; nothing: it asks for nothing.
/// `check_title`: of the lesson that checks a device.
[[nodiscard]] std::vector<std::string> device_words(const lesson::DevicePolicy& policy,
                                                    const DeviceView& device,
                                                    std::string_view check_title);

/// What is shown after the attempts of a block.
[[nodiscard]] std::string feedback_words(const lesson::LessonBlock& block);

}  // namespace driftbench::ui
