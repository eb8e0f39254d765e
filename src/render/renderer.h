// Draws looks at the site and sections through it into textures. Owns all GL objects; no ImGui.
#pragma once

#include "drilling/pose.h"
#include "render/camera.h"
#include "session/view.h"
#include "specimen/guide_seat.h"
#include "specimen/kit.h"
#include "specimen/plan.h"
#include "specimen/revolved_body.h"
#include "volume/volume.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::render {

/// What stands in the picture. Pointers are borrowed for the call.
struct Scene {
  const volume::Volume* volume = nullptr;
  const specimen::Plan* plan = nullptr;
  drilling::DrillPose pose;
  const specimen::Drill* drill = nullptr;      ///< null: no drill in hand
  const specimen::Implant* implant = nullptr;  ///< in hand or in the block; null: none
  drilling::DrillPose implant_pose;            ///< its end
  bool implant_in_hand = false;                ///< the driver is on it
  drilling::DrillPose pin_pose;                ///< the direction pin's end in the hole
  double pin_diameter_mm = 0.0;                ///< 0: no pin
  double pin_depth_mm = 0.0;                   ///< of it in the hole
  double stop_length_mm = 0.0;
  double spin_rad = 0.0;
  double chips = 0.0;  ///< 0..1, rate of debris
  bool irrigation = false;
  const specimen::Guide* guide = nullptr;     ///< null: no guide on the block
  const specimen::GuideSeat* seat = nullptr;  ///< null: four feet in a square round the entry
  const specimen::Sleeve* sleeve = nullptr;
  const specimen::Key* key = nullptr;  ///< null: no key in the sleeve
  session::GuideView guide_state;
  bool show_start_mark = true;
  bool show_plan = false;            ///< dashed plan overlay
  double planned_diameter_mm = 4.0;  ///< of the dashed cylinder
  bool see_through = false;          ///< debrief: specimen cut away along the plan
  /// Side that is cut away, as a camera heading: 0 removes the half toward -y, 90 that toward +x.
  double cut_heading_deg = 0.0;
  bool show_gum = true;  ///< of a piece of jaw; without it the bone lies bare
  double clear = 0.0;    ///< 0..1: bone lets the eye through to nerve and roots
  bool light_theme = false;
};

/// Bodies whose outlines a section shows.
inline constexpr int kSliceBodies = 3;

/// A section through any volume as a scan shows it, in any plane.
///
/// The value of a point is density times coverage (what was removed is black), each read linearly
/// between voxel centres, or both from the nearest voxel; `low` is drawn black, `high` white.
struct SliceRequest {
  math::Vec3 centre_mm{0.0};  ///< in the picture's middle
  math::Vec3 right_unit{1.0, 0.0, 0.0};
  math::Vec3 up_unit{0.0, 0.0, 1.0};
  double mm_per_pixel = 0.05;
  double low_mg_per_cm3 = 0.0;
  double high_mg_per_cm3 = 2040.0;
  bool single_voxels = false;                  ///< nearest instead of linear
  double tissue_colours = 0.0;                 ///< share, 0 grey only
  std::vector<specimen::RevolvedBody> bodies;  ///< outlines where the plane cuts them: implant,
                                               ///< drill (dashed), sleeve; at most kSliceBodies
  /// Above 0: not a section but a film, white where parallel rays of this length across the plane
  /// are lost, in bone after its density and in the first body as in iron (constants and their
  /// source: shaders/slice.frag). Enamel loses less than it would: the texture ends at 2,040
  /// mg/cm^3. Levels, tissues and outlines are not used then.
  double beam_mm = 0.0;
};

enum class SectionPlane {
  kMesioDistal,   ///< contains the planned axis and md: horizontal md, vertical out of the bone
  kBuccoLingual,  ///< contains the planned axis and bl
  kAxial          ///< perpendicular to the planned axis: horizontal md, vertical bl
};

/// One section through the material, in true scale.
struct SectionRequest {
  SectionPlane plane = SectionPlane::kMesioDistal;
  double offset_mm = 0.0;     ///< of the plane along its normal; axial: depth below the platform
  double centre_u_mm = 0.0;   ///< what lies in the picture's centre (md or bl)
  double centre_v_mm = -5.0;  ///< (out of the bone; axial: bl)
  double mm_per_pixel = 0.05;
  bool light_theme = false;
};

/// Texture that a picture was drawn into. `id` is a GL texture name, origin bottom left.
struct Picture {
  std::uint32_t id = 0;
  int width_px = 0;
  int height_px = 0;
};

/// How much work goes into edges.
enum class Smoothing {
  kFast,  ///< one sample per pixel, steps along edges smoothed afterwards (software GL, tablets)
  kFine   ///< four samples per pixel
};

class Renderer {
 public:
  Renderer();
  ~Renderer();
  Renderer(const Renderer&) = delete;
  Renderer& operator=(const Renderer&) = delete;

  void forget();  ///< the context is gone: drop names without deleting; upload() makes all anew

  /// Empty, or why something could not be made when it was first needed: nothing is drawn then.
  [[nodiscard]] const std::string& problem() const;

  /// Shaders and GL objects are made in the current context at the first upload, not at the start.
  /// Uploads a whole volume (new specimen) or its changed box, packed.
  void upload(const volume::Volume& volume);
  void update(const volume::Volume& volume, const volume::VoxelBox& box);

  void set_smoothing(Smoothing smoothing);

  /// The bound frame buffer, viewport and depth/blend/cull state are changed by the draw calls.
  /// `slot` 0..4 keeps several pictures alive at once.
  [[nodiscard]] Picture draw_look(int slot, const Scene& scene, const Camera& camera, int width_px,
                                  int height_px);
  [[nodiscard]] Picture draw_section(int slot, const Scene& scene, const SectionRequest& request,
                                     int width_px, int height_px);
  [[nodiscard]] Picture draw_slice(int slot, const SliceRequest& request, int width_px,
                                   int height_px);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace driftbench::render
