#include "specimen/trabeculae.h"

#include "base/random.h"
#include "math/angle.h"
#include "math/elementary.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::specimen {
namespace {

constexpr int kEdge = 64;          // points of the lattice along each edge, a power of two
constexpr double kPitch_mm = 0.3;  // trabecular spacing is about 0.6 to 1 mm: two to three points
constexpr double kFullScale = 127.0;

constexpr std::array<double, 4> kMeans{1350.0, 1050.0, 600.0, 250.0};

std::size_t lattice_index(int x, int y, int z) {
  const auto wrap = [](int i) { return static_cast<std::size_t>(i & (kEdge - 1)); };
  return (wrap(z) * kEdge + wrap(y)) * kEdge + wrap(x);
}

/// Sum of waves with random directions whose wave lengths lie between two limits: the same in all
/// directions, and it repeats because every wave has whole numbers of periods along the edges.
std::vector<float> wave_noise(base::Rng& rng, int waves, int fewest, int most) {
  std::array<float, kEdge> cosines{};
  for (int i = 0; i < kEdge; ++i) {
    cosines[static_cast<std::size_t>(i)] =
        static_cast<float>(math::cos(2.0 * math::kPi * i / kEdge));
  }
  std::vector<float> noise(static_cast<std::size_t>(kEdge * kEdge * kEdge), 0.0F);
  const float amplitude = static_cast<float>(std::sqrt(2.0 / waves));
  const auto span = static_cast<std::uint64_t>(2 * most + 1);
  for (int wave = 0; wave < waves;) {
    const int kx = static_cast<int>(rng.below(span)) - most;
    const int ky = static_cast<int>(rng.below(span)) - most;
    const int kz = static_cast<int>(rng.below(span)) - most;
    const int square = kx * kx + ky * ky + kz * kz;
    if (square < fewest * fewest || square > most * most) {
      continue;
    }
    const int phase = static_cast<int>(rng.below(kEdge));
    ++wave;
    std::size_t at = 0;
    for (int z = 0; z < kEdge; ++z) {
      for (int y = 0; y < kEdge; ++y) {
        int turn = phase + ky * y + kz * z;
        for (int x = 0; x < kEdge; ++x, turn += kx) {
          noise[at++] += amplitude * cosines[static_cast<std::size_t>(turn & (kEdge - 1))];
        }
      }
    }
  }
  return noise;
}

}  // namespace

double cancellous_density(DensityClass density) {
  return kMeans[static_cast<std::size_t>(density)];
}

Trabeculae::Trabeculae(std::uint64_t seed) {
  base::Rng rng(seed);
  constexpr int kWaves = 40;
  // Edge of the lattice 19.2 mm: 12 to 17 periods are 1.1 to 1.6 mm, spaces of half as much.
  const std::vector<float> cells = wave_noise(rng, kWaves, 12, 17);
  const std::vector<float> wide = wave_noise(rng, kWaves / 2, 2, 4);  // denser and looser regions
  lattice_.resize(cells.size());
  for (std::size_t i = 0; i < cells.size(); ++i) {
    // Struts and plates stand where the noise crosses zero.
    const float strut = 0.75F - 1.6F * std::fabs(cells[i]);
    const float value = std::clamp(std::max(strut, -0.75F) + 0.2F * wide[i], -1.0F, 1.0F);
    lattice_[i] = static_cast<std::int8_t>(static_cast<int>(std::floor(value * 127.0F + 0.5F)));
  }
}

double Trabeculae::at(const math::Vec3& p) const {
  if (lattice_.empty()) {
    return 0.0;
  }
  const math::Vec3 q = p * (1.0 / kPitch_mm);
  const double fx = std::floor(q.x);
  const double fy = std::floor(q.y);
  const double fz = std::floor(q.z);
  const int x = static_cast<int>(fx);
  const int y = static_cast<int>(fy);
  const int z = static_cast<int>(fz);
  const auto edge = [&](int j, int k) {
    const double low = lattice_[lattice_index(x, j, k)];
    return low + (q.x - fx) * (lattice_[lattice_index(x + 1, j, k)] - low);
  };
  const auto face = [&](int k) {
    const double low = edge(y, k);
    return low + (q.y - fy) * (edge(y + 1, k) - low);
  };
  const double low = face(z);
  return (low + (q.z - fz) * (face(z + 1) - low)) / kFullScale;
}

}  // namespace driftbench::specimen
