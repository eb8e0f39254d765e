#include "render/overlay.h"

#include "math/rotation.h"
#include "render/drill_mesh.h"
#include "render/projection.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>

namespace driftbench::render {
namespace {

constexpr int kRimPieces = 26;
constexpr int kFlying = 14;
constexpr int kStreaks = 60;
constexpr double kAxisBeyond_mm = 3.0;
constexpr double kGolden = 0.6180339887498949;

double fraction(double x) {
  return x - std::floor(x);
}

/// Fixed pseudo-random share for a crumb: low-discrepancy, so the ring fills evenly.
double spread(int i, double step) {
  return fraction(0.5 + step * static_cast<double>(i));
}

/// True where at least half of the voxel around a point is left.
bool is_solid(const volume::Volume& volume, const math::Vec3& point_mm) {
  constexpr std::uint8_t kHalf = 128;
  const math::Vec3 at = (point_mm - volume.grid.first_centre_mm) / volume.grid.spacing_mm;
  const int x = static_cast<int>(std::lround(at.x));
  const int y = static_cast<int>(std::lround(at.y));
  const int z = static_cast<int>(std::lround(at.z));
  const bool is_inside =
      x >= 0 && y >= 0 && z >= 0 && x < volume.grid.nx && y < volume.grid.ny && z < volume.grid.nz;
  return is_inside && volume.coverage[volume.grid.index(x, y, z)] >= kHalf;
}

/// Where the drill's axis leaves the specimen's first surface, or the tip while it is above.
math::Vec3 mouth_of(const Scene& scene, const VolumeTexture& volume) {
  const math::Vec3 axis = scene.pose.axis_out_unit;
  const double surface_mm = volume.top_mm(scene.pose.tip_mm.x, scene.pose.tip_mm.y);
  const double up = std::max(surface_mm - scene.pose.tip_mm.z, 0.0) / std::max(axis.z, 0.2);
  return scene.pose.tip_mm + up * axis;
}

}  // namespace

void Lines::add(const glm::vec3& from, const glm::vec3& to, float from_length, float to_length) {
  if (count < kMostLines) {
    ends[static_cast<std::size_t>(2 * count)] = glm::vec4(from, from_length);
    ends[static_cast<std::size_t>(2 * count + 1)] = glm::vec4(to, to_length);
    ++count;
  }
}

Lines plan_outline(const Scene& scene, const Camera& camera) {
  Lines lines;
  const specimen::Plan& plan = *scene.plan;
  const double radius = 0.5 * scene.planned_diameter_mm;
  const math::Vec3 toward_eye = frame_of(camera).eye_mm - plan.entry_mm;
  const math::Mat3 frame = math::frame_from_axis(plan.axis_out_unit, toward_eye);
  for (const math::Vec3& middle : {plan.entry_mm, plan.apex_mm()}) {
    for (int i = 0; i < kRimPieces; ++i) {
      const auto point = [&](int k) {
        const double angle = 2.0 * math::kPi * k / kRimPieces;
        return glm::vec3(middle +
                         radius * (std::cos(angle) * frame[0] + std::sin(angle) * frame[1]));
      };
      const double piece = 2.0 * math::kPi * radius / kRimPieces;
      lines.add(point(i), point(i + 1), static_cast<float>(piece * i),
                static_cast<float>(piece * (i + 1)));
    }
  }
  // The outline's edges are where the surface turns away from the eye (seen from far away).
  for (const double side : {-1.0, 1.0}) {
    const math::Vec3 offset = side * radius * frame[1];
    lines.add(glm::vec3(plan.entry_mm + offset), glm::vec3(plan.apex_mm() + offset), 0.0F,
              static_cast<float>(plan.depth_mm));
  }
  return lines;
}

Lines plan_axis(const Scene& scene) {
  Lines lines;
  const specimen::Plan& plan = *scene.plan;
  const math::Vec3 beyond = kAxisBeyond_mm * plan.axis_out_unit;
  lines.add(glm::vec3(plan.entry_mm + beyond), glm::vec3(plan.apex_mm() - beyond), 0.0F,
            static_cast<float>(plan.depth_mm + 2.0 * kAxisBeyond_mm));
  return lines;
}

Crumbs crumbs_of(const Scene& scene, const VolumeTexture& volume) {
  Crumbs all;
  const math::Vec3 entry = scene.plan != nullptr ? scene.plan->entry_mm : math::Vec3(0.0);
  const double removed_mm3 = scene.volume != nullptr ? scene.volume->removed_mm3() : 0.0;
  const double hole = scene.drill != nullptr ? 0.5 * scene.drill->diameter_mm : 1.0;
  const int lying = std::clamp(static_cast<int>(removed_mm3 * 0.7), 0, kMostCrumbs - kFlying);
  for (int i = 0; i < lying; ++i) {
    const double angle = 2.0 * math::kPi * spread(i, kGolden);
    const double out = spread(i, 0.7548776662466927);
    const double radius = std::max(hole, 2.1) + 0.25 + 2.6 * out * out;
    const math::Vec3 p = entry + radius * math::Vec3(std::cos(angle), std::sin(angle), 0.0);
    const double top_mm = volume.top_mm(p.x, p.y);
    if (!is_solid(*scene.volume, {p.x, p.y, top_mm - 0.3})) {
      continue;  // the ground it lay on has been drilled away
    }
    const double size = 0.08 + 0.13 * spread(i, 0.5698402909980532);
    all.crumbs[static_cast<std::size_t>(all.count++)] =
        glm::vec4(static_cast<float>(p.x), static_cast<float>(p.y),
                  static_cast<float>(top_mm + 0.35 * size), static_cast<float>(size));
  }
  if (scene.drill == nullptr || scene.chips <= 0.0) {
    return all;
  }
  // Thrown off where the drill enters; one flight lasts about two turns.
  const math::Vec3 mouth = mouth_of(scene, volume);
  const int flying = static_cast<int>(std::lround(kFlying * std::clamp(scene.chips, 0.0, 1.0)));
  for (int i = 0; i < flying; ++i) {
    const double turns = scene.spin_rad / (4.0 * math::kPi) + spread(i, kGolden);
    const double flight = fraction(turns);
    const double angle =
        2.0 * math::kPi * fraction(spread(i, 0.7548776662466927) + 0.37 * std::floor(turns));
    const double radius = hole + 0.1 + (1.8 + 2.2 * spread(i, 0.41)) * flight;
    const double height = 4.0 * flight * (1.0 - flight) * (0.8 + 1.6 * spread(i, 0.29)) + 0.1;
    const math::Vec3 p =
        mouth + math::Vec3(radius * std::cos(angle), radius * std::sin(angle), height);
    all.crumbs[static_cast<std::size_t>(all.count++)] =
        glm::vec4(glm::vec3(p), static_cast<float>(0.07 + 0.10 * spread(i, 0.57)));
  }
  return all;
}

Lines water_of(const Scene& scene, const VolumeTexture& volume) {
  Lines lines;
  if (!scene.irrigation || scene.drill == nullptr) {
    return lines;
  }
  // From nozzles at the head's edge to where the drill enters, spreading a little on the way.
  const math::Mat3 frame =
      math::frame_from_axis(scene.pose.axis_out_unit, math::Vec3(1.0, 0.0, 0.0));
  const math::Vec3 head =
      scene.pose.tip_mm + lengths_of(*scene.drill).head_mm * scene.pose.axis_out_unit;
  const math::Vec3 mouth = mouth_of(scene, volume);
  const double drill_radius_mm = 0.5 * scene.drill->diameter_mm;
  for (int i = 0; i < kStreaks; ++i) {
    const double angle = 2.0 * math::kPi * spread(i, 0.7548776662466927);
    const math::Vec3 side = std::cos(angle) * frame[0] + std::sin(angle) * frame[1];
    const math::Vec3 from = head + 2.7 * side;
    const math::Vec3 to = mouth + (drill_radius_mm + 1.3 * spread(i, 0.41)) * side;
    const double begin = fraction(scene.spin_rad / (3.0 * math::kPi) + spread(i, kGolden));
    const double end = std::min(begin + 0.05 + 0.05 * begin, 1.0);
    lines.add(glm::vec3(from + begin * (to - from)), glm::vec3(from + end * (to - from)), 0.0F,
              0.0F);
  }
  return lines;
}

}  // namespace driftbench::render
