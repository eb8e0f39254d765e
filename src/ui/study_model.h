// A piece of jaw under study: what the study screen shows, and what it remembers between frames.
#pragma once

#include "lesson/case_plan_edit.h"
#include "lesson/case_plan_review.h"
#include "specimen/jaw_pose.h"
#include "ui/slice_frame.h"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace driftbench::ui {

/// Borrowed from app/ for one frame.
struct StudyView {
  std::uint32_t serial = 0;  ///< of this opening; another one starts the views afresh
  const lesson::SpecimenCase* specimen = nullptr;
  const specimen::JawPose* pose = nullptr;  ///< of the volume in the jaw frame
  const volume::Volume* volume = nullptr;   ///< null while it is being built
  double built_share = 0.0;                 ///< 0..1
  const lesson::PlanHistory* plan = nullptr;
  const lesson::PlanReview* review = nullptr;
  const std::vector<lesson::DrillStep>* steps = nullptr;
  const lesson::DensityAlong* density = nullptr;
  bool is_guide_reckoned = false;  ///< set-up, room and budget in the model are of this plan
  std::string_view guide_problem;  ///< why there are none
};

/// What a click in a section does.
enum class StudyTool { kLook, kDistance, kAngle };

/// Levels of the picture.
enum class DensityWindow { kBone, kSoftTissue, kWholeRange };

/// Drawn black and white. Unit: model density in mg/cm^3; own choice
struct WindowLevels {
  double low_mg_per_cm3;
  double high_mg_per_cm3;

  friend bool operator==(const WindowLevels&, const WindowLevels&) = default;
};

[[nodiscard]] constexpr WindowLevels levels_of(DensityWindow window) {
  switch (window) {
    case DensityWindow::kBone:
      return {100.0, 1900.0};
    case DensityWindow::kSoftTissue:
      return {0.0, 160.0};
    case DensityWindow::kWholeRange:
      break;
  }
  return {0.0, 2040.0};
}

/// A distance (two points) or an angle (three, the second is its corner). Frame: core frame.
struct Measurement {
  SliceKind slice = SliceKind::kBuccoLingual;
  StudyTool tool = StudyTool::kDistance;
  std::vector<math::Vec3> points_mm;

  [[nodiscard]] std::size_t wanted() const { return tool == StudyTool::kAngle ? 3 : 2; }

  [[nodiscard]] bool is_complete() const { return points_mm.size() == wanted(); }
};

enum class StudyTab { kStudy, kPlan, kGuide };

/// What a drag in a section holds.
enum class StudyGrip { kNone, kCross, kImplant, kApex, kPoint };

struct StudyState {
  std::optional<std::uint32_t> shown;  ///< serial of the opening
  SliceCross cross;
  StudyTool tool = StudyTool::kLook;
  DensityWindow window = DensityWindow::kBone;
  bool tissue_colours = true;
  bool single_voxels = false;
  bool show_gum = true;
  bool cut = true;
  bool clear = false;
  bool show_crown = true;
  StudyTab tab = StudyTab::kStudy;
  /// Shown where only one picture has room; empty: the look.
  std::optional<SliceKind> picture = SliceKind::kBuccoLingual;
  int zoom = 0;
  math::Vec3 centre_mm{0.0};
  double heading_deg = -35.0;
  double elevation_deg = 18.0;

  std::vector<Measurement> measurements;
  StudyGrip grip = StudyGrip::kNone;
  std::uint32_t gesture = 0;
  std::size_t grip_measurement = 0;
  std::size_t grip_point = 0;
  math::Vec3 grip_from_mm{0.0};
  lesson::CasePlan grip_plan;
};

/// One section that app/ draws for the next frame.
struct SlicePicture {
  SlicePlane plane;
  double mm_per_px = 0.05;

  friend bool operator==(const SlicePicture&, const SlicePicture&) = default;
};

/// Everything that decides how the study's pictures look.
struct StudyPictures {
  std::array<SlicePicture, kSliceCount> slices;
  WindowLevels levels{0.0, 2040.0};
  bool tissue_colours = false;
  bool single_voxels = false;
  bool show_gum = true;
  bool cut = false;
  double clear = 0.0;
  math::Vec3 look_at_mm{0.0};
  math::Vec3 cut_at_mm{0.0};
  double heading_deg = 0.0;
  double elevation_deg = 0.0;

  friend bool operator==(const StudyPictures&, const StudyPictures&) = default;
};

/// Distance or angle in words.
[[nodiscard]] double length_mm(const Measurement& distance);
[[nodiscard]] double angle_deg(const Measurement& angle);

}  // namespace driftbench::ui
