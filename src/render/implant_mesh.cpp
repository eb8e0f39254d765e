#include "render/implant_mesh.h"

#include "math/angle.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::render {
namespace {

constexpr float kTurn = static_cast<float>(2.0 * math::kPi);
constexpr int kAround = 60;
constexpr int kRowsPerPitch = 7;
constexpr int kMostRows = 400;
constexpr float kCollar_mm = 0.6F;  // smooth part below the platform

/// Share of the thread's depth that stands at a phase of 0..1: a V with a small land.
float crest(float phase) {
  const float x = phase - std::floor(phase);
  return std::clamp(1.25F - 2.5F * std::fabs(x - 0.5F), 0.0F, 1.0F);
}

}  // namespace

MeshData implant_mesh(const specimen::Implant& implant) {
  MeshData mesh;
  const specimen::ImplantThread thread = specimen::thread_of(implant);
  const float length = static_cast<float>(implant.length_mm);
  const float radius = 0.5F * static_cast<float>(implant.diameter_mm);
  const float end = 0.5F * static_cast<float>(thread.apex_diameter_mm);
  const float depth = radius - 0.5F * static_cast<float>(thread.core_diameter_mm);
  const float taper = static_cast<float>(thread.taper_mm);
  const float pitch = static_cast<float>(thread.pitch_mm);
  const float starts =
      std::max(1.0F, std::round(static_cast<float>(thread.lead_mm_per_rev / thread.pitch_mm)));
  const int rows = std::min(kMostRows, static_cast<int>(length / pitch * kRowsPerPitch));
  add_surface(mesh, kAround, rows, [&](float u, float v) {
    const float height = length * v;
    const float outer = end + (radius - end) * std::min(1.0F, height / taper);
    float share = crest(height / pitch - starts * u);
    const float to_end = std::clamp(height / (0.8F * pitch), 0.0F, 1.0F);
    const float to_collar = std::clamp((length - height) / kCollar_mm, 0.0F, 1.0F);
    share = to_collar < 1.0F ? std::max(share, 1.0F - to_collar) : share * to_end;
    const float r = outer - depth * (1.0F - share);
    return glm::vec3(r * std::cos(kTurn * u), r * std::sin(kTurn * u), height);
  });
  const float core_end = end - depth;
  const std::array<glm::vec2, 2> floor{{{0.0F, 0.0F}, {core_end, 0.0F}}};
  add_turned(mesh, floor, kAround);
  const float socket = static_cast<float>(kDriverRadius_mm);
  const std::array<glm::vec2, 4> platform{
      {{radius, length}, {socket, length}, {socket, length - 1.5F}, {0.0F, length - 1.5F}}};
  add_turned(mesh, platform, kAround);
  return mesh;
}

MeshData driver_mesh(const specimen::Implant& implant) {
  MeshData mesh;
  const float shaft = static_cast<float>(kDriverRadius_mm);
  const float wide = 0.5F * static_cast<float>(implant.diameter_mm) * 0.8F;
  const float top = static_cast<float>(kDriverLength_mm);
  const std::array<glm::vec2, 7> profile{{{0.0F, 0.02F},
                                          {wide, 0.02F},
                                          {wide, 2.4F},
                                          {wide - 0.3F, 2.7F},
                                          {shaft, 3.2F},
                                          {shaft, top + 2.0F},
                                          {0.0F, top + 2.0F}}};
  add_turned(mesh, profile, kAround);
  return mesh;
}

}  // namespace driftbench::render
