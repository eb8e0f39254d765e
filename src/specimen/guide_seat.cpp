#include "specimen/guide_seat.h"

#include "specimen/tooth_number.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace driftbench::specimen {
namespace {

using base::ErrorCode;

constexpr double kFarthest_mm = 10.0;  // of a foot on gum or bone from the site
constexpr double kFromCrown_mm = 1.0;  // kept free beside a crown
constexpr double kFromCut_mm = 2.0;    // and before the end of the section
constexpr double kLeastRoom_mm = 3.0;  // from the site to a foot: the drill passes between
constexpr double kShoulder_mm = 1.5;   // below the crest, where its width is taken
constexpr double kFootInset_mm = 0.5;  // of a foot from that width's ends
constexpr double kAbove_mm = 12.0;     // the search for the surface begins here
constexpr double kDownStep_mm = 0.05;
constexpr double kLeastSpan_mm = 8.0;
constexpr double kMostSpan_mm = 36.0;

/// The neighbour on one side; null where there is none.
const ToothShape* neighbour(const Jaw& jaw, bool is_mesial) {
  const ToothShape* nearest = nullptr;
  for (const ToothShape& tooth : jaw.teeth()) {
    const double at_mm = tooth.spec().at_mm;
    if ((at_mm < 0.0) == is_mesial &&
        (nearest == nullptr || std::fabs(at_mm) < std::fabs(nearest->spec().at_mm))) {
      nearest = &tooth;
    }
  }
  return nearest;
}

/// Facial and lingual place of one side's feet, in the jaw frame.
struct FootPair {
  math::Vec3 facial{0.0};
  math::Vec3 lingual{0.0};
  int fdi = 0;
};

/// Where the crown is widest across the arch.
FootPair on_crown(const ToothShape& tooth) {
  const LoftedBody& crown = tooth.crown();
  constexpr int kHeights = 40;
  LoftStation widest = crown.section_at(0.0);
  for (int i = 1; i <= kHeights; ++i) {
    const LoftStation here = crown.section_at(crown.high_mm() * i / kHeights);
    if (here.half_y_mm > widest.half_y_mm) {
      widest = here;
    }
  }
  const auto at = [&](double side) {
    return crown.from_local(
        {widest.centre_x_mm, widest.centre_y_mm + side * widest.half_y_mm, widest.height_mm});
  };
  return {at(-1.0), at(1.0), tooth.spec().fdi};
}

/// Highest place that is not air over a point of the arch.
math::Vec3 surface_over(const Jaw& jaw, const GumOpening& gum, double station_mm,
                        double lateral_mm) {
  const Arch& arch = jaw.ridge().arch();
  double z_mm = kAbove_mm;
  while (z_mm > -kAbove_mm) {
    const PointTissue found = tissue_at(jaw, arch.from_arch({station_mm, lateral_mm, z_mm}), gum);
    const bool is_open = facts_of(found.tissue).is_solid && found.solid_mm > 0.0;
    if (!is_open && found.tissue != Tissue::kAir) {
      break;
    }
    z_mm -= kDownStep_mm;
  }
  return arch.from_arch({station_mm, lateral_mm, z_mm});
}

FootPair on_crest(const Jaw& jaw, const GumOpening& gum, double station_mm) {
  const double shoulder_mm = jaw.ridge().surface_mm(station_mm, 0.0).z - kShoulder_mm;
  const auto at = [&](bool is_facial) {
    const double side_mm = jaw.ridge().side_mm(station_mm, shoulder_mm, is_facial);
    return surface_over(jaw, gum, station_mm,
                        side_mm + (is_facial ? kFootInset_mm : -kFootInset_mm));
  };
  return {at(true), at(false), 0};
}

/// How far from the site along the crest there is room for a foot.
double room_mm(const Jaw& jaw, bool is_mesial) {
  double room = 0.5 * jaw.spec().length_mm - kFromCut_mm;
  if (const ToothShape* tooth = neighbour(jaw, is_mesial)) {
    const double half_mm = 0.5 * tooth->spec().scale * average_tooth(tooth->spec().fdi).crown_md_mm;
    room = std::min(room, std::fabs(tooth->spec().at_mm) - half_mm - kFromCrown_mm);
  }
  return std::min(room, kFarthest_mm);
}

/// Why the soft tissue does not allow this support; nothing when it does.
std::optional<std::string> gum_problem(const JawSite& site, SupportKind kind) {
  if (kind == SupportKind::kMucosa && site.access == GumState::kFlap) {
    return "The guide rests on the gum, and this case raises a flap.";
  }
  if (kind == SupportKind::kMucosa && site.jaw.gum.crest_mm > kThickestGum_mm) {
    return "The guide rests on the gum, which is too thick here to hold still.";
  }
  if (kind == SupportKind::kBone && site.access != GumState::kFlap) {
    return "The guide rests on bone, and this case raises no flap.";
  }
  return std::nullopt;
}

base::Result<FootPair> pair_on(const Jaw& jaw, const JawSite& site, SupportKind kind,
                               bool is_mesial) {
  const std::string_view side = is_mesial ? "mesial" : "distal";
  if (kind == SupportKind::kTeeth) {
    const ToothShape* tooth = neighbour(jaw, is_mesial);
    if (tooth == nullptr) {
      return base::fail(
          ErrorCode::kInvalidArgument,
          fmt::format("The guide rests on teeth, and this piece of jaw has no tooth on the {} side "
                      "of the site.",
                      side));
    }
    return on_crown(*tooth);
  }
  const double room = room_mm(jaw, is_mesial);
  if (room < kLeastRoom_mm) {
    return base::fail(
        ErrorCode::kInvalidArgument,
        fmt::format("The guide rests between the neighbours, which leave no room for its feet on "
                    "the {} side of the site.",
                    side));
  }
  return on_crest(jaw, opening_of(site), is_mesial ? -room : room);
}

/// Edge of the square with the same mean square of the tilt by a gap, over all directions.
double square_of(const std::array<GuideFoot, 4>& feet) {
  const auto mean = [&](int axis, std::size_t a, std::size_t b, std::size_t c, std::size_t d) {
    return 0.5 *
           (feet[a].at_mm[axis] + feet[b].at_mm[axis] - feet[c].at_mm[axis] - feet[d].at_mm[axis]);
  };
  const double along_mm = mean(0, 0, 3, 1, 2);
  const double across_mm = mean(1, 0, 1, 2, 3);
  const double square = 2.0 / (1.0 / (along_mm * along_mm) + 1.0 / (across_mm * across_mm));
  return std::clamp(std::sqrt(square), kLeastSpan_mm, kMostSpan_mm);
}

}  // namespace

base::Result<GuideSeat> seat_of(const JawSite& site, const GuideSupport& support) {
  if (const std::optional<std::string> problem = gum_problem(site, support.on)) {
    return base::fail(ErrorCode::kInvalidArgument, *problem);
  }
  const Jaw jaw(site.jaw, Jaw::Texture::kNone);
  const JawPose pose = pose_of(site);
  GuideSeat seat;
  for (const bool is_mesial : {true, false}) {
    const base::Result<FootPair> pair = pair_on(jaw, site, support.on, is_mesial);
    if (!pair) {
      return tl::make_unexpected(pair.error());
    }
    const bool is_right = is_mesial == pose.is_mirrored;  // at +x of the site frame
    seat.feet[is_right ? 0 : 1] = {pose.to_core(pair->lingual), pair->fdi};
    seat.feet[is_right ? 3 : 2] = {pose.to_core(pair->facial), pair->fdi};
  }
  seat.span_mm = square_of(seat.feet);
  return seat;
}

}  // namespace driftbench::specimen
