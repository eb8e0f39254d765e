// Triangles built in code: surfaces over a grid, turned profiles, rounded boxes, swept tubes.
#pragma once

#include <glm/mat4x4.hpp>
#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace driftbench::render {

struct Vertex {
  glm::vec3 position;  ///< mm
  glm::vec3 normal;    ///< unit
  glm::vec2 mark;  ///< turned surfaces: angle in rad and height in mm, for what is printed on them
};

/// Shape: three indices per triangle, counter-clockwise seen from outside
struct MeshData {
  std::vector<Vertex> vertices;
  std::vector<std::uint16_t> indices;
};

/// Point of a surface over the unit square.
using SurfacePoint = std::function<glm::vec3(float u, float v)>;

/// Surface over u, v in 0..1 with (across + 1) x (along + 1) vertices; normals by differences,
/// pointing to the side from which u to v turns counter-clockwise.
void add_surface(MeshData& mesh, int across, int along, const SurfacePoint& point);

/// Solid of revolution about +z from a profile of (radius, height) that runs upward on the outside.
/// Edges sharper than about 35 degrees stay sharp.
void add_turned(MeshData& mesh, std::span<const glm::vec2> profile, int segments);

/// Box of half extents with rounded edges, placed by a rigid transform.
void add_rounded_box(MeshData& mesh, const glm::mat4& place, const glm::vec3& half_mm,
                     float edge_radius_mm);

/// Tube along a curve over 0..1 with a radius over 0..1; its far end is open.
void add_tube(MeshData& mesh, int around, int along, const std::function<glm::vec3(float)>& centre,
              const std::function<float(float)>& radius_mm);

}  // namespace driftbench::render
