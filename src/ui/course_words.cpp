// How sets and lessons stand, in words.
#include "ui/course_words.h"

#include "base/text.h"
#include "ui/panels.h"
#include "ui/strings.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::ui {

namespace {

std::string count(std::size_t number) {
  return std::to_string(number);
}

std::string joined(const std::vector<std::string>& words) {
  return base::join(words, ", ");
}

}  // namespace

std::string wait_words(double days) {
  constexpr double kHoursPerDay = 24.0;
  if (days * kHoursPerDay < 1.0) {
    return std::string(tr(Str::kLessThanAnHour));
  }
  if (days < 1.0) {
    return say(Str::kHours, count(static_cast<std::size_t>(std::ceil(days * kHoursPerDay))));
  }
  const auto whole = static_cast<std::size_t>(std::ceil(days));
  return whole == 1 ? std::string(tr(Str::kOneDay)) : say(Str::kDays, count(whole));
}

std::string state_words(const ShelfLesson& shown) {
  using lesson::LessonState;
  std::string words;
  switch (shown.state) {
    case LessonState::kNotBegun:
      return std::string(tr(Str::kStateNotBegun));
    case LessonState::kWaiting:
      return shown.wait_days.has_value() ? say(Str::kStateOpensIn, wait_words(*shown.wait_days))
                                         : std::string(tr(Str::kStateWaits));
    case LessonState::kGoingOn: {
      int done = 0;
      int all = 0;
      for (std::size_t i = 0; i < shown.lesson->blocks.size(); ++i) {
        done += shown.done_per_block[i];
        all += std::max(shown.done_per_block[i], shown.lesson->blocks[i].attempts);
      }
      return say(Str::kStateGoingOn, std::to_string(done), std::to_string(all));
    }
    case LessonState::kDueAgain:
      return std::string(tr(Str::kStateDue));
    case LessonState::kNotPassed:
      return std::string(tr(Str::kStateNotPassed));
    case LessonState::kFinished:
      words = tr(Str::kStateFinished);
      break;
    case LessonState::kPassed:
      words = tr(Str::kStatePassed);
      break;
  }
  return shown.wait_days.has_value() ? say(Str::kStateBackIn, words, wait_words(*shown.wait_days))
                                     : words;
}

std::string task_words(const ShelfLesson& shown) {
  if (!shown.next.has_value()) {
    return std::string(tr(Str::kTaskNone));
  }
  const lesson::Step& step = shown.next->step;
  const std::string block = in_language(shown.lesson->blocks[step.block_index].title);
  if (step.is_extra) {
    return say(Str::kTaskExtra, block);
  }
  const Str name = shown.next->is_retention                       ? Str::kTaskKeep
                   : shown.state == lesson::LessonState::kGoingOn ? Str::kTaskGoOn
                                                                  : Str::kTaskBegin;
  return say(name, block, count(step.place + 1), count(step.planned));
}

Str measure_name(lesson::Measure measure) {
  constexpr std::array kNames{Str::kMeasureEntry, Str::kMeasureApex, Str::kMeasureAxis,
                              Str::kMeasureDepth};
  return kNames[static_cast<std::size_t>(measure)];
}

std::vector<std::string> pass_words(const lesson::Lesson& shown) {
  const lesson::Criterion& criterion = shown.criterion;
  std::vector<std::string> measures;
  for (const lesson::Measure measure : criterion.measures) {
    measures.emplace_back(tr(measure_name(measure)));
  }
  std::vector<std::string> lines;
  switch (criterion.rule) {
    case lesson::PassRule::kNone:
      lines.emplace_back(tr(Str::kPassNone));
      break;
    case lesson::PassRule::kAllOf:
      lines.push_back(say(Str::kPassAll, joined(measures)));
      break;
    case lesson::PassRule::kOfLast:
      lines.push_back(say(Str::kPassLast, std::to_string(criterion.good),
                          std::to_string(criterion.last), joined(measures),
                          std::to_string(criterion.cap)));
      break;
    case lesson::PassRule::kLearningEvidence:
      lines.push_back(say(Str::kPassEvidence, joined(measures), std::to_string(criterion.cap)));
      break;
  }
  std::vector<std::string> counted;
  for (const lesson::LessonBlock& block : shown.blocks) {
    const auto& named = criterion.blocks;
    if (std::find(named.begin(), named.end(), block.id) != named.end()) {
      counted.push_back(in_language(block.title));
    }
  }
  if (!counted.empty()) {
    lines.push_back(say(Str::kPassCounts, joined(counted)));
  }
  constexpr std::array kEvents{Str::kEventPastDepth, Str::kEventPlunge, Str::kEventMargin,
                               Str::kEventTouched, Str::kEventPlate};
  std::vector<std::string> events;
  for (const lesson::CriticalEvent event : criterion.never) {
    events.emplace_back(tr(kEvents[static_cast<std::size_t>(event)]));
  }
  if (!events.empty()) {
    lines.push_back(say(Str::kPassNever, joined(events)));
  }
  if (const std::string& source = in_language(criterion.standard.source); !source.empty()) {
    lines.push_back(source);
  }
  return lines;
}

std::string_view device_name(lesson::Device device) {
  constexpr std::array kNames{Str::kDeviceMouse, Str::kDevicePen, Str::kDeviceTouch,
                              Str::kDevicePad};
  return tr(kNames[static_cast<std::size_t>(device)]);
}

std::string devices_words(const lesson::DevicePolicy& policy,
                          std::optional<lesson::Device> before) {
  if (policy.one_per_lesson && before.has_value()) {
    return std::string(device_name(*before));
  }
  std::vector<std::string> names;
  for (const lesson::Device device : policy.allow) {
    names.emplace_back(device_name(device));
  }
  return joined(names);
}

std::vector<std::string> device_words(const lesson::DevicePolicy& policy, const DeviceView& device,
                                      std::string_view check_title) {
  std::vector<std::string> lines;
  if (policy == lesson::DevicePolicy{}) {
    return lines;
  }
  if (const std::string names = devices_words(policy, device.before); !names.empty()) {
    lines.push_back(say(Str::kDeviceOnly, names));
  }
  if (policy.one_per_lesson) {
    lines.emplace_back(tr(Str::kDeviceOne));
  }
  const bool has_check = policy.check != lesson::DeviceCheck::kNone && device.check.has_value();
  if (has_check) {
    lines.push_back(say(
        policy.check == lesson::DeviceCheck::kRequired ? Str::kCheckRequired : Str::kCheckAdvised,
        std::string(check_title)));
  }
  lines.push_back(say(Str::kDeviceNow, std::string(device_name(device.now))));
  if (has_check) {
    lines.back() += ' ';
    lines.back() += tr(device.is_checked ? Str::kCheckDone : Str::kCheckOpen);
  }
  return lines;
}

std::string feedback_words(const lesson::LessonBlock& block) {
  constexpr std::array kKinds{Str::kFeedTerminal, Str::kFeedFading, Str::kFeedBand,
                              Str::kFeedSummary};
  const std::string_view between =
      tr(block.feedback.between == lesson::Between::kInOrOut ? Str::kBetweenInOut
                                                             : Str::kBetweenNothing);
  return say(kKinds[static_cast<std::size_t>(block.feedback.kind)], in_language(block.title),
             between);
}

}  // namespace driftbench::ui
