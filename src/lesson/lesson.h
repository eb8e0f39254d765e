// A lesson: what is practised, in which order, what is shown, what counts as inside.
#pragma once

#include "base/json_reader.h"
#include "base/result.h"
#include "lesson/attempt_setup.h"
#include "lesson/lesson_rules.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::lesson {

/// The text in `language`, or in English.
[[nodiscard]] const std::string& text_in(const LocalText& text, const std::string& language);

/// One block of attempts that share specimen, approach and rules.
struct LessonBlock {
  std::string id;
  LocalText title;
  std::string site = "centre";  ///< name of the site in tables; in a jaw "centre" is the tooth
  specimen::Approach approach = specimen::Approach::kFreehand;
  bool implant_through_guide = false;
  bool place_implant = false;  ///< attempts end with the planned implant in the block
  int attempts = 1;
  std::string case_id;           ///< the piece of jaw that is drilled; empty: the block below
  specimen::BlockSpec specimen;  ///< of no meaning where a case is named
  specimen::Plan plan;
  std::optional<specimen::Guide> guide;
  Visibility show;
  EstimatePlan estimate;
  FeedbackPlan feedback;
  std::optional<WorkedExample> example;
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
  OrderPlan order;
  Criterion criterion;
  DevicePolicy device;
  std::optional<Prediction> prediction;
  std::string sha256;  ///< of the exact bytes read
};

/// A parsed file and what was noticed in it. `value` is empty when any problem is an error.
template <typename T>
struct ReadOutcome {
  std::optional<T> value;
  std::vector<base::Problem> problems;
  std::string file_name;  ///< as the caller named it, for sentences

  /// The first error as a sentence "file:line:column: path: found X, expected Y"; "" when none.
  [[nodiscard]] std::string first_error() const {
    for (const base::Problem& problem : problems) {
      if (problem.severity == base::Problem::Severity::kError) {
        return problem.sentence(file_name);
      }
    }
    return {};
  }
};

/// Reads a lesson file. Unknown fields are warnings; wrong types, ranges, an unknown major version,
/// or text that is no JSON are errors with line, column, what was found and what was expected.
[[nodiscard]] ReadOutcome<Lesson> read_lesson(std::string_view text, std::string_view file_name);

/// Text of a lesson file, version 1; read_lesson() of it gives the same lesson (but for `sha256`).
[[nodiscard]] std::string write_lesson(const Lesson& lesson);

/// Reads a kit file; same rules.
[[nodiscard]] ReadOutcome<specimen::Kit> read_kit(std::string_view text,
                                                  std::string_view file_name);

/// Largest seed of a lesson or on a command line: 2^53 - 1, exact in every JSON reader.
inline constexpr std::uint64_t kMaxSeed = (std::uint64_t{1} << 53U) - 1U;

/// The set-up of attempt `attempt_index` (0-based, within the approach) of `block_index`.
///
/// `jaw` is the case that the block names (LessonBlock::case_id); the same for others.
/// Errors: kOutOfRange for an index the lesson does not have; kMismatch when the kit lacks an
///         instrument that the lesson names, or when `jaw` is not its case; kInvalidArgument when
///         the planned hole does not lie in the bone
[[nodiscard]] base::Result<AttemptSetup> resolve(const Lesson& lesson, const specimen::Kit& kit,
                                                 std::size_t block_index,
                                                 std::uint64_t attempt_index,
                                                 std::optional<std::uint64_t> seed_override,
                                                 const specimen::JawSite* jaw = nullptr);

}  // namespace driftbench::lesson
