// Distances to the outer surface of the bone on a lattice in arch coordinates, for quick reading.
#pragma once

#include "specimen/ridge.h"

#include <vector>

namespace driftbench::specimen {

/// Signed distance and cortical thickness, read trilinearly. Filled station by station.
///
/// Own assumption (numerical): 0.4 mm across and 0.5 mm along the arch keep the surface within
/// 0.05 mm of the exact one; tests hold it to half a voxel
class RidgeTable {
 public:
  /// Box in arch coordinates that will be read; beyond the last change of the outline the same
  /// station serves on.
  RidgeTable(const Ridge& ridge, const math::Vec3& low_mm, const math::Vec3& high_mm);

  [[nodiscard]] int station_count() const { return nx_; }

  /// Fills one station. Contract: 0 <= index < station_count(), in rising order.
  void fill_station(int index);

  /// Value at a point, held inside the box. All stations filled.
  [[nodiscard]] OutlineDistance at(const math::Vec3& in_arch) const;

 private:
  struct Node {
    float distance_mm;
    float cortex_mm;
  };

  void fill_row(const Outline& outline, double z_mm, Node* row) const;
  void divide_by_gradient();

  const Ridge* ridge_;
  math::Vec3 low_mm_;
  int nx_;
  int ny_;
  int nz_;
  double last_share_ = -1.0;  // of the last station filled
  std::size_t last_begin_ = 0;
  std::vector<Node> nodes_;  // (nx, nz, ny), y fastest
};

}  // namespace driftbench::specimen
