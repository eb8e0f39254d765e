#include "specimen/jaw_volume.h"

#include "base/contract.h"

#include <algorithm>
#include <cmath>

namespace driftbench::specimen {
namespace {

constexpr int kBrick = 16;       // voxels along the edge of what is decided at once
constexpr int kSmallestBox = 4;  // boxes are halved down to this edge
/// Distances of changing outlines and of lofted bodies are estimates: at least this share of them
/// is true.
constexpr double kSureShare = 0.8;
constexpr double kSureBoneShare = 0.65;

/// What a box of voxels holds, as far as its middle tells.
enum class Content { kOpen, kSpongy, kMixed };

}  // namespace

struct JawBuilder::State {
  Jaw jaw;
  JawPose pose;
  GumOpening gum;
  volume::Volume volume;
  RidgeTable table;
  int stations_done = 0;
  int brick = 0;
  int bricks_x = 0, bricks_y = 0, bricks_z = 0;
  double widest_gum_mm = 0.0;

  State(const Jaw& the_jaw, const JawPose& the_pose, const GumOpening& the_gum,
        const math::Vec3& table_low, const math::Vec3& table_high)
      : jaw(the_jaw),
        pose(the_pose),
        gum(the_gum),
        volume(volume::make_volume(jaw_grid(the_jaw.spec(), the_pose))),
        table(jaw.ridge(), table_low, table_high) {
    const volume::Grid& grid = volume.grid;
    volume.tissue.assign(grid.voxel_count(), 0);
    bricks_x = (grid.nx + kBrick - 1) / kBrick;
    bricks_y = (grid.ny + kBrick - 1) / kBrick;
    bricks_z = (grid.nz + kBrick - 1) / kBrick;
    widest_gum_mm = std::max(jaw.spec().gum.crest_mm, jaw.spec().gum.side_mm);
  }

  [[nodiscard]] int brick_count() const { return bricks_x * bricks_y * bricks_z; }

  [[nodiscard]] OutlineDistance bone_at(const math::Vec3& in_jaw) const {
    return table.at(jaw.ridge().arch().to_arch(in_jaw));
  }

