// Times the building of jaw sections and the clearances of one implant with its deepest drill.
#include "timing.h"

#include "specimen/clearance.h"
#include "specimen/jaw_sources.h"
#include "specimen/jaw_volume.h"

#include <array>
#include <string_view>

namespace {

using namespace driftbench;

constexpr int kBuilds = 3;
constexpr int kClearances = 20;
constexpr std::int64_t kSlice = 20000;

void time_build(std::string_view name, const specimen::JawSpec& spec) {
  bench::Durations builds;
  bench::Durations slices;
  double voxels = 0.0;
  for (int i = 0; i < kBuilds; ++i) {
    builds.time([&] {
      const specimen::Jaw jaw(spec);
      specimen::JawBuilder builder(jaw, specimen::pose_of(spec.site_fdi), {});
      for (double done = 0.0; done < 1.0;) {
        slices.time([&] { done = builder.advance(kSlice); });
      }
      voxels = static_cast<double>(builder.take().grid.voxel_count());
    });
  }
  builds.print(name);
  fmt::print("{}_million_voxels {:.2f}\n{}_slice_p95_us {:.1f}\n", name, voxels * 1e-6, name,
             slices.quantile_us(0.95));
}

/// A long section at 0.2 mm with four teeth: more than ten million voxels.
specimen::JawSpec long_section() {
  specimen::JawSpec spec = typical_jaw(specimen::JawRegion::kAnteriorMaxilla);
  spec.length_mm = 66.0;
  spec.arch_radius_mm = 120.0;
  spec.teeth = {{21, -9.0, 0.0, 2.0, 0.0, 0.0, 1.0},
                {12, 8.0, 0.0, 2.0, 0.0, 0.0, 1.0},
                {13, 15.2, 0.0, 2.0, 0.0, 0.0, 1.0},
                {22, -17.0, 0.0, 2.0, 0.0, 0.0, 1.0}};
  return spec;
}

void time_clearances() {
  const specimen::Jaw jaw(typical_jaw(specimen::JawRegion::kPosteriorMandible));
  specimen::RevolvedBody implant;
  specimen::RevolvedBody drill = implant;
  drill.point_mm = 1.2;
  const std::array<specimen::RevolvedBody, 2> bodies{implant, drill};
  bench::Durations queries;
  for (int i = 0; i < kClearances; ++i) {
    queries.time([&] { static_cast<void>(clearances(jaw, bodies)); });
  }
  queries.print("clearances");
}

}  // namespace

int main() {
  time_build("jaw_large", long_section());
  time_build("jaw_molar", typical_jaw(specimen::JawRegion::kPosteriorMandible));
  time_clearances();
  return 0;
}
