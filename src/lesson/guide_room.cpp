#include "lesson/guide_room.h"

#include "lesson/instruments.h"
#include "specimen/clearance.h"
#include "specimen/tooth_number.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::lesson {
namespace {

using specimen::RevolvedBody;

constexpr double kSameLength_mm = 0.05;
constexpr double kHinge_mm = 95.0;
constexpr double kTopOverGum_mm = 8.0;  // of the teeth above the platform, where there are none

/// A part of the guide or the handpiece over the site, between two heights above the platform.
RevolvedBody over_site(const specimen::JawSite& site, double low_mm, double high_mm,
                       double diameter_mm) {
  const specimen::RevolvedBody implant = specimen::implant_of(site);
  RevolvedBody body;
  body.top_mm = implant.top_mm - high_mm * implant.down_unit;
  body.down_unit = implant.down_unit;
  body.radius_mm = 0.5 * diameter_mm;
  body.length_mm = high_mm - low_mm;
  return body;
}

std::optional<Beside> nearest_crown(const specimen::Jaw& jaw, const RevolvedBody& body) {
  std::optional<Beside> nearest;
  for (const specimen::ToothShape& tooth : jaw.teeth()) {
    const double distance_mm = specimen::clearance_to_lofted(body, tooth.crown()).distance_mm;
    if (!nearest.has_value() || distance_mm < nearest->distance_mm) {
      nearest = Beside{tooth.spec().fdi, distance_mm};
    }
  }
  return nearest;
}

/// Height of the highest neighbouring crown above the platform, along the planned axis.
double teeth_top_mm(const specimen::Jaw& jaw, const RevolvedBody& implant) {
  std::optional<double> top_mm;
  for (const specimen::ToothShape& tooth : jaw.teeth()) {
    const specimen::LoftedBody& crown = tooth.crown();
    const math::Vec3 tip = crown.from_local({0.0, 0.0, crown.high_mm()});
    const double height_mm = -math::dot(tip - implant.top_mm, implant.down_unit);
    top_mm = std::max(top_mm.value_or(height_mm), height_mm);
  }
  return top_mm.value_or(kTopOverGum_mm);
}

GuidedLength length_of(const AttemptSetup& setup, std::int32_t drill_index) {
  const specimen::Drill& drill = setup.kit.drills[static_cast<std::size_t>(drill_index)];
  const specimen::Implant* implant = implant_of(setup);
  const specimen::Key* key = item_at(setup.kit.keys, key_index_of(setup, drill_index));
  GuidedLength length;
  length.drill_index = drill_index;
  length.implant_mm = implant != nullptr ? implant->length_mm : setup.plan.depth_mm;
  length.gap_mm = setup.guide->gap_mm;
  length.sleeve_mm = sleeve_of(setup)->height_mm;
  length.collar_mm = key != nullptr ? key->collar_mm : 0.0;
  for (const double has_mm : drill.stop_lengths_mm) {
    if (std::fabs(has_mm - length.sum_mm()) <= std::fabs(length.nearest_mm - length.sum_mm())) {
      length.nearest_mm = has_mm;
    }
  }
  return length;
}

MouthRoom mouth_of(const AttemptSetup& setup, const specimen::JawSite& site, const GuideRoom& room,
                   double teeth_mm) {
  MouthRoom mouth;
  for (const GuidedLength& length : room.lengths) {
    const specimen::Drill& drill = setup.kit.drills[static_cast<std::size_t>(length.drill_index)];
    const double stop_mm = length.nearest_mm > 0.0 ? length.nearest_mm : length.sum_mm();
    mouth.needed_mm = std::max(mouth.needed_mm, length.stop_mm() + drill.tip_length_mm + stop_mm +
                                                    specimen::kFreeShank_mm +
                                                    specimen::kHeadHeight_mm - teeth_mm);
  }
  mouth.share = opening_share(site.jaw.site_fdi);
  mouth.opens_mm = setup.guide->mouth_opening_mm;
  return mouth;
}

}  // namespace

double GuidedLength::too_deep_mm() const {
  const double off_mm = nearest_mm > 0.0 ? nearest_mm - sum_mm() : 0.0;
  return std::fabs(off_mm) < kSameLength_mm ? 0.0 : off_mm;
}

double opening_share(int fdi) {
  // Behind the incisors' edges, along the midline, by position; own assumption.
  constexpr std::array<double, 9> kBehind_mm{0.0, 0.0, 1.0, 6.0, 12.0, 18.0, 27.0, 36.0, 44.0};
  return 1.0 - kBehind_mm[static_cast<std::size_t>(specimen::position_of(fdi))] / kHinge_mm;
}

std::vector<GuidedLength> guided_lengths(const AttemptSetup& setup) {
  std::vector<GuidedLength> lengths;
  if (sleeve_of(setup) == nullptr) {
    return lengths;
  }
  for (const std::string& id : setup.plan.drill_ids) {
    const std::int32_t index = drill_index_of(setup, id);
    if (index >= 0 && is_guided(setup, index)) {
      lengths.push_back(length_of(setup, index));
    }
  }
  return lengths;
}

std::optional<GuideRoom> guide_room(const AttemptSetup& setup) {
  const specimen::Sleeve* sleeve = sleeve_of(setup);
  if (sleeve == nullptr) {
    return std::nullopt;
  }
  GuideRoom room;
  room.lengths = guided_lengths(setup);
  const specimen::JawSite* site = specimen::jaw_in(setup.specimen);
  if (site == nullptr || room.lengths.empty()) {
    return room;
  }
  const specimen::Jaw jaw(site->jaw, specimen::Jaw::Texture::kNone);
  const double gap_mm = setup.guide->gap_mm;
  const double top_mm = gap_mm + sleeve->height_mm;
  room.sleeve = nearest_crown(jaw, over_site(*site, gap_mm, top_mm, sleeve->outer_diameter_mm));
  const bool lies_on_teeth =
      setup.guide->support.has_value() && setup.guide->support->on == specimen::SupportKind::kTeeth;
  if (!lies_on_teeth) {
    room.body = nearest_crown(
        jaw, over_site(*site, gap_mm, top_mm, sleeve->outer_diameter_mm + 2.0 * kGuideWall_mm));
  }
  const auto lowest = std::min_element(
      room.lengths.begin(), room.lengths.end(),
      [](const GuidedLength& a, const GuidedLength& b) { return a.stop_mm() < b.stop_mm(); });
  const double head_mm = lowest->stop_mm() + specimen::kFreeShank_mm;
  room.head = nearest_crown(jaw, over_site(*site, head_mm, head_mm + specimen::kHeadHeight_mm,
                                           2.0 * specimen::kHeadRadius_mm));
  room.mouth = mouth_of(setup, *site, room, teeth_top_mm(jaw, specimen::implant_of(*site)));
  return room;
}

}  // namespace driftbench::lesson
