#include "render/mesh.h"

#include "math/angle.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::render {
namespace {

constexpr float kTurn = static_cast<float>(2.0 * math::kPi);
constexpr float kSmoothCosine = 0.82F;  // edges below about 35 degrees are shaded round

std::uint16_t next_index(const MeshData& mesh) {
  return static_cast<std::uint16_t>(mesh.vertices.size());
}

/// Two triangles per cell of a grid of vertices that starts at `first`.
void add_grid_indices(MeshData& mesh, std::uint16_t first, int across, int along) {
  const int row = across + 1;
  for (int j = 0; j < along; ++j) {
    for (int i = 0; i < across; ++i) {
      const int corner = first + j * row + i;
      for (const int index :
           {corner, corner + 1, corner + row + 1, corner, corner + row + 1, corner + row}) {
        mesh.indices.push_back(static_cast<std::uint16_t>(index));
      }
    }
  }
}

glm::vec3 unit_or(const glm::vec3& v, const glm::vec3& otherwise) {
  const float length = glm::length(v);
  return length > 1e-9F ? v / length : otherwise;
}

}  // namespace

void add_surface(MeshData& mesh, int across, int along, const SurfacePoint& point) {
  const std::uint16_t first = next_index(mesh);
  const float du = 0.25F / static_cast<float>(across);
  const float dv = 0.25F / static_cast<float>(along);
  for (int j = 0; j <= along; ++j) {
    const float v = static_cast<float>(j) / static_cast<float>(along);
    for (int i = 0; i <= across; ++i) {
      const float u = static_cast<float>(i) / static_cast<float>(across);
      // One-sided differences at the ends in v; u is taken as it comes (closed surfaces wrap).
      const glm::vec3 along_u = point(u + du, v) - point(u - du, v);
      const glm::vec3 along_v = point(u, std::min(v + dv, 1.0F)) - point(u, std::max(v - dv, 0.0F));
      const glm::vec3 normal =
          unit_or(glm::cross(along_u, along_v), glm::vec3(0.0F, 0.0F, j == 0 ? -1.0F : 1.0F));
      const glm::vec3 position = point(u, v);
      mesh.vertices.push_back({position, normal, {kTurn * u, position.z}});
    }
  }
  add_grid_indices(mesh, first, across, along);
}

void add_turned(MeshData& mesh, std::span<const glm::vec2> profile, int segments) {
  const std::size_t pieces = profile.size() - 1;
  std::vector<glm::vec2> outward(pieces);
  for (std::size_t k = 0; k < pieces; ++k) {
    const glm::vec2 step = profile[k + 1] - profile[k];
    const float length = std::max(std::sqrt(step.x * step.x + step.y * step.y), 1e-9F);
    outward[k] = glm::vec2(step.y, -step.x) / length;
  }
  // Normal of piece k at one of its ends, averaged with the neighbour across a gentle edge.
  const auto normal_at = [&](std::size_t k, std::size_t neighbour) {
    if (neighbour >= pieces || glm::dot(outward[k], outward[neighbour]) < kSmoothCosine) {
      return outward[k];
    }
    return glm::normalize(outward[k] + outward[neighbour]);
  };
  for (std::size_t k = 0; k < pieces; ++k) {
    const std::uint16_t first = next_index(mesh);
    const std::array<glm::vec2, 2> normals{normal_at(k, k == 0 ? pieces : k - 1),
                                           normal_at(k, k + 1)};
    for (std::size_t end = 0; end < 2; ++end) {
      const glm::vec2 p = profile[k + end];
      for (int i = 0; i <= segments; ++i) {
        const float angle = kTurn * static_cast<float>(i) / static_cast<float>(segments);
        const float c = std::cos(angle);
        const float s = std::sin(angle);
        mesh.vertices.push_back({{p.x * c, p.x * s, p.y},
                                 {normals[end].x * c, normals[end].x * s, normals[end].y},
                                 {angle, p.y}});
      }
    }
    add_grid_indices(mesh, first, segments, 1);
  }
}

void add_rounded_box(MeshData& mesh, const glm::mat4& place, const glm::vec3& half_mm,
                     float edge_radius_mm) {
  constexpr int kCells = 7;  // three for each rounded edge, one between
  const glm::vec3 inner = half_mm - glm::vec3(edge_radius_mm);
  const glm::mat3 turn(place);
  for (int face = 0; face < 6; ++face) {
    const int axis = face / 2;
    const float sign = face % 2 == 0 ? 1.0F : -1.0F;
    const int u_axis = (axis + 1) % 3;
    const int v_axis = (axis + 2) % 3;
    const std::uint16_t first = next_index(mesh);
    // A direction along which the rounded corner is met: -45, -30, -15, 0, 0, 15, 30, 45 degrees.
    const auto slant = [](int i) {
      const float degrees =
          i <= 3 ? -45.0F + 15.0F * static_cast<float>(i) : 15.0F * static_cast<float>(i - 4);
      return std::tan(degrees * kTurn / 360.0F);
    };
    for (int j = 0; j <= kCells; ++j) {
      for (int i = 0; i <= kCells; ++i) {
        const int iu = sign > 0.0F ? i : kCells - i;
        glm::vec3 direction(0.0F);
        direction[axis] = sign;
        direction[u_axis] = slant(iu);
        direction[v_axis] = slant(j);
        direction = glm::normalize(direction);
        glm::vec3 centre(0.0F);
        centre[axis] = sign * inner[axis];
        centre[u_axis] = iu <= 3 ? -inner[u_axis] : inner[u_axis];
        centre[v_axis] = j <= 3 ? -inner[v_axis] : inner[v_axis];
        const glm::vec3 local = centre + edge_radius_mm * direction;
        mesh.vertices.push_back(
            {glm::vec3(place * glm::vec4(local, 1.0F)), turn * direction, {0.0F, local.z}});
      }
    }
    add_grid_indices(mesh, first, kCells, kCells);
  }
}

void add_tube(MeshData& mesh, int around, int along, const std::function<glm::vec3(float)>& centre,
              const std::function<float(float)>& radius_mm) {
  add_surface(mesh, around, along, [&](float u, float v) {
    const glm::vec3 forward =
        unit_or(centre(v + 0.01F) - centre(v - 0.01F), glm::vec3(0.0F, 0.0F, 1.0F));
    const glm::vec3 side =
        unit_or(glm::cross(forward, glm::vec3(0.0F, 0.0F, 1.0F)), glm::vec3(1.0F, 0.0F, 0.0F));
    const glm::vec3 up = glm::cross(side, forward);
    const float angle = kTurn * u;
    // side, up, forward: turning from side to up is counter-clockwise seen from the front end.
    return centre(v) + radius_mm(v) * (std::cos(angle) * side - std::sin(angle) * up);
  });
}

}  // namespace driftbench::render
