// What an author's text is held against while it is written: the reader's findings, and the files
// it names.
#pragma once

#include "lesson/lesson_set.h"
#include "lesson/specimen_case.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::lesson {

/// A text as the reader sees it.
struct AuthoredText {
  std::string kind;       ///< "lesson", "set", "kit", "specimen"; "" for anything else
  std::string id;         ///< "" when the text is refused
  std::string canonical;  ///< in the layout of our files; "" when the text is refused
  std::string sha256;     ///< of `canonical`
  std::vector<base::Problem> problems;

  [[nodiscard]] bool is_good() const;
};

/// The files that lessons and sets may name.
class Authoring {
 public:
  /// Reads the text; when it can be read, other texts may name it from now on, and one with the
  /// same id is replaced. "format" inside says what it is. Beyond what the reader finds, the blocks
  /// of a lesson are held against its kit and its pieces of jaw, and the entries of a set against
  /// their lessons: such findings have the path of the block or entry.
  AuthoredText take(std::string_view text, std::string_view file_name);

 private:
  void hold_lesson(const Lesson& lesson, std::string_view text, AuthoredText& about) const;
  void hold_set(const LessonSet& set, std::string_view text, AuthoredText& about) const;

  std::map<std::string, Lesson, std::less<>> lessons_;
  std::map<std::string, specimen::Kit, std::less<>> kits_;
  std::map<std::string, SpecimenCase, std::less<>> cases_;
};

/// As JSON: kind, id, sha256, text (canonical, or null), problems.
[[nodiscard]] std::string write_authored(const AuthoredText& about);

}  // namespace driftbench::lesson
