// The lessons, sets and kits the app knows: those that came with it and those that were opened.
#pragma once

#include "base/result.h"
#include "lesson/lesson.h"
#include "lesson/lesson_set.h"
#include "lesson/specimen_case.h"

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::app {

class Library {
 public:
  /// Reads the kits and lessons that came with the app. Returns the first problem as a sentence, or
  /// nothing.
  [[nodiscard]] std::string load_own();

  /// Reads the pieces of jaw that lessons name and that are not known yet; the same.
  [[nodiscard]] std::string load_cases();

  /// Adds a lesson; one with the same id is replaced. Lessons keep their address once added.
  ///
  /// Errors: kParse with file, line, column, found and expected; kMismatch for an unknown kit
  [[nodiscard]] base::Result<std::size_t> add_lesson(std::string_view text,
                                                     std::string_view file_name);

  /// Adds a kit; one with the same id is replaced.
  ///
  /// Errors: kParse as above
  [[nodiscard]] base::Result<void> add_kit(std::string_view text, std::string_view file_name);

  /// Adds a piece of jaw; one with the same id is replaced.
  ///
  /// Errors: kParse as above
  [[nodiscard]] base::Result<void> add_case(std::string_view text, std::string_view file_name);

  /// Adds a set whose lessons are all known; one with the same id is replaced. Sets keep their
  /// address once added.
  ///
  /// Errors: kParse as above; kMismatch for a lesson that is not known or does not fit its entry
  [[nodiscard]] base::Result<std::size_t> add_set(std::string_view text,
                                                  std::string_view file_name);

  [[nodiscard]] const std::vector<std::unique_ptr<lesson::LessonSet>>& sets() const {
    return sets_;
  }

  [[nodiscard]] const std::vector<std::unique_ptr<lesson::Lesson>>& lessons() const {
    return lessons_;
  }

  [[nodiscard]] const std::vector<specimen::Kit>& kits() const { return kits_; }

  /// The position of the lesson, or nothing.
  [[nodiscard]] std::optional<std::size_t> find_lesson(std::string_view id) const;
  [[nodiscard]] const specimen::Kit* find_kit(std::string_view id) const;

  /// The piece of jaw of that id; null for none, and for the empty id of a block of foam.
  [[nodiscard]] const lesson::SpecimenCase* find_case(std::string_view id) const;

 private:
  std::vector<std::unique_ptr<lesson::Lesson>> lessons_;
  std::vector<std::unique_ptr<lesson::LessonSet>> sets_;
  std::vector<specimen::Kit> kits_;
  std::vector<lesson::SpecimenCase> cases_;
};

/// The first error of a reading as a sentence with its place; without errors the first warning.
[[nodiscard]] std::string first_problem(const std::vector<base::Problem>& problems,
                                        std::string_view file_name);

}  // namespace driftbench::app
