// A specimen on the GPU: coverage with averages for long steps and soft light, density, first
// coverage.
#pragma once

#include "volume/volume.h"

#include <GLES3/gl3.h>
#include <glm/vec3.hpp>

#include <array>
#include <cstdint>
#include <vector>

namespace driftbench::render {

/// Largest density the texture can hold; denser material is drawn like this.
inline constexpr float kLargestDensity_mg_per_cm3 = 2040.0F;

class VolumeTexture {
 public:
  /// Makes the textures for this lattice and fills them. True when the specimen's first shape is
  /// another than before.
  [[nodiscard]] bool upload(const volume::Volume& volume);

  /// Brings the box up to date. The box is packed into a small buffer first: drivers are slow at
  /// reading a box out of a large array.
  void update(const volume::Volume& volume, const volume::VoxelBox& box);

  void forget();

  [[nodiscard]] bool is_ready() const { return coverage_ != 0; }

  [[nodiscard]] GLuint coverage() const { return coverage_; }

  [[nodiscard]] GLuint material() const { return material_; }

  /// Tissue labels, unsmoothed; a single 0 where the specimen is of one tissue.
  [[nodiscard]] GLuint tissue() const { return tissue_; }

  /// Whether the specimen is made of tissues (a piece of jaw) and not of foam.
  [[nodiscard]] bool has_tissue() const { return has_tissue_; }

  [[nodiscard]] double voxel_mm() const { return grid_.spacing_mm; }

  /// Outer corner and extent of the lattice. Frame: site frame; Unit: mm
  [[nodiscard]] glm::vec3 lattice_min_mm() const;
  [[nodiscard]] glm::vec3 lattice_extent_mm() const;

  /// Box around everything that was material at first.
  [[nodiscard]] glm::vec3 box_min_mm() const { return box_min_mm_; }

  [[nodiscard]] glm::vec3 box_max_mm() const { return box_max_mm_; }

  /// Height of the specimen's first top surface above a point, or the box's floor where there is
  /// none.
  [[nodiscard]] double top_mm(double x_mm, double y_mm) const;

 private:
  static constexpr int kLevels = 4;  // the lattice and three halvings

  struct Level {
    int nx = 0, ny = 0, nz = 0;
    std::vector<std::uint8_t> average;  // rounded up, so that 0 means truly empty; level 0: unused
  };

  void average_box(const volume::Volume& volume, int level, const volume::VoxelBox& box);
  void send_box(const std::uint8_t* from, int nx, int ny, int level, const volume::VoxelBox& box);
  void upload_material(const volume::Volume& volume);
  void upload_tissue(const volume::Volume& volume);
  [[nodiscard]] bool find_top_and_box(const volume::Volume& volume);

  GLuint coverage_ = 0;
  GLuint material_ = 0;
  GLuint tissue_ = 0;
  bool has_tissue_ = false;
  volume::Grid grid_;
  std::array<Level, kLevels> levels_;
  std::vector<std::uint8_t> packed_;
  std::vector<float> top_mm_;  // (ny, nx)
  std::vector<float> former_top_mm_;
  glm::vec3 box_min_mm_{0.0F};
  glm::vec3 box_max_mm_{0.0F};
};

}  // namespace driftbench::render
