// The plunge of bench_carve.cpp with OpenVDB: a sphere subtracted from the level set of a box.
#include "timing.h"

#include <openvdb/openvdb.h>
#include <openvdb/tools/Composite.h>
#include <openvdb/tools/LevelSetMeasure.h>
#include <openvdb/tools/LevelSetSphere.h>
#include <openvdb/tools/MeshToVolume.h>
#include <tbb/global_control.h>

namespace {

using namespace driftbench;

constexpr float kEdge_vox = 240.0F;
constexpr float kRadius_vox = 16.0F;
constexpr float kAdvance_vox = 0.5F;
constexpr int kCuts = 200;

void time_plunge() {
  constexpr float kHalf = 0.5F * kEdge_vox;
  const openvdb::math::BBox<openvdb::Vec3s> bounds(openvdb::Vec3s(-kHalf), openvdb::Vec3s(kHalf));
  const openvdb::FloatGrid::Ptr box = openvdb::tools::createLevelSetBox<openvdb::FloatGrid>(
      bounds, *openvdb::math::Transform::createLinearTransform(1.0));
  const double before = openvdb::tools::levelSetVolume(*box);
  bench::Durations tools;
  bench::Durations cuts;
  for (int i = 1; i <= kCuts; ++i) {
    const openvdb::Vec3f centre(
        0.0F, 0.0F, 0.5F * kEdge_vox + kRadius_vox - kAdvance_vox * static_cast<float>(i));
    openvdb::FloatGrid::Ptr ball;
    tools.time([&] {
      ball = openvdb::tools::createLevelSetSphere<openvdb::FloatGrid>(kRadius_vox, centre, 1.0F);
    });
    cuts.time([&] { openvdb::tools::csgDifference(*box, *ball); });
  }
  tools.print("tool");
  cuts.print("cut");
  fmt::print("removed_vox {:.1f}\nmemory_mb {:.1f}\n",
             before - openvdb::tools::levelSetVolume(*box),
             static_cast<double>(box->memUsage()) * 1e-6);
}

}  // namespace

int main() {
  // One thread, as ours; more would wait for each other on a busy machine.
  const tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
  openvdb::initialize();
  time_plunge();
  return 0;
}
