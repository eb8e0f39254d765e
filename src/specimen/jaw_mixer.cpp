#include "specimen/jaw_mixer.h"

#include "specimen/shape_functions.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::specimen {
namespace {

constexpr double kGumCollar_mm = 1.3;       // gum round the neck of a tooth; own assumption
constexpr double kGumMargin_mm = 1.4;       // and above its neck; own assumption
constexpr double kDenserNearCortex = 0.35;  // spongy bone is denser near the cortex; own assumption

constexpr double kFar = 1e3;

struct ToothDistance {
  double crown_mm;
  double roots_mm;
};

using ToothDistances = std::array<ToothDistance, kMostTeeth>;

/// Density and label of a point, painted over from the back to the front.
class Paint {
 public:
  explicit Paint(double voxel_mm) : per_voxel_(1.0 / voxel_mm) {}

  /// Paints where `distance_mm` is negative, mixed over one voxel's width.
  void over(double distance_mm, double density, Tissue tissue) {
    const double share = std::clamp(0.5 - distance_mm * per_voxel_, 0.0, 1.0);
    value_.density_mg_per_cm3 += share * (density - value_.density_mg_per_cm3);
    if (distance_mm <= 0.0) {
      value_.tissue = tissue;
    }
  }

  void over(double distance_mm, Tissue tissue) {
    over(distance_mm, facts_of(tissue).density_mg_per_cm3, tissue);
  }

  PointTissue& value() { return value_; }

 private:
  double per_voxel_;
  PointTissue value_;
};

double spongy(const Jaw& jaw, const math::Vec3& p, double under_cortex_mm) {
  const CancellousSpec& spec = jaw.spec().cancellous;
  const double near = smooth_step(1.0 - under_cortex_mm / kDenserReach_mm);
  const double mean = cancellous_density(spec.density) * (1.0 + kDenserNearCortex * near);
  return spongy_density(mean, spec.contrast, jaw.trabeculae().at(p));
}

/// Distance to the soft tissue's outer surface, negative inside.
double gum_mm(const Jaw& jaw, const math::Vec3& p, double bone_mm, const ToothDistances& teeth) {
  const GumSpec& gum = jaw.spec().gum;
  const double depth = -p.z;
  const double thin = smooth_step((depth - 1.0) / 5.0);
  const double ends = smooth_step((depth - gum.reach_mm + 3.0) / 3.0);
  const double thickness =
      gum.crest_mm + thin * (gum.side_mm - gum.crest_mm) - ends * (gum.side_mm + 0.5);
  double distance = bone_mm - thickness;
  for (std::size_t i = 0; i < jaw.teeth().size(); ++i) {
    const double near_tooth = std::min(teeth[i].crown_mm, teeth[i].roots_mm);
    if (near_tooth - kGumCollar_mm < distance) {
      // The collar thins out toward its margin.
      const double height = jaw.teeth()[i].height_mm(p);
      const double collar = kGumCollar_mm * (1.0 - 0.75 * smooth_step((height + 1.6) / 3.0));
      distance = std::min(distance, std::max({near_tooth - collar, height - kGumMargin_mm,
                                              depth - gum.reach_mm + 2.0}));
    }
  }
  return distance;
}

/// Spongy bone under the cortex and under every lining plate.
void paint_bone(Paint& paint, const Jaw& jaw, const math::Vec3& p, const OutlineDistance& bone,
                double lining_mm, double voxel_mm) {
  const double under = -bone.distance_mm - bone.cortex_mm;
  const double plate = std::min(under, lining_mm);  // negative in cortical bone
  if (plate > -0.5 * voxel_mm) {
    paint.over(-kFar, spongy(jaw, p, plate), Tissue::kCancellous);
  }
  paint.over(plate, Tissue::kCortical);
}

void paint_tube(Paint& paint, const std::optional<Tube>& tube, const math::Vec3& p,
                double bone_mm) {
  if (tube) {
    const double distance = signed_distance_mm(*tube, p);
    paint.over(std::max(distance - tube->wall_mm, bone_mm), Tissue::kCanalWall);
    paint.over(distance, Tissue::kNerve);
  }
}

void paint_tooth(Paint& paint, const ToothShape& tooth, const math::Vec3& p, double crown_mm,
                 double roots_mm) {
  if (tooth.implant()) {
    paint.over(crown_mm, Tissue::kEnamel);  // ceramic: as dense, own assumption
    paint.over(tooth.metal_mm(p), Tissue::kTitanium);
    return;
  }
  paint.over(std::min(crown_mm, roots_mm), Tissue::kDentine);
  const double height = tooth.height_mm(p);
  if (height > -1.0) {
    const double shell = std::max({crown_mm, -height, -crown_mm - tooth.enamel_mm(height)});
    paint.over(shell, Tissue::kEnamel);
  }
  if (std::min(crown_mm, roots_mm) < 0.0) {
    paint.over(tooth.pulp_mm(p), Tissue::kPulp);
  }
}

/// Open spaces: the lining stays solid, what is inside it does not.
void open_lumen(PointTissue& value, double lumen_mm, const LumenSpec& lumen, Tissue label) {
  const double open = lumen_mm + lumen.membrane_mm;
  value.solid_mm = std::max(value.solid_mm, -open);
  if (lumen_mm <= 0.0) {
    value.tissue = open <= 0.0 ? label : Tissue::kMembrane;
  }
}

}  // namespace

