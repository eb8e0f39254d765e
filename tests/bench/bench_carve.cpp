// Times the removal kernel alone: a ball-nosed plunge through 256^3 voxels, and the app's own cuts.
#include "timing.h"

#include "specimen/block.h"
#include "volume/carve.h"

#include <algorithm>
#include <cstdint>
#include <string_view>

namespace {

using namespace driftbench;

constexpr int kEdge_vox = 256;
constexpr int kMargin_vox = 8;  // the same box as the level set of the peers
constexpr double kRadius_vox = 16.0;
constexpr double kAdvance_vox = 0.5;
constexpr int kCuts = 200;

constexpr double kDrillRadius_mm = 2.0;
constexpr double kDrillPoint_mm = 1.2;
constexpr double kDrillBody_mm = 20.0;
constexpr double kFeed_mm = 0.01;
constexpr int kDrillCuts = 1000;

/// A box of full voxels inside an empty rim; one voxel is one millimetre.
volume::Volume full_box() {
  volume::Grid grid;
  grid.nx = grid.ny = grid.nz = kEdge_vox;
  grid.spacing_mm = 1.0;
  volume::Volume volume = volume::make_volume(grid);
  for (int z = kMargin_vox; z < kEdge_vox - kMargin_vox; ++z) {
    for (int y = kMargin_vox; y < kEdge_vox - kMargin_vox; ++y) {
      const auto row =
          volume.coverage.begin() + static_cast<std::ptrdiff_t>(grid.index(kMargin_vox, y, z));
      std::fill(row, row + (kEdge_vox - 2 * kMargin_vox), volume::kFullCoverage);
    }
  }
  return volume;
}

/// A ball sinks from above the box by half a voxel per cut.
void time_plunge() {
  volume::Volume volume = full_box();
  volume::RevolvedSolid ball;
  ball.point = volume::RevolvedSolid::Point::kBall;
  ball.radius_mm = kRadius_vox;
  ball.neck_radius_mm = kRadius_vox;
  const math::Vec3 up(0.0, 0.0, 1.0);
  bench::Durations cuts;
  for (int i = 1; i <= kCuts; ++i) {
    const math::Vec3 tip(127.5, 127.5, kEdge_vox - kMargin_vox - 0.5 - kAdvance_vox * i);
    cuts.time([&] { volume::carve(volume, ball, tip, up, 0.0, 2.0 * kRadius_vox, 0); });
  }
  cuts.print("plunge");
  fmt::print("plunge_removed_vox {:.1f}\n", volume.removed_mm3());
}

/// Sinks the widest drill into the bench block, removing the stretch from its tip to `to_mm`.
void time_app(std::string_view name, volume::Volume block, double to_mm) {
  volume::RevolvedSolid drill;
  drill.radius_mm = kDrillRadius_mm;
  const math::Vec3 axis = math::unit(math::Vec3(0.02, -0.03, 1.0));
  bench::Durations cuts;
  for (int i = 1; i <= kDrillCuts; ++i) {
    const math::Vec3 tip = -kFeed_mm * i * axis;
    cuts.time([&] { volume::carve(block, drill, tip, axis, 0.0, to_mm, 0); });
  }
  cuts.print(name);
}

}  // namespace

int main() {
  time_plunge();
  const base::Result<volume::Volume> block = specimen::build_block({});
  if (!block) {
    return 1;
  }
  // As a step does: mostly the drill's point alone, the whole body when it has moved sideways.
  time_app("app_point", *block,
           kDrillPoint_mm + volume::kRampHalfWidth_vox * block->grid.spacing_mm);
  time_app("app_body", *block, kDrillBody_mm);
  return 0;
}
