// Sets, lessons and the own record as shelf, lesson page and logbook show them.
#pragma once

#include "lesson/device_check.h"
#include "lesson/own_record.h"
#include "lesson/standing.h"
#include "scoring/results.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::ui {

/// Where a lesson stands on the shelf.
struct Place {
  std::size_t set = 0;
  std::size_t entry = 0;

  friend bool operator==(const Place&, const Place&) = default;
};

/// A lesson on the shelf: how it stands and what to do in it.
struct ShelfLesson {
  const lesson::Lesson* lesson = nullptr;
  lesson::LessonState state = lesson::LessonState::kNotBegun;
  std::vector<int> done_per_block;  ///< in the round that runs, else in the last one
  std::optional<lesson::LessonTask> next;
  std::optional<double> wait_days;  ///< until it opens or comes back; none: nothing to wait for
  double evidence = 0.0;            ///< toward the criterion, 0 to 1
  bool is_choice_free = false;      ///< any block may be taken
};

/// The device in hand, for what the open lesson asks of it.
struct DeviceView {
  lesson::Device now = lesson::Device::kMouse;
  std::optional<lesson::Device> before;  ///< of the attempts so far in this lesson
  std::optional<Place> check;  ///< the lesson that checks a device, where one is asked for
  bool is_checked = true;      ///< `now` passed it, or it is not here
};

/// A set on the shelf. Without `set` these are lessons on their own.
struct ShelfSet {
  const lesson::LessonSet* set = nullptr;
  std::vector<ShelfLesson> lessons;
  std::optional<std::size_t> next;  ///< entry to do now
  std::optional<double> wait_days;
  bool is_finished = false;
};

/// A file that was opened and is kept.
struct OpenedFile {
  std::string name;  ///< under which it is kept
  std::string title;
};

/// A lesson with own attempts.
struct LogbookLesson {
  std::string id;
  std::string title;
};

/// The own record in one lesson.
struct LogbookView {
  std::vector<LogbookLesson> lessons;  ///< that have attempts
  std::size_t chosen = 0;
  const lesson::AttemptSetup* site = nullptr;  ///< gives the words for directions
  std::vector<double> evidence;                ///< after each attempt of the round, 0 to 1
  std::optional<lesson::Weakness> weakness;
  std::optional<Place> trainer;  ///< the lesson that trains the weakest part
};

}  // namespace driftbench::ui
