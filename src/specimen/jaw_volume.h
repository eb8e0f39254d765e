// Fills a volume with a jaw section, in slices.
#pragma once

#include "specimen/jaw_grid.h"
#include "specimen/jaw_mixer.h"
#include "specimen/jaw_pose.h"
#include "specimen/ridge_table.h"
#include "volume/volume.h"

#include <cstdint>
#include <memory>

namespace driftbench::specimen {

/// Builds the voxels of a section piece by piece, so that a page can show progress.
///
///   JawBuilder builder(jaw, pose_of(jaw.spec().site_fdi), {});
///   while (builder.advance(200'000) < 1.0) { show progress }
///   volume::Volume volume = builder.take();
class JawBuilder {
 public:
  /// Keeps its own copy of the jaw. The volume's axes are those of the pose.
  JawBuilder(const Jaw& jaw, const JawPose& pose, const GumOpening& gum);
  ~JawBuilder();

  JawBuilder(const JawBuilder&) = delete;
  JawBuilder& operator=(const JawBuilder&) = delete;

  /// Works on for about `budget` units and gives the share done, 0..1; 1 when finished.
  ///
  /// Unit: one voxel near a border is one unit, about 0.3 microseconds on a desktop machine. The
  ///       result does not depend on how the work is cut.
  double advance(std::int64_t budget);

  /// The finished volume. Contract: advance() gave 1; taken once.
  [[nodiscard]] volume::Volume take();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// The whole volume at once.
[[nodiscard]] volume::Volume build_jaw(const Jaw& jaw, const JawPose& pose, const GumOpening& gum);

}  // namespace driftbench::specimen
