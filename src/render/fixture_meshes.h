// Shapes of what holds and leads the drill: handpiece, guide, sleeve, key; and small helpers.
#pragma once

#include "render/mesh.h"
#include "specimen/kit.h"

#include <array>

namespace driftbench::render {

/// Direction of the handpiece's neck in the head's frame (z along the drill, away from the bone).
[[nodiscard]] glm::vec3 neck_direction();

inline constexpr double kHeadRadius_mm = specimen::kHeadRadius_mm;
inline constexpr double kNeckRadius_mm = 3.0;

/// Head and neck. Frame: lower face of the head in the origin, drill axis +z.
[[nodiscard]] MeshData handpiece_mesh();

/// What the shape of a guide depends on. Frame: sleeve's lower edge in the origin, axis +z.
struct GuideShape {
  std::array<glm::vec3, 4> sole_mm{};  ///< middles of the feet's undersides, at +x+y, -x+y, -x-y,
                                       ///< +x-y
  std::array<float, 4> lift_mm{};      ///< of the arms' outer ends over the plate, past crowns
  double sleeve_outer_diameter_mm = 0.0;
  double sleeve_height_mm = 0.0;

  friend bool operator==(const GuideShape&, const GuideShape&) = default;
};

/// Height of the middle of the guide's plate.
[[nodiscard]] double plate_middle_mm(const GuideShape& shape);
[[nodiscard]] double hub_radius_mm(const GuideShape& shape);

[[nodiscard]] MeshData guide_mesh(const GuideShape& shape);
[[nodiscard]] MeshData sleeve_mesh(const specimen::Sleeve& sleeve);

/// Key in its sleeve: spigot, collar, handle. Frame: as the guide.
[[nodiscard]] MeshData key_mesh(const specimen::Key& key, const specimen::Sleeve& sleeve);

/// Cube over -1..1 for the specimen's box, octahedron of radius 1 for crumbs, quad for lines.
[[nodiscard]] MeshData cube_mesh();
[[nodiscard]] MeshData crumb_mesh();
[[nodiscard]] MeshData line_mesh();

}  // namespace driftbench::render
