#include "drilling/tool.h"

#include "math/angle.h"
#include "math/elementary.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::drilling {
namespace {

/// Outer radii of the point's rings as shares of the drill's radius. The first three are the chisel
/// zone (a fifth of the radius; own assumption, a web of about 0.2 d), drawn together toward the
/// very point so that the first tenths of a millimetre of contact on a slope are resolved.
constexpr std::array<double, 13> kPointRings_frac{0.06, 0.12, 0.20, 0.28, 0.36, 0.44, 0.52,
                                                  0.60, 0.68, 0.76, 0.84, 0.92, 1.00};
constexpr std::size_t kChiselRings = 3;
constexpr int kPointAzimuths = 16;
constexpr int kBallRings = 7;
constexpr int kBodyAzimuths = 12;
/// Body rings stand close behind the shoulder, where a drill first feels a wall, and wider above.
constexpr double kFineRing_mm = 0.5;
constexpr double kFineLength_mm = 2.0;
constexpr double kCoarseRing_mm = 1.0;

/// A ring of equal elements at one height.
struct Ring {
  double radius_mm;
  double height_mm;
  double normal_radial;
  double normal_axial;
  double area_mm2;  // of the whole ring
  Zone zone;
};

/// Adds a ring as pairs that are each other's mirror image in x to the last bit.
void add_ring(std::vector<SurfaceElement>& elements, const Ring& ring, int azimuths) {
  for (int k = 0; k < azimuths / 2; ++k) {
    // From -90 to 90 degrees, half an element off the axes.
    const math::SinCos at = math::sincos(2.0 * math::kPi * (k + 0.5) / azimuths - 0.5 * math::kPi);
    for (const double side : {1.0, -1.0}) {
      const double cosine = side * at.cos;
      SurfaceElement element;
      element.position_mm = {ring.radius_mm * cosine, ring.radius_mm * at.sin, ring.height_mm};
      element.normal = {ring.normal_radial * cosine, ring.normal_radial * at.sin,
                        ring.normal_axial};
      element.area_mm2 = ring.area_mm2 / azimuths;
      element.radius_mm = ring.radius_mm;
      element.zone = ring.zone;
      elements.push_back(element);
    }
  }
}

/// Rings of a cone from the tip to the shoulder; each stands at the radius that halves its area.
void add_cone(Tool& tool) {
  const double sine = tool.solid.half_angle_sin;
  const double cosine = tool.solid.half_angle_cos;
  double low = 0.0;
  for (std::size_t i = 0; i < kPointRings_frac.size(); ++i) {
    const double high = kPointRings_frac[i] * tool.radius_mm;
    const double middle = std::sqrt(0.5 * (low * low + high * high));
    add_ring(tool.elements,
             {middle, middle * cosine / sine, cosine, -sine,
              math::kPi * (high * high - low * low) / sine,
              i < kChiselRings ? Zone::kChisel : Zone::kLip},
             kPointAzimuths);
    low = high;
  }
}

/// Rings of a ball's lower half and a little above its equator.
void add_ball(Tool& tool) {
  const double radius = tool.radius_mm;
  for (int i = 0; i < kBallRings; ++i) {
    const double low = 2.0 * radius * i / (kBallRings + 1);
    const double high = 2.0 * radius * (i + 1) / (kBallRings + 1);
    const double height = 0.5 * (low + high);
    const double axial = (height - radius) / radius;
    const double radial = std::sqrt(1.0 - axial * axial);
    add_ring(tool.elements,
             {radial * radius, height, radial, axial, 2.0 * math::kPi * radius * (high - low),
              Zone::kSideLip},
             kPointAzimuths);
  }
}

void add_body(Tool& tool, Zone zone) {
  double low = tool.point_height_mm;
  while (low < tool.body_end_mm) {
    const bool is_fine = low - tool.point_height_mm < kFineLength_mm;
    const double high = std::min(low + (is_fine ? kFineRing_mm : kCoarseRing_mm), tool.body_end_mm);
    add_ring(tool.elements,
             {tool.radius_mm, 0.5 * (low + high), 1.0, 0.0,
              2.0 * math::kPi * tool.radius_mm * (high - low), zone},
             kBodyAzimuths);
    low = high;
  }
}

}  // namespace

Tool make_tool(const specimen::Drill& drill) {
  Tool tool;
  tool.radius_mm = 0.5 * drill.diameter_mm;
  tool.solid.radius_mm = tool.radius_mm;
  if (drill.kind == specimen::DrillKind::kStarter) {
    tool.solid.point = volume::RevolvedSolid::Point::kBall;
    tool.solid.neck_radius_mm = 0.6 * tool.radius_mm;  // slim neck; own assumption
    tool.point_height_mm = tool.radius_mm;
    tool.body_end_mm = 2.0 * tool.radius_mm;
    add_ball(tool);
    return tool;
  }
  const math::SinCos half =
      math::sincos(0.5 * math::Radians(math::Degrees(drill.point_angle_deg)).value);
  tool.solid.half_angle_sin = half.sin;
  tool.solid.half_angle_cos = half.cos;
  tool.point_height_mm = tool.radius_mm * half.cos / half.sin;
  tool.body_end_mm = tool.point_height_mm + drill.body_length_mm;
  add_cone(tool);
  add_body(tool, drill.kind == specimen::DrillKind::kSideCutter ? Zone::kSideLip : Zone::kMargin);
  return tool;
}

}  // namespace driftbench::drilling
