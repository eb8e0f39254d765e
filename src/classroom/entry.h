// One hole or implant of a class, from an attempt file or a row of holes.csv, and how far it is
// trusted.
#pragma once

#include "scoring/results.h"
#include "scoring/tolerance.h"
#include "stats/holes_table.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace driftbench::classroom {

/// Where a hole was made. The two are never analysed together.
enum class Source : std::uint8_t { kSimulated, kBench };

/// Words of the column `source`, in the order of Source.
inline constexpr std::array<std::string_view, 2> kSourceNames{"simulated", "bench"};

/// How far a record is trusted.
enum class Standing : std::uint8_t {
  kTableRow,     ///< numbers of a table, nothing to repeat
  kUnchecked,    ///< its trace has not been repeated yet
  kEqual,        ///< repeated, everything the same
  kDiffers,      ///< does not match its digests or its trace; not analysed
  kOtherEngine,  ///< recorded by another engine: cannot be repeated here
};

inline constexpr std::array<std::string_view, 5> kStandingNames{"table-row", "unchecked", "equal",
                                                                "differs", "other-engine"};

/// Numbers of a hole; definitions and signs as in the columns of holes.csv.
struct Measures {
  std::optional<double> entry_md_mm;
  std::optional<double> entry_bl_mm;
  std::optional<double> depth_mm;
  std::optional<double> apex_md_mm;
  std::optional<double> apex_bl_mm;
  std::optional<double> tilt_md_deg;
  std::optional<double> tilt_bl_deg;
  std::optional<double> angle_deg;
  std::optional<double> hole_diameter_mm;
  std::optional<double> time_s;

  friend bool operator==(const Measures&, const Measures&) = default;
};

/// Columns of the numbers, in the order of holes.csv.
inline constexpr std::array<std::pair<std::string_view, std::optional<double> Measures::*>, 10>
    kMeasureColumns{{{"entry_md_mm", &Measures::entry_md_mm},
                     {"entry_bl_mm", &Measures::entry_bl_mm},
                     {"depth_mm", &Measures::depth_mm},
                     {"apex_md_mm", &Measures::apex_md_mm},
                     {"apex_bl_mm", &Measures::apex_bl_mm},
                     {"tilt_md_deg", &Measures::tilt_md_deg},
                     {"tilt_bl_deg", &Measures::tilt_bl_deg},
                     {"angle_deg", &Measures::angle_deg},
                     {"hole_diameter_mm", &Measures::hole_diameter_mm},
                     {"time_s", &Measures::time_s}}};

struct Entry {
  std::string attempt_id;  ///< may be empty in tables of real blocks
  std::string learner;     ///< code name
  std::string cohort;
  stats::Approach approach = stats::Approach::kFreehand;
  std::string implant_through_guide;  ///< "yes", "no" or not stated
  std::string measured;               ///< "hole", "implant" or not stated
  std::string site;
  std::string specimen;
  std::string boundary_deg;
  std::optional<int> period;  ///< 1-based order within the learner
  Measures measures;
  Source source = Source::kBench;

  std::string file;  ///< as named when collected
  int line = 0;      ///< of a table; 0 for an attempt file
  std::string file_sha256;
  Standing standing = Standing::kTableRow;
  bool is_other_lesson = false;      ///< not the lesson that most attempts are of; not analysed
  std::vector<std::string> reasons;  ///< sentences for kDiffers, kOtherEngine, other lesson

  // Attempt files and turn-in codes only.
  std::string lesson_id;
  std::string lesson_sha256;
  std::string block_id;
  std::string device;      ///< that moved the hand, as the record says
  double engaged_s = 0.0;  ///< simulated from the first to the last step; 0: not known
  std::optional<int> engine;
  std::optional<bool> inside;  ///< within every tolerance; nothing when broken off
  std::optional<scoring::Tolerance> tolerance;
  std::optional<scoring::SelfEstimate> estimate;
  std::vector<std::string> events;  ///< critical events, a sentence each

  [[nodiscard]] bool is_record() const { return line == 0; }

  /// Whether statistics use it.
  [[nodiscard]] bool counts() const { return standing != Standing::kDiffers && !is_other_lesson; }
};

}  // namespace driftbench::classroom
