#include "render/drill_mesh.h"

#include "math/angle.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::render {
namespace {

constexpr float kTurn = static_cast<float>(2.0 * math::kPi);
constexpr int kAround = 72;
constexpr double kCollar_mm = 4.6;  // smooth part that carries the printed diameter

float smooth(float low, float high, float x) {
  const float t = std::clamp((x - low) / (high - low), 0.0F, 1.0F);
  return t * t * (3.0F - 2.0F * t);
}

/// Cross-section: share of the radius at an angle, 0..1 turns.
struct Flutes {
  int count = 2;
  float depth = 0.5F;      ///< share of the radius
  float land = 0.42F;      ///< share of the turn between two flutes that stays full
  float helix_mm = 12.0F;  ///< length of one turn

  [[nodiscard]] float radius_share(float turns) const {
    const float at = turns * static_cast<float>(count);
    const float x = at - std::floor(at);
    if (x < land) {
      // The land is relieved behind its leading margin.
      return x < 0.09F ? 1.0F : 0.965F;
    }
    const float y = (x - land) / (1.0F - land);
    // Steep at the cutting face, gentle at the heel.
    const float dip = smooth(0.0F, 0.62F, y) * (1.0F - smooth(0.86F, 1.0F, y));
    return 0.965F - depth * dip;
  }
};

Flutes flutes_of(const specimen::Drill& drill) {
  const float radius = 0.5F * static_cast<float>(drill.diameter_mm);
  switch (drill.kind) {
    case specimen::DrillKind::kTwist:
      return {2, 0.44F, 0.52F, 11.0F * radius};
    case specimen::DrillKind::kStarter:
      return {6, 0.16F, 0.35F, 24.0F * radius};
    case specimen::DrillKind::kSideCutter:
      return {4, 0.30F, 0.30F, 20.0F * radius};
  }
  return {};
}

/// Radius of the envelope at a height: point, body, run-out.
float envelope_mm(const specimen::Drill& drill, float height_mm) {
  const float radius = 0.5F * static_cast<float>(drill.diameter_mm);
  if (drill.kind == specimen::DrillKind::kStarter) {
    const float neck = 0.5F * radius;
    const float from_centre = height_mm - radius;
    const float ball = std::sqrt(std::max(radius * radius - from_centre * from_centre, 0.0F));
    return height_mm > radius ? std::max(ball, neck) : ball;
  }
  const float point = static_cast<float>(lengths_of(drill).point_mm);
  return height_mm < point ? radius * height_mm / point : radius;
}

}  // namespace

DrillLengths lengths_of(const specimen::Drill& drill) {
  DrillLengths lengths;
  lengths.point_mm = drill.kind == specimen::DrillKind::kStarter
                         ? 0.5 * drill.diameter_mm
                         : specimen::point_height_mm(drill.diameter_mm, drill.point_angle_deg);
  lengths.body_end_mm = lengths.point_mm + drill.body_length_mm;
  lengths.shank_mm = lengths.body_end_mm + kCollar_mm;
  lengths.head_mm = lengths.shank_mm + specimen::kFreeShank_mm;
  return lengths;
}

MeshData drill_mesh(const specimen::Drill& drill) {
  MeshData mesh;
  const DrillLengths lengths = lengths_of(drill);
  const float radius = 0.5F * static_cast<float>(drill.diameter_mm);
  const float point = drill.kind == specimen::DrillKind::kStarter
                          ? 2.0F * radius
                          : static_cast<float>(lengths.point_mm);
  const float body_end = static_cast<float>(lengths.body_end_mm);
  const Flutes flutes = flutes_of(drill);
  const bool is_ball = drill.kind == specimen::DrillKind::kStarter;

  // Point with many rows, then the body; flutes run out before the collar.
  constexpr int kPointRows = 14;
  const int body_rows = std::clamp(static_cast<int>((body_end - point) / 0.28F), 12, 110);
  const float point_share =
      static_cast<float>(kPointRows) / static_cast<float>(kPointRows + body_rows);
  add_surface(mesh, kAround, kPointRows + body_rows, [&](float u, float v) {
    const float height =
        v < point_share ? point * v / point_share
                        : point + (body_end - point) * (v - point_share) / (1.0F - point_share);
    const float outer = envelope_mm(drill, height);
    float share = flutes.radius_share(u);
    const float run_out = is_ball ? smooth(1.5F * radius, 2.0F * radius, height)
                                  : smooth(body_end - 0.9F * radius, body_end, height);
    share = share + (1.0F - share) * run_out;
    // The flute's floor meets the cone where the web begins.
    const float r = is_ball ? outer * share : std::min(radius * share, outer);
    // The mesh winds with the flutes, so that their edges stay clean.
    const float angle = kTurn * (u + height / flutes.helix_mm);
    return glm::vec3(r * std::cos(angle), r * std::sin(angle), height);
  });

  const float body_radius = is_ball ? 0.5F * radius : radius;
  const float shank = 0.5F * static_cast<float>(drill.shank_diameter_mm);
  const float collar = std::max(radius, shank);
  const float shank_begin = static_cast<float>(lengths.shank_mm);
  const float head = static_cast<float>(lengths.head_mm);
  const float step = std::min(0.35F * std::fabs(collar - body_radius) + 0.05F, 0.6F);
  const std::array<glm::vec2, 7> upper{{{body_radius, body_end},
                                        {collar, body_end + step},
                                        {collar, shank_begin - 0.35F},
                                        {collar - 0.08F, shank_begin - 0.12F},
                                        {shank, shank_begin},
                                        {shank, head + 2.0F},
                                        {0.0F, head + 2.0F}}};
  add_turned(mesh, upper, kAround);
  return mesh;
}

MeshData stop_mesh(double drill_radius_mm) {
  MeshData mesh;
  const float inner = static_cast<float>(drill_radius_mm);
  const float outer = inner + 1.15F;
  const std::array<glm::vec2, 9> profile{{{inner * 0.9F, 0.0F},
                                          {outer - 0.15F, 0.0F},
                                          {outer, 0.15F},
                                          {outer, 0.9F},
                                          {outer - 0.12F, 1.0F},
                                          {outer - 0.12F, 1.25F},
                                          {outer, 1.35F},
                                          {outer - 0.05F, 2.1F},
                                          {inner * 0.9F, 2.3F}}};
  add_turned(mesh, profile, 48);
  return mesh;
}

MeshData pin_mesh(double diameter_mm, double depth_mm) {
  MeshData mesh;
  constexpr float kGroove_mm = 0.25F;
  const float radius = 0.5F * static_cast<float>(diameter_mm);
  const float depth = static_cast<float>(depth_mm);
  const float top = depth + static_cast<float>(kPinAbove_mm);
  const std::array<glm::vec2, 8> profile{{{0.0F, 0.0F},
                                          {radius, 0.3F},
                                          {radius, depth},
                                          {radius - kGroove_mm, depth + kGroove_mm},
                                          {radius, depth + 2.0F * kGroove_mm},
                                          {radius, top - 0.4F},
                                          {radius - 0.4F, top},
                                          {0.0F, top}}};
  add_turned(mesh, profile, 48);
  return mesh;
}

}  // namespace driftbench::render
