// An attempt repeated once and kept as what a replay shows: poses, and sections through the
// material at every moment.
#pragma once

#include "base/result.h"
#include "record/attempt.h"
#include "session/replay.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::classroom {

/// One section through the planned axis.
///
/// Shape:  rows from the top down, columns from - to + md or bl, kFilmSpacing_mm apart
struct FilmSection {
  std::vector<std::uint8_t> density;  ///< of the foam or bone, 0..255 = 0..kFilmDensity_mg_per_cm3
  std::vector<std::uint8_t> before;   ///< coverage at the start
  std::vector<std::uint8_t> after;    ///< and at the end
  std::vector<std::uint16_t> tick;    ///< 50 ms after which the end's coverage holds
};

inline constexpr double kFilmSpacing_mm = 0.1;
inline constexpr double kFilmHalfWidth_mm = 6.0;
inline constexpr double kFilmAbove_mm = 3.0;  ///< of the planned platform
inline constexpr double kFilmBelow_mm = 4.0;  ///< of the planned floor
inline constexpr double kFilmDensity_mg_per_cm3 = 1000.0;

class Film {
 public:
  /// Errors: kParse for no attempt; kUnsupported for a record of another engine; those of
  ///         Session::create()
  [[nodiscard]] static base::Result<Film> start(std::string_view text, const std::string& name);

  /// Runs at most so many steps of 1 ms; true while there is more to do.
  bool advance(std::int64_t step_count);

  [[nodiscard]] double progress() const { return replay_.progress(); }

  /// Whether it repeated bit for bit; complete once advance() returned false.
  [[nodiscard]] bool is_equal() const { return replay_.report().equal; }

  [[nodiscard]] int columns() const;
  [[nodiscard]] int rows() const;

  /// Through the planned axis along md, or along bl.
  [[nodiscard]] FilmSection section(bool is_md) const;

  /// {columns, rows, spacing_mm, half_width_mm, above_mm, depth_mm, plan_diameter_mm, end_step,
  /// contact_step (-1: none), equal, drills: [diameter], poses: [[step, tip md, bl, up, axis md,
  /// bl, up, drill]]}; mm, from the planned platform, every 20 ms.
  [[nodiscard]] std::string json() const;

 private:
  explicit Film(session::Replay replay) : replay_(std::move(replay)) {}

  session::Replay replay_;
};

}  // namespace driftbench::classroom
