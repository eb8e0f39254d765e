#include "render/volume_texture.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <utility>

namespace driftbench::render {
namespace {

constexpr int kSpread_vox = 2;  // how far density is carried into the air around the material

void set_sampling(GLint smallest, GLint largest_level) {
  glTexParameteri(GL_TEXTURE_3D, GL_TEXTURE_MIN_FILTER, smallest);
  glTexParameteri(GL_TEXTURE_3D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_3D, GL_TEXTURE_MAX_LEVEL, largest_level);
  for (const GLenum direction :
       std::array<GLenum, 3>{GL_TEXTURE_WRAP_S, GL_TEXTURE_WRAP_T, GL_TEXTURE_WRAP_R}) {
    glTexParameteri(GL_TEXTURE_3D, direction, GL_CLAMP_TO_EDGE);
  }
}

volume::VoxelBox whole(int nx, int ny, int nz) {
  return {0, 0, 0, nx, ny, nz};
}

/// The coarser box that holds a finer one.
volume::VoxelBox halved(const volume::VoxelBox& box, int nx, int ny, int nz) {
  return {box.x_begin / 2,
          box.y_begin / 2,
          box.z_begin / 2,
          std::min((box.x_end + 1) / 2, nx),
          std::min((box.y_end + 1) / 2, ny),
          std::min((box.z_end + 1) / 2, nz)};
}

std::uint8_t stored_density(std::uint16_t density_mg_per_cm3) {
  // 0 stays reserved for air.
  const float share = static_cast<float>(density_mg_per_cm3) / kLargestDensity_mg_per_cm3;
  return density_mg_per_cm3 == 0
             ? std::uint8_t{0}
             : static_cast<std::uint8_t>(std::clamp(std::lround(255.0F * share), 1L, 255L));
}

/// Carries values along one direction of a lattice into empty voxels beside them.
void spread(std::vector<std::uint8_t>& field, std::size_t stride, std::size_t count,
            std::size_t line_begin) {
  for (int pass = 0; pass < 2; ++pass) {
    const bool forward = pass == 0;
    int reach = 0;
    std::uint8_t value = 0;
    for (std::size_t i = 0; i < count; ++i) {
      std::uint8_t& here = field[line_begin + stride * (forward ? i : count - 1 - i)];
      if (here != 0) {
        value = here;
        reach = kSpread_vox;
      } else if (reach > 0) {
        here = value;
        --reach;
      }
    }
  }
}

}  // namespace

void VolumeTexture::forget() {
  coverage_ = 0;
  material_ = 0;
  tissue_ = 0;
}

void VolumeTexture::upload_tissue(const volume::Volume& volume) {
  if (tissue_ != 0) {
    glDeleteTextures(1, &tissue_);
  }
  has_tissue_ = !volume.tissue.empty();
  glGenTextures(1, &tissue_);
  glBindTexture(GL_TEXTURE_3D, tissue_);
  set_sampling(GL_NEAREST, 0);
  glTexParameteri(GL_TEXTURE_3D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
  const std::uint8_t none = 0;
  const volume::Grid& grid = volume.grid;
  glTexImage3D(GL_TEXTURE_3D, 0, GL_R8, has_tissue_ ? grid.nx : 1, has_tissue_ ? grid.ny : 1,
               has_tissue_ ? grid.nz : 1, 0, GL_RED, GL_UNSIGNED_BYTE,
               has_tissue_ ? volume.tissue.data() : &none);
}

glm::vec3 VolumeTexture::lattice_min_mm() const {
  return glm::vec3(grid_.first_centre_mm - math::Vec3(0.5 * grid_.spacing_mm));
}

glm::vec3 VolumeTexture::lattice_extent_mm() const {
  return glm::vec3(math::Vec3(grid_.nx, grid_.ny, grid_.nz) * grid_.spacing_mm);
}

double VolumeTexture::top_mm(double x_mm, double y_mm) const {
  const double u = (x_mm - grid_.first_centre_mm.x) / grid_.spacing_mm;
  const double v = (y_mm - grid_.first_centre_mm.y) / grid_.spacing_mm;
  const int x = std::clamp(static_cast<int>(std::lround(u)), 0, grid_.nx - 1);
  const int y = std::clamp(static_cast<int>(std::lround(v)), 0, grid_.ny - 1);
  return static_cast<double>(
      top_mm_[static_cast<std::size_t>(y) * static_cast<std::size_t>(grid_.nx) +
              static_cast<std::size_t>(x)]);
}

bool VolumeTexture::upload(const volume::Volume& volume) {
  const volume::Grid& grid = volume.grid;
  const bool same_lattice =
      is_ready() && grid.nx == grid_.nx && grid.ny == grid_.ny && grid.nz == grid_.nz;
  grid_ = grid;
  int nx = grid.nx;
  int ny = grid.ny;
  int nz = grid.nz;
  for (Level& level : levels_) {
    level.nx = nx;
    level.ny = ny;
    level.nz = nz;
    nx = std::max(nx / 2, 1);
    ny = std::max(ny / 2, 1);
    nz = std::max(nz / 2, 1);
  }
  glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  if (!same_lattice) {
    if (is_ready()) {
      glDeleteTextures(1, &coverage_);
      glDeleteTextures(1, &material_);
    }
    glGenTextures(1, &coverage_);
    glBindTexture(GL_TEXTURE_3D, coverage_);
    glTexStorage3D(GL_TEXTURE_3D, kLevels, GL_R8, grid.nx, grid.ny, grid.nz);
    set_sampling(GL_LINEAR_MIPMAP_NEAREST, kLevels - 1);
    glGenTextures(1, &material_);
    glBindTexture(GL_TEXTURE_3D, material_);
    glTexStorage3D(GL_TEXTURE_3D, 1, GL_RG8, grid.nx, grid.ny, grid.nz);
    set_sampling(GL_LINEAR, 0);
    for (int level = 1; level < kLevels; ++level) {
      Level& l = levels_[static_cast<std::size_t>(level)];
      l.average.assign(static_cast<std::size_t>(l.nx) * static_cast<std::size_t>(l.ny) *
                           static_cast<std::size_t>(l.nz),
                       0);
    }
  }
  upload_material(volume);
  upload_tissue(volume);
  const bool is_new_shape = find_top_and_box(volume) || !same_lattice;
  glBindTexture(GL_TEXTURE_3D, coverage_);
  glTexSubImage3D(GL_TEXTURE_3D, 0, 0, 0, 0, grid.nx, grid.ny, grid.nz, GL_RED, GL_UNSIGNED_BYTE,
                  volume.coverage.data());
  for (int level = 1; level < kLevels; ++level) {
    const Level& l = levels_[static_cast<std::size_t>(level)];
    average_box(volume, level, whole(l.nx, l.ny, l.nz));
    glTexSubImage3D(GL_TEXTURE_3D, level, 0, 0, 0, l.nx, l.ny, l.nz, GL_RED, GL_UNSIGNED_BYTE,
                    l.average.data());
  }
  return is_new_shape;
}

void VolumeTexture::update(const volume::Volume& volume, const volume::VoxelBox& box) {
  volume::VoxelBox part = box;
  part.clip(grid_);
  if (!is_ready() || part.empty()) {
    return;
  }
  glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  glBindTexture(GL_TEXTURE_3D, coverage_);
  send_box(volume.coverage.data(), grid_.nx, grid_.ny, 0, part);
  for (int level = 1; level < kLevels; ++level) {
    const Level& l = levels_[static_cast<std::size_t>(level)];
    part = halved(part, l.nx, l.ny, l.nz);
    if (part.empty()) {
      return;
    }
    average_box(volume, level, part);
    send_box(l.average.data(), l.nx, l.ny, level, part);
  }
}

void VolumeTexture::average_box(const volume::Volume& volume, int level,
                                const volume::VoxelBox& box) {
  const Level& finer = levels_[static_cast<std::size_t>(level - 1)];
  Level& coarser = levels_[static_cast<std::size_t>(level)];
  const std::uint8_t* from = level == 1 ? volume.coverage.data() : finer.average.data();
  const auto row = static_cast<std::size_t>(finer.nx);
  const std::size_t plane = row * static_cast<std::size_t>(finer.ny);
  // Lattices of a single voxel in some direction count that voxel twice.
  const std::size_t dx = finer.nx > 1 ? 1 : 0;
  const std::size_t dy = finer.ny > 1 ? row : 0;
  const std::size_t dz = finer.nz > 1 ? plane : 0;
  for (int z = box.z_begin; z < box.z_end; ++z) {
    for (int y = box.y_begin; y < box.y_end; ++y) {
      const std::uint8_t* source =
          from + 2 * static_cast<std::size_t>(z) * plane + 2 * static_cast<std::size_t>(y) * row;
      std::uint8_t* target = coarser.average.data() +
                             (static_cast<std::size_t>(z) * static_cast<std::size_t>(coarser.ny) +
                              static_cast<std::size_t>(y)) *
                                 static_cast<std::size_t>(coarser.nx);
      for (int x = box.x_begin; x < box.x_end; ++x) {
        const std::uint8_t* s = source + 2 * static_cast<std::size_t>(x);
        const int sum =
            s[0] + s[dx] + s[dy] + s[dy + dx] + s[dz] + s[dz + dx] + s[dz + dy] + s[dz + dy + dx];
        target[x] = static_cast<std::uint8_t>((sum + 7) / 8);
      }
    }
  }
}

void VolumeTexture::send_box(const std::uint8_t* from, int nx, int ny, int level,
                             const volume::VoxelBox& box) {
  const auto width = static_cast<std::size_t>(box.x_end - box.x_begin);
  const int height = box.y_end - box.y_begin;
  const int depth = box.z_end - box.z_begin;
  packed_.resize(std::max(
      packed_.size(), width * static_cast<std::size_t>(height) * static_cast<std::size_t>(depth)));
  std::uint8_t* target = packed_.data();
  for (int z = box.z_begin; z < box.z_end; ++z) {
    for (int y = box.y_begin; y < box.y_end; ++y) {
      const std::size_t begin = (static_cast<std::size_t>(z) * static_cast<std::size_t>(ny) +
                                 static_cast<std::size_t>(y)) *
                                    static_cast<std::size_t>(nx) +
                                static_cast<std::size_t>(box.x_begin);
      std::memcpy(target, from + begin, width);
      target += width;
    }
  }
  glTexSubImage3D(GL_TEXTURE_3D, level, box.x_begin, box.y_begin, box.z_begin,
                  static_cast<GLsizei>(width), height, depth, GL_RED, GL_UNSIGNED_BYTE,
                  packed_.data());
}

void VolumeTexture::upload_material(const volume::Volume& volume) {
  // Density is carried a little into the air, so that interpolation at a surface finds no air.
  const auto nx = static_cast<std::size_t>(grid_.nx);
  const auto ny = static_cast<std::size_t>(grid_.ny);
  const auto nz = static_cast<std::size_t>(grid_.nz);
  std::vector<std::uint8_t> density(volume.density_mg_per_cm3.size());
  std::transform(volume.density_mg_per_cm3.begin(), volume.density_mg_per_cm3.end(),
                 density.begin(), stored_density);
  for (std::size_t z = 0; z < nz; ++z) {
    for (std::size_t y = 0; y < ny; ++y) {
      spread(density, 1, nx, (z * ny + y) * nx);
    }
    for (std::size_t x = 0; x < nx; ++x) {
      spread(density, nx, ny, z * ny * nx + x);
    }
  }
  for (std::size_t i = 0; i < nx * ny; ++i) {
    spread(density, nx * ny, nz, i);
  }

  glBindTexture(GL_TEXTURE_3D, material_);
  std::vector<std::uint8_t> slice(nx * ny * 2);
  for (std::size_t z = 0; z < nz; ++z) {
    const std::size_t begin = z * nx * ny;
    for (std::size_t i = 0; i < nx * ny; ++i) {
      slice[2 * i] = density[begin + i];
      slice[2 * i + 1] = volume.initial_coverage[begin + i];
    }
    glTexSubImage3D(GL_TEXTURE_3D, 0, 0, 0, static_cast<GLint>(z), grid_.nx, grid_.ny, 1, GL_RG,
                    GL_UNSIGNED_BYTE, slice.data());
  }
}

bool VolumeTexture::find_top_and_box(const volume::Volume& volume) {
  constexpr std::uint8_t kHalf = 128;
  volume::VoxelBox box{grid_.nx, grid_.ny, grid_.nz, 0, 0, 0};
  const auto nx = static_cast<std::size_t>(grid_.nx);
  const auto ny = static_cast<std::size_t>(grid_.ny);
  std::vector<int> top(nx * ny, -1);
  for (int z = 0; z < grid_.nz; ++z) {
    for (int y = 0; y < grid_.ny; ++y) {
      const std::uint8_t* row = volume.initial_coverage.data() + grid_.index(0, y, z);
      for (int x = 0; x < grid_.nx; ++x) {
        if (row[x] == 0) {
          continue;
        }
        box.x_begin = std::min(box.x_begin, x);
        box.y_begin = std::min(box.y_begin, y);
        box.z_begin = std::min(box.z_begin, z);
        box.x_end = std::max(box.x_end, x + 1);
        box.y_end = std::max(box.y_end, y + 1);
        box.z_end = std::max(box.z_end, z + 1);
        if (row[x] >= kHalf) {
          top[static_cast<std::size_t>(y) * nx + static_cast<std::size_t>(x)] = z;
        }
      }
    }
  }
  // Half a voxel of air around the outermost voxel that holds material: the ramp ends there.
  const math::Vec3 low(box.x_begin - 1, box.y_begin - 1, box.z_begin - 1);
  const math::Vec3 high(box.x_end, box.y_end, box.z_end);
  const glm::vec3 former_min_mm = box_min_mm_;
  const glm::vec3 former_max_mm = box_max_mm_;
  box_min_mm_ = glm::vec3(grid_.first_centre_mm + low * grid_.spacing_mm);
  box_max_mm_ = glm::vec3(grid_.first_centre_mm + high * grid_.spacing_mm);

  std::swap(former_top_mm_, top_mm_);
  top_mm_.assign(nx * ny, box_min_mm_.z);
  for (int y = 0; y < grid_.ny; ++y) {
    for (int x = 0; x < grid_.nx; ++x) {
      const std::size_t i = static_cast<std::size_t>(y) * nx + static_cast<std::size_t>(x);
      const int z = top[i];
      if (z >= 0) {
        // The surface lies where coverage falls through one half.
        const double below = volume.initial_coverage[grid_.index(x, y, z)];
        const double above =
            z + 1 < grid_.nz ? volume.initial_coverage[grid_.index(x, y, z + 1)] : 0;
        const double share = below > above ? (below - 127.5) / (below - above) : 0.0;
        top_mm_[i] = static_cast<float>(grid_.first_centre_mm.z + (z + share) * grid_.spacing_mm);
      }
    }
  }
  return former_min_mm != box_min_mm_ || former_max_mm != box_max_mm_ || former_top_mm_ != top_mm_;
}

}  // namespace driftbench::render