  [[nodiscard]] NearParts parts_near(const math::Vec3& p, double reach_mm,
                                     const NearParts& maybe) const;
  [[nodiscard]] Content content_of(const math::Vec3& middle, double reach_mm,
                                   const NearParts& parts) const;
  [[nodiscard]] bool is_inside_cuts(const math::Vec3& p, double reach_mm) const;
  std::int64_t fill_brick(int index);
  std::int64_t fill_box(const volume::VoxelBox& box, const NearParts& maybe, int edge);
  /// Calls fill(index, place in the jaw frame) for every voxel of a box.
  template <class Fill>
  void for_each_voxel(const volume::VoxelBox& box, Fill fill) const;
  void fill_spongy(const volume::VoxelBox& box);
  void fill_mixed(const volume::VoxelBox& box, const NearParts& parts);
};

NearParts JawBuilder::State::parts_near(const math::Vec3& p, double reach_mm,
                                        const NearParts& maybe) const {
  const auto near_body = [&](const LoftedBody& body, double margin_mm) {
    return math::length(p - body.middle_mm()) < body.reach_mm() + reach_mm + margin_mm &&
           kSureShare * body.distance_mm(p) < reach_mm + margin_mm;
  };
  const auto near_tooth = [&](const ToothShape& tooth) {
    constexpr double kCollar_mm = 2.0;
    return near_body(tooth.crown(), kCollar_mm) ||
           (tooth.implant() && signed_distance_mm(*tooth.implant(), p) < reach_mm + kCollar_mm) ||
           std::any_of(tooth.roots().begin(), tooth.roots().end(),
                       [&](const LoftedBody& root) { return near_body(root, kCollar_mm); });
  };
  NearParts parts;
  parts.teeth = 0;
  for (std::size_t i = 0; i < jaw.teeth().size(); ++i) {
    const std::uint32_t bit = 1U << i;
    parts.teeth |= (maybe.teeth & bit) != 0U && near_tooth(jaw.teeth()[i]) ? bit : 0U;
  }
  parts.canals = false;
  for (const std::optional<Tube>* tube : {&jaw.canal(), &jaw.foramen(), &jaw.nasopalatine()}) {
    parts.canals = parts.canals ||
                   (*tube && signed_distance_mm(**tube, p) < reach_mm + (*tube)->wall_mm + 0.5);
  }
  constexpr double kLining_mm = 2.5;
  parts.lumens = maybe.lumens && ((jaw.sinus() && near_body(*jaw.sinus(), kLining_mm)) ||
                                  (jaw.nose() && near_body(*jaw.nose(), kLining_mm)));
  parts.socket = maybe.socket && jaw.socket() && near_tooth(*jaw.socket());
  return parts;
}

bool JawBuilder::State::is_inside_cuts(const math::Vec3& p, double reach_mm) const {
  return std::fabs(p.x) + reach_mm < 0.5 * jaw.spec().length_mm &&
         -p.z + reach_mm < jaw.spec().depth_mm;
}

template <class Fill>
void JawBuilder::State::for_each_voxel(const volume::VoxelBox& box, Fill fill) const {
  const volume::Grid& grid = volume.grid;
  const math::Vec3 along_x = pose.direction_to_jaw({grid.spacing_mm, 0.0, 0.0});
  for (int z = box.z_begin; z < box.z_end; ++z) {
    for (int y = box.y_begin; y < box.y_end; ++y) {
      const math::Vec3 row = pose.to_jaw(grid.centre_mm(0, y, z));
      for (int x = box.x_begin; x < box.x_end; ++x) {
        fill(grid.index(x, y, z), row + static_cast<double>(x) * along_x);
      }
    }
  }
}

void JawBuilder::State::fill_spongy(const volume::VoxelBox& box) {
  const CancellousSpec& spec = jaw.spec().cancellous;
  const double mean = cancellous_density(spec.density);
  for_each_voxel(box, [&](std::size_t at, const math::Vec3& p) {
    const double density = spongy_density(mean, spec.contrast, jaw.trabeculae().at(p));
    volume.density_mg_per_cm3[at] = static_cast<std::uint16_t>(static_cast<int>(density + 0.5));
    volume.coverage[at] = volume::kFullCoverage;
    volume.tissue[at] = static_cast<std::uint8_t>(Tissue::kCancellous);
  });
}

void JawBuilder::State::fill_mixed(const volume::VoxelBox& box, const NearParts& parts) {
  const double spacing_mm = volume.grid.spacing_mm;
  const double per_ramp = 0.5 / (volume::kRampHalfWidth_vox * spacing_mm);
  for_each_voxel(box, [&](std::size_t at, const math::Vec3& p) {
    const PointTissue value = tissue_at(jaw, p, bone_at(p), parts, gum, spacing_mm);
    const double cover = std::clamp(0.5 - value.solid_mm * per_ramp, 0.0, 1.0);
    volume.coverage[at] =
        static_cast<std::uint8_t>(static_cast<int>(cover * volume::kFullCoverage + 0.5));
    volume.density_mg_per_cm3[at] =
        static_cast<std::uint16_t>(static_cast<int>(value.density_mg_per_cm3 + 0.5));
    volume.tissue[at] = static_cast<std::uint8_t>(value.tissue);
  });
}

Content JawBuilder::State::content_of(const math::Vec3& middle, double reach_mm,
                                      const NearParts& parts) const {
  const OutlineDistance bone = bone_at(middle);
  const bool is_plain = parts.teeth == 0 && !parts.canals && !parts.lumens && !parts.socket;
  const double spacing = volume.grid.spacing_mm;
  if (is_plain && kSureBoneShare * bone.distance_mm - reach_mm > widest_gum_mm + 2.0 * spacing) {
    return Content::kOpen;
  }
  const auto is_deep_in = [&](const std::optional<LoftedBody>& lumen) {
    return lumen && lumen->distance_mm(middle) < 0.0;
  };
  const double sure_in = -kSureBoneShare * bone.distance_mm - reach_mm;
  const bool is_spongy = is_plain && is_inside_cuts(middle, reach_mm + 0.5) &&
                         !is_deep_in(jaw.sinus()) && !is_deep_in(jaw.nose()) &&
                         sure_in > bone.cortex_mm + kDenserReach_mm;
  return is_spongy ? Content::kSpongy : Content::kMixed;
}

/// Fills one box: what is plain at once, the rest in eight smaller boxes or voxel by voxel. Gives
/// the work done.
std::int64_t JawBuilder::State::fill_box(const volume::VoxelBox& box, const NearParts& maybe,
                                         int edge) {
  const volume::Grid& grid = volume.grid;
  const math::Vec3 middle =
      pose.to_jaw(0.5 * (grid.centre_mm(box.x_begin, box.y_begin, box.z_begin) +
                         grid.centre_mm(box.x_end - 1, box.y_end - 1, box.z_end - 1)));
  const double reach = 0.5 * (edge + 1) * std::sqrt(3.0) * grid.spacing_mm;
  const NearParts parts = parts_near(middle, reach, maybe);
  constexpr std::int64_t kLooked = 8;
  switch (content_of(middle, reach, parts)) {
    case Content::kOpen:
      return kLooked;
    case Content::kSpongy:
      fill_spongy(box);
      return kLooked + edge * edge * edge / 8;
    case Content::kMixed:
      break;
  }
  if (edge <= kSmallestBox) {
    fill_mixed(box, parts);
    return kLooked + edge * edge * edge;
  }
  std::int64_t done = kLooked;
  const int half = edge / 2;
  for (int part = 0; part < 8; ++part) {
    volume::VoxelBox small;
    small.x_begin = box.x_begin + part % 2 * half;
    small.y_begin = box.y_begin + part / 2 % 2 * half;
    small.z_begin = box.z_begin + part / 4 * half;
    small.x_end = small.x_begin + half;
    small.y_end = small.y_begin + half;
    small.z_end = small.z_begin + half;
    small.clip(grid);
    if (!small.empty()) {
      done += fill_box(small, parts, half);
    }
  }
  return done;
}

std::int64_t JawBuilder::State::fill_brick(int index) {
  volume::VoxelBox box;
  box.x_begin = index % bricks_x * kBrick;
  box.y_begin = index / bricks_x % bricks_y * kBrick;
  box.z_begin = index / (bricks_x * bricks_y) * kBrick;
  box.x_end = box.x_begin + kBrick;
  box.y_end = box.y_begin + kBrick;
  box.z_end = box.z_begin + kBrick;
  box.clip(volume.grid);
  return fill_box(box, NearParts{}, kBrick);
}

JawBuilder::JawBuilder(const Jaw& jaw, const JawPose& pose, const GumOpening& gum) {
  // The table covers every voxel of the posed lattice, in arch coordinates.
  const volume::Grid grid = jaw_grid(jaw.spec(), pose);
  JawBox box;
  constexpr int kSamples = 8;
  for (int i = 0; i <= kSamples; ++i) {
    for (int j = 0; j <= kSamples; ++j) {
      for (int k = 0; k <= kSamples; ++k) {
        const math::Vec3 share(static_cast<double>(i) / kSamples, static_cast<double>(j) / kSamples,
                               static_cast<double>(k) / kSamples);
        const math::Vec3 span(grid.nx - 1, grid.ny - 1, grid.nz - 1);
        const math::Vec3 p = pose.to_jaw(grid.first_centre_mm + grid.spacing_mm * span * share);
        box.include(jaw.ridge().arch().to_arch(p));
      }
    }
  }
  state_ = std::make_unique<State>(jaw, pose, gum, box.low, box.high);
}

JawBuilder::~JawBuilder() = default;

double JawBuilder::advance(std::int64_t budget) {
  State& s = *state_;
  constexpr std::int64_t kStationWork = 8000;
  std::int64_t done = 0;
  while (s.stations_done < s.table.station_count() && done < budget) {
    s.table.fill_station(s.stations_done++);
    done += kStationWork;
  }
  const int bricks = s.brick_count();
  while (s.stations_done == s.table.station_count() && s.brick < bricks && done < budget) {
    done += s.fill_brick(s.brick++);
  }
  if (s.brick == bricks) {
    return 1.0;
  }
  constexpr double kTableShare = 0.2;
  return kTableShare * s.stations_done / s.table.station_count() +
         (1.0 - kTableShare) * s.brick / bricks;
}

volume::Volume JawBuilder::take() {
  DRIFTBENCH_EXPECTS(state_ != nullptr && state_->brick == state_->brick_count());
  volume::Volume volume = std::move(state_->volume);
  state_.reset();
  volume.initial_coverage = volume.coverage;
  return volume;
}

volume::Volume build_jaw(const Jaw& jaw, const JawPose& pose, const GumOpening& gum) {
  JawBuilder builder(jaw, pose, gum);
  constexpr std::int64_t kAll = std::int64_t{1} << 60U;
  builder.advance(kAll);
  return builder.take();
}

}  // namespace driftbench::specimen
