#include "specimen/guide_support.h"

namespace driftbench::specimen {
namespace {

/// What a kind of support is worth without pins.
struct Worth {
  double seat_force_n;
  double start_gap_max_mm;
  double side_n_per_mm;
  double foot_n_per_mm;
  double fit_sd_mm;
  double fit_tilt_sd_deg;
};

constexpr Worth kOnTeeth{8.0, 0.6, 150.0, 50.0, 0.2, 0.5};
constexpr Worth kOnMucosa{4.0, 2.0, 30.0, 12.5, 0.3, 2.8};
constexpr Worth kOnBone{8.0, 1.2, 60.0, 100.0, 0.3, 2.9};
constexpr double kIndexedGap_mm = 1.0;  // largest start gap on gum with a bite index
constexpr double kPinSide_n_per_mm = 60.0;
constexpr double kPinFoot_n_per_mm = 10.0;
constexpr double kPinnedShare = 0.5;

const Worth& worth_of(SupportKind kind) {
  switch (kind) {
    case SupportKind::kTeeth:
      return kOnTeeth;
    case SupportKind::kMucosa:
      return kOnMucosa;
    case SupportKind::kBone:
      break;
  }
  return kOnBone;
}

}  // namespace

Guide typical_guide(const GuideSupport& support) {
  const Worth& worth = worth_of(support.on);
  const double share = support.pins >= kPinsThatHold ? kPinnedShare : 1.0;
  Guide guide;
  guide.support = support;
  guide.foot_span_mm = 0.0;
  guide.seat_force_n = worth.seat_force_n;
  guide.start_gap_max_mm = share * (support.bite_index ? kIndexedGap_mm : worth.start_gap_max_mm);
  guide.support_stiffness_n_per_mm = worth.side_n_per_mm + kPinSide_n_per_mm * support.pins;
  guide.foot_stiffness_n_per_mm = worth.foot_n_per_mm + kPinFoot_n_per_mm * support.pins;
  guide.fit_sd_mm = worth.fit_sd_mm;
  guide.fit_tilt_sd_deg = share * worth.fit_tilt_sd_deg;
  return guide;
}

}  // namespace driftbench::specimen