PointTissue tissue_at(const Jaw& jaw, const math::Vec3& p, const OutlineDistance& bone,
                      const NearParts& parts, const GumOpening& gum, double voxel_mm) {
  const JawSpec& spec = jaw.spec();
  Paint paint(voxel_mm);
  PointTissue& value = paint.value();
  const double sinus = parts.lumens && jaw.sinus() ? jaw.sinus()->distance_mm(p) : kFar;
  const double nose = parts.lumens && jaw.nose() ? jaw.nose()->distance_mm(p) : kFar;
  const double socket = parts.socket && jaw.socket()
                            ? std::min(jaw.socket()->roots_mm(p), jaw.socket()->crown_mm(p))
                            : kFar;
  double lining = socket - kLiningPlate_mm;
  if (spec.sinus) {
    lining = std::min(lining, sinus - spec.sinus->cortex_mm);
  }
  if (spec.nose) {
    lining = std::min(lining, nose - spec.nose->cortex_mm);
  }
  ToothDistances teeth{};
  double roots = kFar;  // that hang in a ligament: implants do not
  double tooth_mm = kFar;
  for (std::size_t i = 0; i < jaw.teeth().size(); ++i) {
    teeth[i] = {kFar, kFar};
    if ((parts.teeth >> i & 1U) != 0U) {
      teeth[i] = {jaw.teeth()[i].crown_mm(p), jaw.teeth()[i].roots_mm(p)};
      roots = jaw.teeth()[i].implant() ? roots : std::min(roots, teeth[i].roots_mm);
      tooth_mm = std::min({tooth_mm, teeth[i].crown_mm, teeth[i].roots_mm});
    }
  }
  lining = std::min(lining, roots - kLigament_mm - kLiningPlate_mm);

  paint_bone(paint, jaw, p, bone, lining, voxel_mm);
  if (parts.canals) {
    paint_tube(paint, jaw.canal(), p, bone.distance_mm);
    paint_tube(paint, jaw.foramen(), p, bone.distance_mm);
    paint_tube(paint, jaw.nasopalatine(), p, bone.distance_mm);
  }
  value.solid_mm = bone.distance_mm;
  if (bone.distance_mm > 0.0) {
    value.tissue = Tissue::kAir;
  }
  if (gum.state != GumState::kFlap) {
    double soft = gum_mm(jaw, p, bone.distance_mm, teeth);
    if (gum.state == GumState::kPunch) {
      const math::Vec3 off = p - gum.entry_mm;
      const math::Vec3 across = off - math::dot(off, gum.axis_out_unit) * gum.axis_out_unit;
      soft = std::max(soft, gum.radius_mm - math::length(across));
    }
    if (soft < 2.0 * voxel_mm) {
      paint.over(std::max(soft, -bone.distance_mm), Tissue::kGum);
    }
    value.solid_mm = std::min(value.solid_mm, soft);
  }
  value.solid_mm = std::max(value.solid_mm, -socket);
  if (socket <= 0.0 && value.tissue != Tissue::kAir) {
    value.tissue = Tissue::kSocket;
  }
  if (sinus < kFar) {
    open_lumen(value, sinus, *spec.sinus, Tissue::kSinusLumen);
  }
  if (nose < kFar) {
    open_lumen(value, nose, *spec.nose, Tissue::kNasalLumen);
  }
  if (tooth_mm < 2.0) {
    if (value.tissue != Tissue::kAir) {
      paint.over(roots - kLigament_mm, Tissue::kLigament);
    }
    for (std::size_t i = 0; i < jaw.teeth().size(); ++i) {
      if (teeth[i].crown_mm < voxel_mm || teeth[i].roots_mm < voxel_mm) {
        paint_tooth(paint, jaw.teeth()[i], p, teeth[i].crown_mm, teeth[i].roots_mm);
      }
    }
    value.solid_mm = std::min(value.solid_mm, tooth_mm);
  }
  const double cut = std::max(std::fabs(p.x) - 0.5 * spec.length_mm, -p.z - spec.depth_mm);
  value.solid_mm = std::max(value.solid_mm, cut);
  if (cut > 0.0) {
    value.tissue = Tissue::kAir;
  }
  return value;
}

PointTissue tissue_at(const Jaw& jaw, const math::Vec3& p, const GumOpening& gum) {
  const OutlineDistance bone = jaw.ridge().distance(jaw.ridge().arch().to_arch(p));
  return tissue_at(jaw, p, bone, NearParts{}, gum, jaw.spec().voxel_mm);
}

}  // namespace driftbench::specimen
