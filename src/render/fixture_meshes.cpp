#include "render/fixture_meshes.h"

#include <glm/ext/matrix_transform.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>

namespace driftbench::render {
namespace {

constexpr float kPlateHalf_mm = 1.1F;
constexpr float kArmHalfWidth_mm = 1.9F;
constexpr float kFootHalf_mm = 2.2F;

glm::mat4 at(const glm::vec3& place) {
  return glm::translate(glm::mat4(1.0F), place);
}

}  // namespace

glm::vec3 neck_direction() {
  return glm::normalize(glm::vec3(0.72F, -0.62F, 0.36F));
}

MeshData handpiece_mesh() {
  MeshData mesh;
  const float r = static_cast<float>(kHeadRadius_mm);
  const std::array<glm::vec2, 15> head{{{1.25F, 0.5F},
                                        {1.5F, 0.0F},
                                        {r - 1.3F, 0.0F},
                                        {r - 0.55F, 0.22F},
                                        {r - 0.12F, 0.85F},
                                        {r, 1.6F},
                                        {r, 9.3F},
                                        {r - 0.16F, 9.45F},
                                        {r - 0.16F, 9.75F},
                                        {r, 9.9F},
                                        {r - 0.1F, 11.2F},
                                        {r - 0.75F, 12.0F},
                                        {r - 0.9F, 12.25F},
                                        {r - 1.3F, 12.9F},
                                        {0.0F, static_cast<float>(specimen::kHeadHeight_mm)}}};
  add_turned(mesh, head, 64);
  // Neck: leaves the head level, then follows its direction; slim at first, then a grip.
  const glm::vec3 direction = neck_direction();
  const glm::vec3 level = glm::normalize(glm::vec3(direction.x, direction.y, 0.0F));
  const auto centre = [&](float v) {
    const float s = 80.0F * v;
    const float bend = 7.0F * (1.0F - std::exp(-s / 7.0F));
    return glm::vec3(0.0F, 0.0F, 5.6F) + level * bend + direction * (s - bend);
  };
  const float slim = static_cast<float>(kNeckRadius_mm);
  const auto radius = [&](float v) {
    const float s = 80.0F * v;
    const float grip = std::clamp((s - 18.0F) / 40.0F, 0.0F, 1.0F);
    const bool is_groove =
        std::fabs(s - 12.0F) < 0.5F || (s > 24.0F && s < 36.0F && std::fmod(s, 2.5F) < 0.9F);
    const float ring = is_groove ? -0.16F : 0.0F;
    return slim + 0.5F * std::exp(-s / 3.0F) + 1.9F * grip * grip * (3.0F - 2.0F * grip) + ring;
  };
  add_tube(mesh, 40, 192, centre, radius);
  return mesh;
}

double plate_middle_mm(const GuideShape& shape) {
  return 0.62 * shape.sleeve_height_mm;
}

double hub_radius_mm(const GuideShape& shape) {
  return 0.5 * shape.sleeve_outer_diameter_mm + 1.9;
}

MeshData guide_mesh(const GuideShape& shape) {
  MeshData mesh;
  const float middle = static_cast<float>(plate_middle_mm(shape));
  const float hub = static_cast<float>(hub_radius_mm(shape));
  const float bore = static_cast<float>(0.5 * shape.sleeve_outer_diameter_mm);

  // Hub around the sleeve, up to just below its rim.
  const float hub_bottom = 0.25F;
  const float hub_top = static_cast<float>(shape.sleeve_height_mm) - 0.35F;
  const std::array<glm::vec2, 9> ring{{{bore, hub_bottom},
                                       {hub - 0.5F, hub_bottom},
                                       {hub - 0.12F, hub_bottom + 0.14F},
                                       {hub, hub_bottom + 0.5F},
                                       {hub, hub_top - 0.5F},
                                       {hub - 0.12F, hub_top - 0.14F},
                                       {hub - 0.5F, hub_top},
                                       {bore, hub_top},
                                       {bore, hub_bottom}}};
  add_turned(mesh, ring, 64);

  for (std::size_t corner = 0; corner < shape.sole_mm.size(); ++corner) {
    const glm::vec3 foot(shape.sole_mm[corner].x, shape.sole_mm[corner].y, 0.0F);
    const float bottom = shape.sole_mm[corner].z;
    const float lift = shape.lift_mm[corner];
    const float top = middle + lift + kPlateHalf_mm;

    // Arm from the hub to the foot, rising where a crown is in its way.
    const float from = hub - 0.6F;
    const float to = glm::length(foot);
    const float run = std::max(to - from, 1.0F);
    const glm::mat4 turned =
        glm::rotate(glm::mat4(1.0F), std::atan2(foot.y, foot.x), {0.0F, 0.0F, 1.0F});
    const glm::mat4 rising = glm::rotate(turned * at({to - 0.5F * run, 0.0F, middle + 0.5F * lift}),
                                         -std::atan2(lift, run), {0.0F, 1.0F, 0.0F});
    add_rounded_box(mesh, rising,
                    {0.5F * std::sqrt(run * run + lift * lift), kArmHalfWidth_mm, kPlateHalf_mm},
                    0.45F);

    // Foot: a cap, four slim posts and a sole, open on all sides as an inspection window.
    const float room = top - bottom;
    const float window = std::clamp(0.42F * room, 1.0F, 2.6F);
    const float sole = std::min(0.5F, 0.15F * room);
    const float cap_bottom = bottom + sole + window;
    add_rounded_box(mesh, at(foot + glm::vec3(0.0F, 0.0F, 0.5F * (top + cap_bottom))),
                    {kFootHalf_mm, kFootHalf_mm, 0.5F * (top - cap_bottom)}, 0.4F);
    for (const glm::vec2 post :
         {glm::vec2(1, 1), glm::vec2(-1, 1), glm::vec2(-1, -1), glm::vec2(1, -1)}) {
      const float reach = kFootHalf_mm - 0.42F;
      const float from_z = bottom + 0.6F * sole;  // inside the sole, so that no faces coincide
      const float to_z = cap_bottom + 0.4F;
      add_rounded_box(mesh,
                      at(foot + glm::vec3(post.x * reach, post.y * reach, 0.5F * (from_z + to_z))),
                      {0.40F, 0.40F, 0.5F * (to_z - from_z)}, 0.12F);
    }
    const std::size_t sole_begin = mesh.vertices.size();
    add_rounded_box(mesh, at(foot + glm::vec3(0.0F, 0.0F, bottom + 0.5F * sole)),
                    {kFootHalf_mm, kFootHalf_mm, 0.5F * sole}, 0.12F);
    for (std::size_t i = sole_begin; i < mesh.vertices.size(); ++i) {
      mesh.vertices[i].mark.x = -1.0F;  // drawn darker, so that its edge can be judged
    }
  }
  return mesh;
}

MeshData sleeve_mesh(const specimen::Sleeve& sleeve) {
  MeshData mesh;
  const float inner = static_cast<float>(0.5 * sleeve.bore_mm);
  const float outer = static_cast<float>(0.5 * sleeve.outer_diameter_mm);
  const float height = static_cast<float>(sleeve.height_mm);
  const float rim = outer + 0.45F;
  const std::array<glm::vec2, 11> profile{{{inner + 0.15F, 0.0F},
                                           {outer, 0.0F},
                                           {outer, height - 0.6F},
                                           {rim, height - 0.55F},
                                           {rim, height - 0.1F},
                                           {rim - 0.1F, height},
                                           {inner + 0.2F, height},
                                           {inner + 0.05F, height - 0.06F},
                                           {inner, height - 0.2F},
                                           {inner, 0.15F},
                                           {inner + 0.15F, 0.0F}}};
  add_turned(mesh, profile, 64);
  return mesh;
}

MeshData key_mesh(const specimen::Key& key, const specimen::Sleeve& sleeve) {
  MeshData mesh;
  const float bore = static_cast<float>(0.5 * key.bore_mm);
  const float spigot = static_cast<float>(0.5 * key.spigot_diameter_mm);
  const float seat = static_cast<float>(sleeve.height_mm);
  const float collar = static_cast<float>(0.5 * sleeve.outer_diameter_mm) + 0.9F;
  const float top = seat + std::max(static_cast<float>(key.collar_mm), 0.4F);
  const std::array<glm::vec2, 13> profile{{{bore, 0.05F},
                                           {spigot - 0.15F, 0.05F},
                                           {spigot, 0.2F},
                                           {spigot, seat + 0.01F},
                                           {collar - 0.08F, seat + 0.01F},
                                           {collar, seat + 0.12F},
                                           {collar, top - 0.2F},
                                           {collar - 0.2F, top},
                                           {bore + 0.35F, top},
                                           {bore + 0.1F, top - 0.1F},
                                           {bore, top - 0.3F},
                                           {bore, 0.3F},
                                           {bore, 0.05F}}};
  add_turned(mesh, profile, 64);

  // Handle: a slim bar that rises a little, with a round thumb rest.
  const float heading = std::atan2(-0.55F, -0.83F);
  const float thickness = std::min(0.55F, 0.45F * (top - seat));
  glm::mat4 bar = glm::rotate(glm::mat4(1.0F), heading, {0.0F, 0.0F, 1.0F});
  bar = bar * at({collar - 0.5F, 0.0F, top - thickness - 0.05F});
  bar = glm::rotate(bar, -0.16F, {0.0F, 1.0F, 0.0F});
  constexpr float kLength_mm = 17.0F;
  add_rounded_box(mesh, bar * at({0.5F * kLength_mm, 0.0F, 0.0F}),
                  {0.5F * kLength_mm, 1.05F, thickness}, 0.3F);
  const std::array<glm::vec2, 6> rest{{{0.0F, -thickness - 0.12F},
                                       {2.0F, -thickness - 0.12F},
                                       {2.3F, 0.0F},
                                       {2.0F, thickness + 0.12F},
                                       {1.2F, thickness - 0.05F},
                                       {0.0F, thickness - 0.12F}}};
  MeshData pad;
  add_turned(pad, rest, 40);
  const glm::mat4 place = bar * at({kLength_mm, 0.0F, 0.0F});
  const auto first = static_cast<std::uint16_t>(mesh.vertices.size());
  for (Vertex vertex : pad.vertices) {
    vertex.position = glm::vec3(place * glm::vec4(vertex.position, 1.0F));
    vertex.normal = glm::mat3(place) * vertex.normal;
    mesh.vertices.push_back(vertex);
  }
  for (const std::uint16_t index : pad.indices) {
    mesh.indices.push_back(static_cast<std::uint16_t>(first + index));
  }
  return mesh;
}

MeshData cube_mesh() {
  MeshData mesh;
  for (int i = 0; i < 8; ++i) {
    const glm::vec3 corner((i & 1) != 0 ? 1.0F : -1.0F, (i & 2) != 0 ? 1.0F : -1.0F,
                           (i & 4) != 0 ? 1.0F : -1.0F);
    mesh.vertices.push_back({corner, {0.0F, 0.0F, 1.0F}, {0.0F, 0.0F}});
  }
  mesh.indices = {0, 2, 1, 1, 2, 3, 4, 5, 6, 5, 7, 6, 0, 1, 4, 1, 5, 4,
                  2, 6, 3, 3, 6, 7, 0, 4, 2, 2, 4, 6, 1, 3, 5, 3, 7, 5};
  return mesh;
}

MeshData crumb_mesh() {
  MeshData mesh;
  const std::array<glm::vec3, 6> tips{{{1, 0, 0},
                                       {-0.8F, 0.1F, 0},
                                       {0, 0.9F, 0.1F},
                                       {0.1F, -0.7F, 0},
                                       {0, 0.1F, 0.6F},
                                       {0.1F, 0, -0.5F}}};
  for (const glm::vec3& x : {tips[0], tips[1]}) {
    for (const glm::vec3& y : {tips[2], tips[3]}) {
      for (const glm::vec3& z : {tips[4], tips[5]}) {
        glm::vec3 normal = glm::cross(y - x, z - x);
        const bool outward = glm::dot(normal, x + y + z) > 0.0F;
        normal = glm::normalize(outward ? normal : -normal);
        for (const glm::vec3& corner : {x, outward ? y : z, outward ? z : y}) {
          mesh.indices.push_back(static_cast<std::uint16_t>(mesh.vertices.size()));
          mesh.vertices.push_back({corner, normal, {0.0F, 0.0F}});
        }
      }
    }
  }
  return mesh;
}

MeshData line_mesh() {
  MeshData mesh;
  mesh.vertices.assign(4, Vertex{glm::vec3(0.0F), glm::vec3(0.0F, 0.0F, 1.0F), glm::vec2(0.0F)});
  mesh.indices = {0, 1, 2, 1, 3, 2};
  return mesh;
}

}  // namespace driftbench::render
