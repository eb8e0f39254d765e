// A lesson: what is practised, in which order, what is shown, what counts as inside.
#pragma once

#include "base/json_reader.h"
#include "base/result.h"
#include "lesson/attempt_setup.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::lesson {

/// Text by language code; "en" is always present.
using LocalText = std::map<std::string, std::string>;

/// The text in `language`, or in English.
[[nodiscard]] const std::string& text_in(const LocalText& text, const std::string& language);

/// One block of attempts that share specimen, approach and rules.
struct LessonBlock {
  std::string id;
  LocalText title;
  specimen::Approach approach = specimen::Approach::kFreehand;
  bool implant_through_guide = false;
  int attempts = 1;
  specimen::BlockSpec specimen;
  specimen::Plan plan;
  std::optional<specimen::Guide> guide;
  Visibility show;
  bool ask_estimate = true;
};

struct Lesson {
  std::string id;
  std::string revision;
  LocalText title;
  LocalText question;
  std::vector<LocalText> objectives;
  std::vector<LocalText> common_mistakes;
  LocalText not_taught;
  LocalText teacher_notes;
  int minutes = 10;
  std::uint64_t seed = 0;
  std::string kit_id;
  scoring::Tolerance tolerance;
  std::vector<LessonBlock> blocks;
  std::string sha256;  ///< of the exact bytes read
};

/// A parsed file and what was noticed in it. `value` is empty when any problem is an error.
template <typename T>
struct ReadOutcome {
  std::optional<T> value;
  std::vector<base::Problem> problems;
};

/// Reads a lesson file. Unknown fields are warnings; wrong types, ranges, an unknown major version,
/// or text that is no JSON are errors with line, column, what was found and what was expected.
[[nodiscard]] ReadOutcome<Lesson> read_lesson(std::string_view text, std::string_view file_name);

/// Reads a kit file; same rules.
[[nodiscard]] ReadOutcome<specimen::Kit> read_kit(std::string_view text, std::string_view file_name);

/// The set-up of attempt `attempt_index` (0-based) of `block_index`.
///
/// Errors: kOutOfRange for an index the lesson does not have; kMismatch when the kit lacks an
///         instrument that the lesson names
[[nodiscard]] base::Result<AttemptSetup> resolve(const Lesson& lesson, const specimen::Kit& kit,
                                                 std::size_t block_index, std::uint64_t attempt_index,
                                                 std::optional<std::uint64_t> seed_override);

}  // namespace driftbench::lesson
