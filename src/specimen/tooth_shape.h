// Crown, roots and pulp of one tooth as lofted bodies, from average lengths; or a crown on an
// implant.
#pragma once

#include "specimen/arch.h"
#include "specimen/lofted_body.h"
#include "specimen/revolved_body.h"

#include <optional>
#include <vector>

namespace driftbench::specimen {

/// An implant that carries a crown instead of roots. Sizes: own assumptions within usual ones.
struct ImplantRoot {
  double diameter_mm = 4.0;
  double length_mm = 10.0;   ///< platform to its end
  double platform_mm = 2.0;  ///< below the neck of the crown, along the tooth

  friend bool operator==(const ImplantRoot&, const ImplantRoot&) = default;
};

/// A tooth of the section.
///
/// Frame: station and lateral as in Arch; a lean is of the crown, + distal and + lingual
struct ToothSpec {
  int fdi = 35;
  double at_mm = 0.0;                                 ///< station of its neck
  double lateral_mm = 0.0;                            ///< of its neck, + lingual
  double neck_mm = 2.0;                               ///< z of the cemento-enamel junction
  double lean_md_deg = 0.0;                           ///< crown leans distally
  double lean_bl_deg = 0.0;                           ///< crown leans lingually
  double scale = 1.0;                                 ///< against the average tooth
  std::optional<ImplantRoot> implant = std::nullopt;  ///< what stands in the bone instead of roots

  friend bool operator==(const ToothSpec&, const ToothSpec&) = default;
};

/// One tooth in the jaw frame.
class ToothShape {
 public:
  ToothShape(const ToothSpec& spec, const Arch& arch);

  [[nodiscard]] const ToothSpec& spec() const { return spec_; }

  /// Trunk first, then the roots; none of a crown on an implant.
  [[nodiscard]] const std::vector<LoftedBody>& roots() const { return roots_; }

  /// The implant under the crown, from its platform down; threads are finer than voxels and left
  /// out. Nothing under a tooth.
  [[nodiscard]] const std::optional<RevolvedBody>& implant() const { return implant_; }

  [[nodiscard]] const LoftedBody& crown() const { return crown_; }

  /// Signed distances, negative inside; exact at the surface to first order; 4 mm stands for more.
  [[nodiscard]] double crown_mm(const math::Vec3& p) const;
  /// Roots, or the implant: exact.
  [[nodiscard]] double roots_mm(const math::Vec3& p) const;
  [[nodiscard]] double pulp_mm(const math::Vec3& p) const;

  /// Distance to what is metal: the implant and the post in its crown. Contract: there is one
  [[nodiscard]] double metal_mm(const math::Vec3& p) const;

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
  std::optional<RevolvedBody> implant_;
};

}  // namespace driftbench::specimen
