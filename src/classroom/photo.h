// Measures of a real block: entry and rim from a photograph of its top, leans from a pin seen from
// front and side, depth by a probe; each with its uncertainty.
#pragma once

#include "base/result.h"
#include "math/vec.h"

#include <optional>
#include <vector>

namespace driftbench::classroom {

/// A value with its expanded uncertainty: value +- u95 holds the true one in about 95 % of cases.
///
/// Source: u95 = 2 u, JCGM 100:2008 (GUM), 6.2.1 and 6.3.3
struct Uncertain {
  double value = 0.0;
  double u95 = 0.0;
};

/// A marked point of a photograph (x right, y down) and how well it was set.
struct Click {
  math::Vec2 at_px{0.0};
  double sd_px = 0.0;
};

/// Standard uncertainty of one click: half a pixel of the photograph, for an edge is no sharper,
/// and one pixel of the screen, for the hand. Own assumption. `zoom`: screen pixels a pixel of the
/// photograph.
[[nodiscard]] double click_sd_px(double zoom);

/// A block seen from above.
struct TopPhoto {
  bool is_straightened = false;  ///< by the corners; else the edge gives the scale
  std::vector<Click> edge;       ///< two ends of a known length
  std::vector<Click> corners;    ///< four corners in order round the block
  double width_mm = 25.4;        ///< of the edge; of the side from the first corner to the second
  double height_mm = 25.4;       ///< of the side from the second corner to the third
  double size_sd_mm = 0.05;      ///< of these lengths
  std::vector<Click> boundary;   ///< two points of the line between the halves
  std::vector<Click> soft;       ///< one point on the side that md points to
  std::vector<Click> plan;       ///< the planned centre, marked once or more often
  std::vector<Click> rim;        ///< five points at least
  bool is_ellipse = false;
};

struct TopMeasure {
  Uncertain entry_md_mm;      ///< + toward the soft half
  Uncertain entry_bl_mm;      ///< + to the left of that, seen from above
  Uncertain rim_diameter_mm;  ///< of an ellipse: of the circle of the same area
  double long_diameter_mm = 0.0;
  double short_diameter_mm = 0.0;
  double residual_mm = 0.0;  ///< standard deviation of the rim points about the curve
  double mm_per_px = 0.0;
  math::Vec2 centre_px{0.0};
  math::Vec2 plan_px{0.0};
  math::Vec2 md_px{0.0};               ///< one mm toward + md, from the plan
  math::Vec2 bl_px{0.0};               ///< one mm toward + bl, from the plan
  std::vector<math::Vec2> outline_px;  ///< of the fitted curve
};

/// Beyond the clicks, the scale itself is unsure: by 0.5 % where corners straighten the picture, by
/// 1 % where one edge has to do (lens, camera askew). Own assumptions.
///
/// Errors: kInvalidArgument with a sentence about what is missing or does not fit
/// Source: fits as in geometry/fit_circle.h and fit_ellipse.h; uncertainty as in propagate.h. The
///         rim points count with their scatter about the curve, times t(0.975; n - p) / 2 for few
///         points (GUM, G.3), where that is more than their clicks'; so does a plan that was
///         marked three times or more.
[[nodiscard]] base::Result<TopMeasure> measure_top(const TopPhoto& photo);

/// A close-fitting pin in the hole, seen from the front or the side.
struct LeanPhoto {
  std::vector<Click> pin;         ///< two points of its axis
  std::vector<Click> edge;        ///< two points of an upright edge of the block
  bool positive_is_right = true;  ///< + (distal or lingual) is to the right in the picture
  double play_mm = 0.05;          ///< bore of the hole minus diameter of the pin
  double engaged_mm = 10.0;       ///< how deep the pin sits
};

/// Lean of the hole in the plane of the picture; + when the deep end leans toward +.
///
/// A pin with play may lean by play / engaged to either side (rectangular), and a camera that
/// stands askew adds 0.3 degrees (own assumption).
/// Errors: kInvalidArgument with a sentence about what is missing
[[nodiscard]] base::Result<Uncertain> measure_lean_deg(const LeanPhoto& photo);

/// Readings of a probe from the rim to the floor.
struct Probe {
  std::vector<double> readings_mm;
  double division_mm = 0.5;  ///< of its scale: read to half of it to either side
  double tip_mm = 0.0;       ///< of the reading, the drill's point below its full diameter
  double planned_mm = 10.0;
};

/// Depth beside the plan along the planned axis, + deeper; `lean_rad` is the angle of the hole.
///
/// Errors: kInvalidArgument without a reading
/// Source: scatter of repeated readings and a rectangular division, GUM 4.2.3 and 4.3.7
[[nodiscard]] base::Result<Uncertain> measure_depth_mm(const Probe& probe, double lean_rad = 0.0);

/// Where the floor is beside the planned one: entry + (planned + depth) tan(tilt), when entry, the
/// tilt and the depth are there.
[[nodiscard]] std::optional<Uncertain> apex_mm(const std::optional<Uncertain>& entry_mm,
                                               const std::optional<Uncertain>& tilt_deg,
                                               const std::optional<Uncertain>& depth_mm,
                                               double planned_mm);

/// Angle between the axes in space, from both tilts.
[[nodiscard]] std::optional<double> angle_deg(const std::optional<Uncertain>& tilt_md_deg,
                                              const std::optional<Uncertain>& tilt_bl_deg);

}  // namespace driftbench::classroom
