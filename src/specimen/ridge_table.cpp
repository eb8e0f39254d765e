#include "specimen/ridge_table.h"

#include <algorithm>
#include <cmath>

namespace driftbench::specimen {
namespace {

constexpr double kAcross_mm = 0.4;
constexpr double kAlong_mm = 0.5;
/// Farther than this nothing is read but whether it is far: thickest cortex, gum and a brick.
constexpr double kFar_mm = 5.0;

int nodes_for(double length_mm, double pitch_mm) {
  return static_cast<int>(std::ceil(length_mm / pitch_mm)) + 2;
}

}  // namespace

RidgeTable::RidgeTable(const Ridge& ridge, const math::Vec3& low_mm, const math::Vec3& high_mm)
    : ridge_(&ridge),
      low_mm_(ridge.changing_between().x - kAlong_mm, low_mm.y, low_mm.z),
      nx_(nodes_for(ridge.changing_between().y + kAlong_mm - low_mm_.x, kAlong_mm)),
      ny_(nodes_for(high_mm.y - low_mm.y, kAcross_mm)),
      nz_(nodes_for(high_mm.z - low_mm.z, kAcross_mm)),
      nodes_(static_cast<std::size_t>(nx_) * static_cast<std::size_t>(ny_) *
             static_cast<std::size_t>(nz_)) {}

void RidgeTable::fill_row(const Outline& outline, double z_mm, Node* row) const {
  const auto node_at = [&](int j) {
    const OutlineDistance found = outline_distance(outline, {low_mm_.y + kAcross_mm * j, z_mm});
    return Node{static_cast<float>(found.distance_mm), static_cast<float>(found.cortex_mm)};
  };
  row[0] = node_at(0);
  for (int j = 0; j + 1 < ny_;) {
    // Far from the surface only a rough distance is needed: a straight line over the gap.
    const double spare = std::fabs(static_cast<double>(row[j].distance_mm)) - kFar_mm;
    const int step = std::clamp(static_cast<int>(spare / kAcross_mm), 1, ny_ - 1 - j);
    row[j + step] = node_at(j + step);
    for (int i = 1; i < step; ++i) {
      const float t = static_cast<float>(i) / static_cast<float>(step);
      row[j + i] = {row[j].distance_mm + t * (row[j + step].distance_mm - row[j].distance_mm),
                    row[j].cortex_mm};
    }
    j += step;
  }
}

void RidgeTable::fill_station(int index) {
  const double x = low_mm_.x + kAlong_mm * index;
  const std::size_t slab = static_cast<std::size_t>(ny_) * static_cast<std::size_t>(nz_);
  Node* nodes = nodes_.data() + static_cast<std::size_t>(index) * slab;
  const double share = ridge_->share_at(x);
  const bool is_known = share == last_share_;
  const auto known = nodes_.begin() + static_cast<std::ptrdiff_t>(last_begin_);
  last_share_ = share;
  last_begin_ = static_cast<std::size_t>(index) * slab;
  if (is_known) {
    std::copy(known, known + static_cast<std::ptrdiff_t>(slab), nodes);
  } else {
    const Outline outline = ridge_->outline_at(x);
    for (int k = 0; k < nz_; ++k) {
      fill_row(outline, low_mm_.z + kAcross_mm * k, nodes + static_cast<std::ptrdiff_t>(k) * ny_);
    }
  }
  if (index + 1 == nx_) {
    divide_by_gradient();
  }
}

/// Across the arch the gradient has length 1; where the outline changes, its slope along the arch
/// comes to that.
void RidgeTable::divide_by_gradient() {
  const std::size_t slab = static_cast<std::size_t>(ny_) * static_cast<std::size_t>(nz_);
  const std::vector<Node> plain = nodes_;
  constexpr float kPerStep = static_cast<float>(0.5 / kAlong_mm);
  for (std::size_t i = slab; i + slab < nodes_.size(); ++i) {
    const float slope = kPerStep * (plain[i + slab].distance_mm - plain[i - slab].distance_mm);
    nodes_[i].distance_mm = plain[i].distance_mm / std::sqrt(1.0F + slope * slope);
  }
}

OutlineDistance RidgeTable::at(const math::Vec3& in_arch) const {
  const auto split = [](double value, int count, int& index) {
    const double held = std::clamp(value, 0.0, static_cast<double>(count - 1) - 1e-6);
    index = static_cast<int>(held);
    return static_cast<float>(held - index);
  };
  int x = 0;
  int y = 0;
  int z = 0;
  const float fx = split((in_arch.x - low_mm_.x) * (1.0 / kAlong_mm), nx_, x);
  const float fy = split((in_arch.y - low_mm_.y) * (1.0 / kAcross_mm), ny_, y);
  const float fz = split((in_arch.z - low_mm_.z) * (1.0 / kAcross_mm), nz_, z);
  const std::size_t row = static_cast<std::size_t>(ny_);
  const std::size_t slab = row * static_cast<std::size_t>(nz_);
  const Node* corner = nodes_.data() + static_cast<std::size_t>(x) * slab +
                       static_cast<std::size_t>(z) * row + static_cast<std::size_t>(y);
  const auto mix = [](const Node& a, const Node& b, float t) {
    return Node{a.distance_mm + t * (b.distance_mm - a.distance_mm),
                a.cortex_mm + t * (b.cortex_mm - a.cortex_mm)};
  };
  const auto face = [&](const Node* c) {
    return mix(mix(c[0], c[1], fy), mix(c[row], c[row + 1], fy), fz);
  };
  const Node value = mix(face(corner), face(corner + slab), fx);
  return {static_cast<double>(value.distance_mm), static_cast<double>(value.cortex_mm)};
}

}  // namespace driftbench::specimen
