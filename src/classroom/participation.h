// A record of taking part, for one attendee to keep: what was done, when and where. No certificate.
#pragma once

#include "lesson/lesson.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::classroom {

inline constexpr std::string_view kParticipationFormat = "driftbench-participation";
inline constexpr std::size_t kMaxParticipationBytes = std::size_t{1} << 20U;

/// How a lesson ended, as the learner's app or the instructor knows it.
enum class LessonResult : std::uint8_t { kNotAssessed, kMet, kNotMet };

inline constexpr std::array<std::string_view, 3> kLessonResults{"not-assessed", "met", "not-met"};

struct ParticipationLesson {
  std::string id;
  std::string title;
  std::string sha256;    ///< of the lesson file
  std::string revision;  ///< may be empty
  std::size_t attempts = 0;
  double engaged_s = 0.0;  ///< time in attempts
  LessonResult result = LessonResult::kNotAssessed;
};

/// Fields that boards commonly ask for: name, provider, title, dates, place, instructor, hours. The
/// hours are the provider's to fill in.
struct Participation {
  std::string record_id;
  std::string name;
  std::string code_name;
  std::string provider;
  std::string title;
  std::string dates;
  std::string place;
  std::string instructor;
  std::string hours;
  std::vector<std::string> objectives;
  std::string set_id;  ///< of lessons; may be empty
  std::string set_revision;
  std::vector<ParticipationLesson> lessons;

  [[nodiscard]] double engaged_min() const;
};

/// Reads the fields, as a page sends them or as participation_json() writes them (schema:
/// lessons/schema/participation.schema.json).
[[nodiscard]] lesson::ReadOutcome<Participation> read_participation(std::string_view text,
                                                                    std::string_view file_name);

[[nodiscard]] std::string participation_json(const Participation& participation);

/// One page to print, without scripts; what was not given is a line to write on.
[[nodiscard]] std::string participation_html(const Participation& participation);

}  // namespace driftbench::classroom
