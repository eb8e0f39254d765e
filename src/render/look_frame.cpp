#include "render/look_frame.h"

#include "math/rotation.h"
#include "render/drill_mesh.h"
#include "render/implant_mesh.h"
#include "render/projection.h"

#include <glm/ext/matrix_clip_space.hpp>
#include <glm/ext/matrix_transform.hpp>
#include <glm/geometric.hpp>
#include <glm/gtc/matrix_inverse.hpp>

#include <algorithm>
#include <cmath>

namespace driftbench::render {
namespace {

constexpr float kNear_mm = 4.0F;
constexpr float kFar_mm = 600.0F;
constexpr double kMarkArm_mm = 2.2;

/// Rigid transform: columns of the turn, then the place.
glm::mat4 rigid(const math::Mat3& turn, const math::Vec3& place) {
  glm::mat4 m(1.0F);
  for (int column = 0; column < 3; ++column) {
    m[column] = glm::vec4(glm::vec3(turn[column]), 0.0F);
  }
  m[3] = glm::vec4(glm::vec3(place), 1.0F);
  return m;
}

float radians(double degrees) {
  return static_cast<float>(math::Radians(math::Degrees(degrees)).value);
}

/// Undoes encoded() of frame.glsl, so that the backdrop comes out as the theme has it.
glm::vec3 decoded(const glm::vec3& stored) {
  const auto channel = [](float s) {
    // c (1 + 0.11 c) / (1 + 0.52 c) = s^2
    const float y = s * s;
    const float b = 1.0F - 0.52F * y;
    return (-b + std::sqrt(b * b + 0.44F * y)) / 0.22F;
  };
  return {channel(stored.x), channel(stored.y), channel(stored.z)};
}

}  // namespace

glm::vec3 background_colour(bool light_theme) {
  return light_theme ? glm::vec3(0.937F, 0.953F, 0.961F) : glm::vec3(0.059F, 0.086F, 0.110F);
}

Placement placement_of(const Scene& scene) {
  Placement placement;
  const math::Vec3 axis = scene.pose.axis_out_unit;
  const math::Mat3 still = math::frame_from_axis(axis, math::Vec3(1.0, 0.0, 0.0));
  const float spin = -static_cast<float>(std::fmod(scene.spin_rad, 2.0 * math::kPi));
  const glm::vec3 up(0.0F, 0.0F, 1.0F);
  if (scene.implant != nullptr) {
    const drilling::DrillPose& pose = scene.implant_pose;
    const math::Mat3 turn = math::frame_from_axis(pose.axis_out_unit, math::Vec3(1.0, 0.0, 0.0));
    const math::Vec3 platform = pose.tip_mm + scene.implant->length_mm * pose.axis_out_unit;
    const float turned = scene.implant_in_hand ? spin : 0.0F;
    placement.implant = glm::rotate(rigid(turn, pose.tip_mm), turned, up);
    placement.driver = glm::rotate(rigid(turn, platform), turned, up);
    placement.handpiece = rigid(turn, platform + kDriverLength_mm * pose.axis_out_unit);
  }
  if (scene.drill != nullptr) {
    const DrillLengths lengths = lengths_of(*scene.drill);
    // Clockwise seen from the handpiece, that is against the axis.
    placement.drill = glm::rotate(rigid(still, scene.pose.tip_mm), spin, up);
    placement.handpiece = rigid(still, scene.pose.tip_mm + lengths.head_mm * axis);
    placement.stop =
        rigid(still, scene.pose.tip_mm + (lengths.point_mm + scene.stop_length_mm) * axis);
  }
  if (scene.pin_diameter_mm > 0.0) {
    const drilling::DrillPose& pose = scene.pin_pose;
    placement.pin =
        rigid(math::frame_from_axis(pose.axis_out_unit, math::Vec3(1.0, 0.0, 0.0)), pose.tip_mm);
  }
  if (scene.guide != nullptr) {
    const drilling::DrillPose& sleeve = scene.guide_state.sleeve;
    placement.guide = rigid(math::frame_from_axis(sleeve.axis_out_unit, math::Vec3(1.0, 0.0, 0.0)),
                            sleeve.tip_mm);
  }
  return placement;
}

namespace {

/// How far over the plate an arm ends, so that it passes over what stands between hub and foot.
float lift_past(const VolumeTexture& volume, const math::Vec3& hub_mm, const math::Vec3& foot_mm,
                double plate_mm) {
  constexpr int kPlaces = 16;
  constexpr double kOver_mm = 1.6;  // the arm's half height and a little air
  double lift = 0.0;
  for (int i = kPlaces / 4; i <= kPlaces; ++i) {
    const double share = static_cast<double>(i) / kPlaces;
    const math::Vec3 at = hub_mm + share * (foot_mm - hub_mm);
    const double needed = volume.top_mm(at.x, at.y) + kOver_mm - plate_mm;
    lift = std::max(lift, needed / share);
  }
  return static_cast<float>(std::min(lift, 8.0));
}

}  // namespace

GuideShape guide_shape(const Scene& scene, const VolumeTexture& volume) {
  GuideShape shape;
  if (scene.sleeve != nullptr) {
    shape.sleeve_outer_diameter_mm = scene.sleeve->outer_diameter_mm;
    shape.sleeve_height_mm = scene.sleeve->height_mm;
  }
  const math::Vec3 entry = scene.plan != nullptr ? scene.plan->entry_mm : math::Vec3(0.0);
  if (scene.seat != nullptr && scene.plan != nullptr) {
    const math::Vec3& out = scene.plan->axis_out_unit;
    const math::Mat3 axes = math::frame_from_axis(out, math::Vec3(1.0, 0.0, 0.0));
    const math::Vec3 hub = entry + scene.guide->gap_mm * out;
    for (std::size_t corner = 0; corner < shape.sole_mm.size(); ++corner) {
      const math::Vec3& foot = scene.seat->feet[corner].at_mm;
      shape.sole_mm[corner] = glm::vec3(glm::transpose(axes) * (foot - hub));
      shape.lift_mm[corner] = lift_past(volume, hub, foot, hub.z + plate_middle_mm(shape));
    }
    return shape;
  }
  const double half = 0.5 * scene.guide->foot_span_mm;
  for (std::size_t corner = 0; corner < shape.sole_mm.size(); ++corner) {
    const double x = corner == 0 || corner == 3 ? half : -half;
    const double y = corner < 2 ? half : -half;
    const double top = volume.top_mm(entry.x + x, entry.y + y);
    shape.sole_mm[corner] = glm::vec3(math::Vec3(x, y, top - entry.z - scene.guide->gap_mm));
  }
  return shape;
}

FrameUniforms specimen_frame(const VolumeTexture& volume, bool light_theme) {
  FrameUniforms frame;
  frame.to_light =
      glm::vec4(glm::normalize(glm::vec3(0.34F, -0.58F, 0.95F)), light_theme ? 1.0F : 0.0F);
  frame.box_min = glm::vec4(volume.box_min_mm(), static_cast<float>(volume.voxel_mm()));
  // The specimen's first half voxel is air, so the bench lies a voxel higher than the box.
  frame.box_max = glm::vec4(volume.box_max_mm(),
                            volume.box_min_mm().z + 1.5F * static_cast<float>(volume.voxel_mm()));
  frame.lattice_min = glm::vec4(volume.lattice_min_mm(), kLargestDensity_mg_per_cm3);
  frame.lattice_scale = glm::vec4(1.0F / volume.lattice_extent_mm(), 0.0F);
  const glm::vec3 backdrop = decoded(background_colour(light_theme));
  frame.backdrop = glm::vec4(backdrop, 0.0F);
  frame.bench =
      light_theme ? glm::vec4(0.42F, 0.43F, 0.425F, 0.0F) : glm::vec4(0.054F, 0.062F, 0.070F, 0.0F);
  return frame;
}

FrameUniforms look_frame(const Scene& scene, const Camera& camera, const VolumeTexture& volume,
                         int width_px, int height_px) {
  FrameUniforms frame = specimen_frame(volume, scene.light_theme);
  const CameraFrame view = frame_of(camera);
  const PictureSize size{static_cast<double>(width_px), static_cast<double>(height_px)};
  const glm::mat4 to_clip =
      glm::perspective(radians(camera.field_of_view_deg),
                       static_cast<float>(size.width_px / size.height_px), kNear_mm, kFar_mm);
  const glm::mat4 to_eye = glm::lookAt(
      glm::vec3(view.eye_mm), glm::vec3(view.eye_mm + view.forward_unit), glm::vec3(view.up_unit));
  frame.world_to_clip = to_clip * to_eye;
  frame.clip_to_world = glm::inverse(frame.world_to_clip);
  const double pixel_mm = mm_per_pixel(camera, size, view.eye_mm + view.forward_unit);
  frame.eye = glm::vec4(glm::vec3(view.eye_mm), static_cast<float>(pixel_mm));

  const Placement placement = placement_of(scene);
  if (scene.drill != nullptr) {
    const DrillLengths lengths = lengths_of(*scene.drill);
    frame.drill_tip = glm::vec4(glm::vec3(scene.pose.tip_mm),
                                0.5F * static_cast<float>(scene.drill->diameter_mm));
    frame.drill_axis =
        glm::vec4(glm::vec3(scene.pose.axis_out_unit), static_cast<float>(lengths.point_mm));
    frame.drill_lengths =
        glm::vec4(static_cast<float>(lengths.body_end_mm),
                  0.5F * static_cast<float>(scene.drill->shank_diameter_mm),
                  static_cast<float>(lengths.head_mm), static_cast<float>(kHeadRadius_mm));
  }
  if (scene.pin_diameter_mm > 0.0) {
    // Its shadow, as a body without a shank.
    const auto radius = 0.5F * static_cast<float>(scene.pin_diameter_mm);
    const auto length = static_cast<float>(scene.pin_depth_mm + kPinAbove_mm);
    frame.drill_tip = glm::vec4(glm::vec3(scene.pin_pose.tip_mm), radius);
    frame.drill_axis = glm::vec4(glm::vec3(scene.pin_pose.axis_out_unit), 0.3F);
    frame.drill_lengths = glm::vec4(length, radius, length, 0.0F);
  }
  if (scene.drill == nullptr && scene.implant != nullptr && scene.implant_in_hand) {
    // Its shadow, with the implant as body and the driver as shank.
    const drilling::DrillPose& pose = scene.implant_pose;
    const auto length = static_cast<float>(scene.implant->length_mm);
    frame.drill_tip =
        glm::vec4(glm::vec3(pose.tip_mm), 0.5F * static_cast<float>(scene.implant->diameter_mm));
    frame.drill_axis = glm::vec4(glm::vec3(pose.axis_out_unit), 1.0F);
    frame.drill_lengths = glm::vec4(length, static_cast<float>(kDriverRadius_mm),
                                    length + static_cast<float>(kDriverLength_mm),
                                    static_cast<float>(kHeadRadius_mm));
  }
  if (scene.guide != nullptr && scene.guide_state.placed) {
    const GuideShape shape = guide_shape(scene, volume);
    frame.world_to_guide = glm::affineInverse(placement.guide);
    for (std::size_t corner = 0; corner < shape.sole_mm.size(); ++corner) {
      frame.guide_soles[corner] = glm::vec4(shape.sole_mm[corner], 0.0F);
    }
    frame.guide = glm::vec4(0.0F, static_cast<float>(plate_middle_mm(shape)), 0.0F,
                            static_cast<float>(hub_radius_mm(shape)));
  }
  const math::Vec3 entry = scene.plan != nullptr ? scene.plan->entry_mm : math::Vec3(0.0);
  if (scene.show_start_mark) {
    frame.start_mark = glm::vec4(glm::vec3(entry), static_cast<float>(kMarkArm_mm));
  }
  if (scene.see_through) {
    const float heading = radians(scene.cut_heading_deg);
    const glm::vec3 toward(std::sin(heading), -std::cos(heading), 0.0F);
    frame.cut = glm::vec4(toward, glm::dot(toward, glm::vec3(entry)));
  }
  return frame;
}

}  // namespace driftbench::render
