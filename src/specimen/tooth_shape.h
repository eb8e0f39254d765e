// Crown, roots and pulp of one tooth as lofted bodies, from average lengths.
#pragma once

#include "specimen/arch.h"
#include "specimen/lofted_body.h"

#include <vector>

namespace driftbench::specimen {

/// A tooth of the section.
///
/// Frame: station and lateral as in Arch; a lean is of the crown, + distal and + lingual
struct ToothSpec {
  int fdi = 35;
  double at_mm = 0.0;        ///< station of its neck
  double lateral_mm = 0.0;   ///< of its neck, + lingual
  double neck_mm = 2.0;      ///< z of the cemento-enamel junction
  double lean_md_deg = 0.0;  ///< crown leans distally
  double lean_bl_deg = 0.0;  ///< crown leans lingually
  double scale = 1.0;        ///< against the average tooth

  friend bool operator==(const ToothSpec&, const ToothSpec&) = default;
};

/// One tooth in the jaw frame.
class ToothShape {
 public:
  ToothShape(const ToothSpec& spec, const Arch& arch);

  [[nodiscard]] const ToothSpec& spec() const { return spec_; }

  /// Trunk first, then the roots.
  [[nodiscard]] const std::vector<LoftedBody>& roots() const { return roots_; }

  [[nodiscard]] const LoftedBody& crown() const { return crown_; }

  /// Signed distances, negative inside; exact at the surface to first order; 4 mm stands for more.
  [[nodiscard]] double crown_mm(const math::Vec3& p) const;
  [[nodiscard]] double roots_mm(const math::Vec3& p) const;
  [[nodiscard]] double pulp_mm(const math::Vec3& p) const;

  /// Height above the neck along the tooth.
  [[nodiscard]] double height_mm(const math::Vec3& p) const { return crown_.to_local(p).z; }

  /// Thickness of the enamel at a height above the neck.
  ///
  /// Source: own assumption: thin at the neck, at most 1.6 mm
  [[nodiscard]] double enamel_mm(double height_mm) const;

 private:
  ToothSpec spec_;
  int cusps_;  ///< 4 molar, 2 premolar, 0 front tooth
  double crown_height_mm_;
  LoftedBody crown_;
  std::vector<LoftedBody> roots_;
  std::vector<LoftedBody> pulps_;
};

}  // namespace driftbench::specimen
