// One's own result inside the band of a class, from a class summary that holds no individuals.
#pragma once

#include "classroom/entry.h"
#include "classroom/picture.h"
#include "lesson/lesson.h"
#include "stats/paired.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::classroom {

inline constexpr std::size_t kMaxSummaryBytes = std::size_t{1} << 20U;

/// Ends of the middle half of the learners by one approach; nothing for fewer than five.
struct ClassBand {
  stats::Approach approach = stats::Approach::kFreehand;
  std::optional<stats::Interval> bias_mm;    ///< distance of the mean entry from the plan
  std::optional<stats::Interval> spread_mm;  ///< of the entry
};

/// What an attendee needs of a class summary.
struct ClassBands {
  std::string lesson_id;  ///< empty: the class was a table
  std::string lesson_sha256;
  Source source = Source::kSimulated;
  std::size_t learners = 0;
  std::size_t attempts = 0;
  std::string result;  ///< the class in a sentence
  std::vector<ClassBand> bands;
};

/// Reads class-summary.json: its simulated part, else the first one. Fields that are not needed are
/// passed over.
[[nodiscard]] lesson::ReadOutcome<ClassBands> read_class_bands(std::string_view text,
                                                               std::string_view file_name);

/// Own holes by one approach beside the band.
struct OwnInClass {
  stats::Approach approach = stats::Approach::kFreehand;
  std::size_t holes = 0;
  std::optional<double> bias_mm;
  std::optional<double> bias_reach_mm;             ///< half width of its 95 % interval
  std::optional<double> spread_mm;                 ///< from two holes
  std::optional<stats::Interval> spread_interval;  ///< 95 %
  ClassBand band;
  std::vector<std::string> sentences;
};

/// The own holes of the class's lesson, by approach; those of another version of it are left out.
///
/// Source: mean of n points: t(0.975, 2 n - 2) s / sqrt(n) in each direction, s pooled; spread:
///         s sqrt(df / chi^2(0.975, df)) to s sqrt(df / chi^2(0.025, df)), df = 2 (n - 1)
[[nodiscard]] std::vector<OwnInClass> own_in_class(const ClassBands& bands,
                                                   std::span<const Entry> own);

/// Bands as bars, the own numbers as marks with their intervals.
[[nodiscard]] Picture own_in_class_picture(std::span<const OwnInClass> rows);

}  // namespace driftbench::classroom
