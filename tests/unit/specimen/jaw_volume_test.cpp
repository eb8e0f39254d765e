// The voxels of a jaw section against its exact shapes.
#include "specimen/jaw_volume.h"

#include "base/hash64.h"
#include "base/random.h"
#include "specimen/clearance.h"
#include "specimen/jaw_sources.h"
#include "volume/sample.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench {
namespace {

using math::Vec3;
using specimen::GumOpening;
using specimen::GumState;
using specimen::Jaw;
using specimen::JawRegion;
using specimen::Tissue;

constexpr double kHalfVoxel_mm = 0.1;

specimen::JawSpec with_teeth(JawRegion region) {
  specimen::JawSpec spec = typical_jaw(region);
  if (region == JawRegion::kPosteriorMaxilla) {
    spec.teeth = {{15, -9.0, 0.0, 2.0, 0.0, 0.0, 1.0}};
  }
  return spec;
}

TEST(JawVolume, BoneSurfaceLiesWhereTheShapeSays) {
  for (const JawRegion region : {JawRegion::kPosteriorMandible, JawRegion::kAnteriorMaxilla}) {
    specimen::JawSpec spec = typical_jaw(region);
    spec.teeth.clear();
    spec.nasopalatine.reset();
    spec.nose.reset();
    if (region == JawRegion::kPosteriorMandible) {
      spec.teeth = {{37, 11.2, 0.2, 2.6, 0.0, 0.0, 1.0}};  // so that the outline changes
    }
    const Jaw jaw(spec);
    const auto pose = specimen::pose_of(spec.site_fdi);
    const volume::Volume volume =
        build_jaw(jaw, pose, GumOpening{GumState::kFlap, Vec3(0.0), Vec3(0.0, 0.0, 1.0), 0.0});
    base::Rng rng(3);
    for (int i = 0; i < 2000; ++i) {
      const double station = rng.uniform(-0.45 * spec.length_mm, 5.8);
      const double at = rng.uniform(0.0, static_cast<double>(specimen::kOutlineSize));
      const Vec3 p = jaw.ridge().surface_mm(station, at);
      const bool is_near_the_arch_middle =
          spec.arch_radius_mm > 0.0 && p.y > 0.7 * spec.arch_radius_mm;
      if (p.z < -spec.depth_mm + 1.0 || std::fabs(p.x) > 0.5 * spec.length_mm - 1.0 ||
          is_near_the_arch_middle) {
        continue;
      }
      EXPECT_LT(std::fabs(volume::surface_gap_mm(volume, pose.to_core(p))), kHalfVoxel_mm)
          << p.x << ' ' << p.y << ' ' << p.z;
    }
  }
}

TEST(JawVolume, DistancesAgreeWithTheVoxels) {
  const specimen::JawSpec spec = with_teeth(JawRegion::kPosteriorMandible);
  const Jaw jaw(spec);
  const auto pose = specimen::pose_of(spec.site_fdi);
  const volume::Volume volume = build_jaw(jaw, pose, {});
  specimen::RevolvedBody implant;
  implant.radius_mm = 2.25;
  implant.length_mm = 9.0;
  implant.top_mm = {0.3, 0.2, -0.5};
  double nerve = 1e9;
  double root = 1e9;
  const volume::Grid& grid = volume.grid;
  for (int z = 0; z < grid.nz; ++z) {
    for (int y = 0; y < grid.ny; ++y) {
      for (int x = 0; x < grid.nx; ++x) {
        const auto tissue = static_cast<Tissue>(volume.tissue[grid.index(x, y, z)]);
        if (tissue != Tissue::kNerve && tissue != Tissue::kDentine) {
          continue;
        }
        const Vec3 p = pose.to_jaw(grid.centre_mm(x, y, z));
        if (tissue == Tissue::kNerve) {
          nerve = std::min(nerve, signed_distance_mm(implant, p));
        } else if (p.z < 1.5) {
          root = std::min(root, signed_distance_mm(implant, p));
        }
      }
    }
  }
  const std::array<specimen::RevolvedBody, 1> bodies{implant};
  double root_exact = 1e9;
  for (const specimen::Clearance& one : clearances(jaw, bodies)) {
    if (one.structure == specimen::Structure::kCanal) {
      EXPECT_NEAR(one.distance_mm, nerve, kHalfVoxel_mm);
    }
    if (one.structure == specimen::Structure::kRootMesial ||
        one.structure == specimen::Structure::kRootDistal) {
      root_exact = std::min(root_exact, one.distance_mm);
    }
  }
  EXPECT_NEAR(root_exact, root, kHalfVoxel_mm);
}

// Skipping and table against evaluating every shape at the voxel.
TEST(JawVolume, QuickBuildEqualsEveryShapeEvaluated) {
  for (const JawRegion region : {JawRegion::kPosteriorMandible, JawRegion::kAnteriorMandible,
                                 JawRegion::kPosteriorMaxilla, JawRegion::kAnteriorMaxilla}) {
    const specimen::JawSpec spec = with_teeth(region);
    const Jaw jaw(spec);
    const auto pose = specimen::pose_of(spec.site_fdi);
    const volume::Volume volume = build_jaw(jaw, pose, {});
    const volume::Grid& grid = volume.grid;
    base::Rng rng(11);
    int other_tissue = 0;
    constexpr int kPoints = 20000;
    for (int i = 0; i < kPoints; ++i) {
      const auto at = static_cast<std::size_t>(rng.below(grid.voxel_count()));
      const auto row = static_cast<std::size_t>(grid.nx);
      const auto slab = row * static_cast<std::size_t>(grid.ny);
      const Vec3 p =
          pose.to_jaw(grid.centre_mm(static_cast<int>(at % row), static_cast<int>(at % slab / row),
                                     static_cast<int>(at / slab)));
      const specimen::PointTissue exact = tissue_at(jaw, p, GumOpening{});
      const double cover = std::clamp(0.5 - 0.5 * exact.solid_mm / grid.spacing_mm, 0.0, 1.0);
      EXPECT_NEAR(volume.coverage[at] / 255.0, cover, 0.25) << p.x << ' ' << p.y << ' ' << p.z;
      other_tissue += volume.tissue[at] != static_cast<std::uint8_t>(exact.tissue) ? 1 : 0;
    }
    EXPECT_LT(other_tissue, kPoints / 100) << static_cast<int>(region);
  }
}

TEST(JawVolume, TheResultDoesNotDependOnHowTheWorkIsCut) {
  specimen::JawSpec spec = typical_jaw(JawRegion::kPosteriorMandible);
  spec.voxel_mm = 0.4;
  const Jaw jaw(spec);
  const auto pose = specimen::pose_of(spec.site_fdi);
  const volume::Volume whole = build_jaw(jaw, pose, {});
  specimen::JawBuilder builder(jaw, pose, {});
  double last = 0.0;
  int slices = 0;
  for (double done = 0.0; done < 1.0; ++slices) {
    done = builder.advance(5000);
    EXPECT_GE(done, last);
    last = done;
  }
  EXPECT_GT(slices, 20);
  const volume::Volume cut = builder.take();
  EXPECT_EQ(cut.coverage, whole.coverage);
  EXPECT_EQ(cut.density_mg_per_cm3, whole.density_mg_per_cm3);
  EXPECT_EQ(cut.tissue, whole.tissue);
  EXPECT_EQ(cut.initial_coverage, cut.coverage);
}

// The same bits with g++, clang++ and em++: every number comes from + - * / and sqrt.
TEST(JawVolume, TypicalJawsHaveTheSameVoxelsInEveryBuild) {
  base::Hash64 hash;
  for (const JawRegion region : {JawRegion::kPosteriorMandible, JawRegion::kAnteriorMandible,
                                 JawRegion::kPosteriorMaxilla, JawRegion::kAnteriorMaxilla}) {
    specimen::JawSpec spec = with_teeth(region);
    spec.voxel_mm = 0.5;
    const volume::Volume volume = build_jaw(Jaw(spec), specimen::pose_of(spec.site_fdi), {});
    hash.add_bytes(volume.coverage);
    hash.add_bytes(volume.tissue);
    for (const std::uint16_t density : volume.density_mg_per_cm3) {
      hash.add(density);
    }
  }
  EXPECT_EQ(base::to_hex16(hash.value()), "f36f87d912b8ae9e");
}

// Quadrants 2 and 4 are mirrored: tooth 46 is 36 seen in a mirror.
TEST(JawVolume, TheOtherSideIsTheMirrorImage) {
  specimen::JawSpec left = typical_jaw(JawRegion::kPosteriorMandible);
  left.voxel_mm = 0.4;
  specimen::JawSpec right = left;
  right.site_fdi = 46;
  const volume::Volume a = build_jaw(Jaw(left), specimen::pose_of(36), {});
  const volume::Volume b = build_jaw(Jaw(right), specimen::pose_of(46), {});
  ASSERT_EQ(a.grid.nx, b.grid.nx);
  int different = 0;
  for (int z = 0; z < a.grid.nz; ++z) {
    for (int y = 0; y < a.grid.ny; ++y) {
      for (int x = 0; x < a.grid.nx; ++x) {
        const std::size_t i = a.grid.index(x, y, z);
        const std::size_t j = a.grid.index(a.grid.nx - 1 - x, y, z);
        different += a.tissue[i] != b.tissue[j] || std::abs(a.coverage[i] - b.coverage[j]) > 1;
      }
    }
  }
  EXPECT_LT(different, 5);
  const specimen::Plan plan = plan_in_core(specimen::pose_of(46), {});
  EXPECT_EQ(plan.md_hint, Vec3(-1.0, 0.0, 0.0));
  EXPECT_EQ(plan.bl_hint, Vec3(0.0, 1.0, 0.0));
}

TEST(JawVolume, APoseTurnsTheSectionToThePlan) {
  for (const int fdi : {36, 46}) {
    specimen::JawSpec spec = typical_jaw(JawRegion::kPosteriorMandible);
    spec.site_fdi = fdi;
    const Jaw jaw(spec);
    const Vec3 axis = math::unit(Vec3(0.1, -0.15, 1.0));
    const auto pose = specimen::pose_at(fdi, {0.5, 0.3, -0.4}, axis);
    EXPECT_LT(math::length(pose.to_core({0.5, 0.3, -0.4})), 1e-12);
    EXPECT_LT(math::length(pose.direction_to_core(axis) - Vec3(0.0, 0.0, 1.0)), 1e-12);
    const volume::Volume volume = build_jaw(jaw, pose, {GumState::kFlap});
    base::Rng rng(3);
    for (int i = 0; i < 300; ++i) {
      const double station = rng.uniform(-4.0, 4.0);
      const double at = rng.uniform(0.0, static_cast<double>(specimen::kOutlineSize));
      const Vec3 p = jaw.ridge().surface_mm(station, at);
      EXPECT_LT(std::fabs(volume::surface_gap_mm(volume, pose.to_core(p))), 1.5 * kHalfVoxel_mm);
    }
  }
}

TEST(JawVolume, APunchOpensTheGumAndAFlapBaresTheBone) {
  const specimen::JawSpec spec = typical_jaw(JawRegion::kPosteriorMandible);
  const Jaw jaw(spec);
  const Vec3 in_gum(0.0, 0.0, 1.2);
  const auto tissue = [&](GumState state) {
    return tissue_at(jaw, in_gum, {state, Vec3(0.0), Vec3(0.0, 0.0, 1.0), 2.5}).tissue;
  };
  EXPECT_EQ(tissue(GumState::kIntact), Tissue::kGum);
  EXPECT_EQ(tissue(GumState::kFlap), Tissue::kAir);
  EXPECT_EQ(tissue(GumState::kPunch), Tissue::kAir);
  EXPECT_EQ(tissue_at(jaw, {3.5, 0.0, 1.2}, {GumState::kPunch}).tissue, Tissue::kGum);
}

TEST(JawVolume, SpongyBoneHasTheMeanDensityOfItsClass) {
  for (const auto density :
       {specimen::DensityClass::kD2, specimen::DensityClass::kD3, specimen::DensityClass::kD4}) {
    specimen::JawSpec spec = typical_jaw(JawRegion::kAnteriorMandible);
    spec.cancellous.density = density;
    const volume::Volume volume = build_jaw(Jaw(spec), specimen::pose_of(spec.site_fdi), {});
    double sum = 0.0;
    double squares = 0.0;
    double count = 0.0;
    for (std::size_t i = 0; i < volume.tissue.size(); ++i) {
      if (volume.tissue[i] == static_cast<std::uint8_t>(Tissue::kCancellous)) {
        const double value = volume.density_mg_per_cm3[i];
        sum += value;
        squares += value * value;
        ++count;
      }
    }
    const double mean = sum / count;
    EXPECT_NEAR(mean / specimen::cancellous_density(density), 1.0, 0.2);
    EXPECT_GT(std::sqrt(squares / count - mean * mean) / mean, 0.15);  // it has a texture
  }
}

}  // namespace
}  // namespace driftbench
