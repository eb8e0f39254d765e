// Measuring photographs: a model of the clicks, evaluated once for the values and again beside
// every click for the uncertainties.
#include "classroom/photo.h"

#include "classroom/photo_plane.h"
#include "classroom/propagate.h"
#include "geometry/fit_circle.h"
#include "geometry/fit_ellipse.h"
#include "math/angle.h"
#include "stats/distributions.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

namespace driftbench::classroom {
namespace {

using base::Result;
using math::Vec2;

constexpr double kCoverage = 2.0;
constexpr double kLevel = 0.975;  // of t, for 95 % to both sides
constexpr double kEdgeOfPhoto_px = 0.5;
constexpr double kHand_px = 1.0;
constexpr double kStraightened_frac = 0.005;
constexpr double kNotStraightened_frac = 0.01;
constexpr double kCamera_deg = 0.3;
constexpr std::size_t kLeastRim = 5;
constexpr std::size_t kLeastEllipse = 6;
constexpr double kToDegrees = 180.0 / math::kPi;

tl::unexpected<base::Error> refusal(std::string sentence) {
  return base::fail(base::ErrorCode::kInvalidArgument, std::move(sentence));
}

/// "found 1 point of the known edge, expected 2".
Result<void> expect_points(const std::vector<Click>& clicks, std::size_t count, bool or_more,
                           std::string_view what) {
  if (clicks.size() == count || (or_more && clicks.size() > count)) {
    return {};
  }
  return refusal(fmt::format("found {} {} of {}, expected {}{}", clicks.size(),
                             clicks.size() == 1 ? "point" : "points", what, count,
                             or_more ? " at least" : ""));
}

Result<void> check_top(const TopPhoto& photo) {
  for (const Result<void>& held :
       {photo.is_straightened ? expect_points(photo.corners, 4, false, "the block's corners")
                              : expect_points(photo.edge, 2, false, "the known edge"),
        expect_points(photo.boundary, 2, false, "the line between the halves"),
        expect_points(photo.soft, 1, false, "the soft half"),
        expect_points(photo.plan, 1, true, "the planned centre"),
        expect_points(photo.rim, photo.is_ellipse ? kLeastEllipse : kLeastRim, true, "the rim")}) {
    if (!held) {
      return held;
    }
  }
  return {};
}

Vec2 mean_of(const std::vector<Click>& clicks) {
  Vec2 sum(0.0);
  for (const Click& click : clicks) {
    sum += click.at_px;
  }
  return sum / static_cast<double>(clicks.size());
}

/// Everything that a photograph gives, without uncertainties.
struct TopModel {
  PhotoPlane plane;
  Vec2 md_unit{0.0};
  Vec2 plan_mm{0.0};
  geometry::EllipseFit rim;  ///< a circle has equal axes
  double stretch = 1.0;

  [[nodiscard]] Vec2 bl_unit() const { return {-md_unit.y, md_unit.x}; }

  [[nodiscard]] std::array<double, 3> values() const {
    const Vec2 off = (rim.centre_mm - plan_mm) * stretch;
    return {dot(off, md_unit), dot(off, bl_unit()),
            2.0 * stretch * std::sqrt(rim.semi_major_mm * rim.semi_minor_mm)};
  }
};

Result<PhotoPlane> plane_of(const TopPhoto& photo) {
  if (!photo.is_straightened) {
    return PhotoPlane::from_edge({photo.edge[0].at_px, photo.edge[1].at_px}, photo.width_mm);
  }
  return PhotoPlane::from_corners({photo.corners[0].at_px, photo.corners[1].at_px,
                                   photo.corners[2].at_px, photo.corners[3].at_px},
                                  photo.width_mm, photo.height_mm);
}

Result<geometry::EllipseFit> rim_of(const TopPhoto& photo, const PhotoPlane& plane) {
  std::vector<Vec2> points;
  points.reserve(photo.rim.size());
  for (const Click& click : photo.rim) {
    points.push_back(plane.to_mm(click.at_px));
  }
  if (photo.is_ellipse) {
    return geometry::fit_ellipse(points);
  }
  return geometry::fit_circle(points).map([](const geometry::CircleFit& fit) {
    return geometry::EllipseFit{fit.centre_mm, fit.radius_mm, fit.radius_mm, math::Radians(0.0),
                                fit.squares_mm2};
  });
}

Result<TopModel> model_of(const TopPhoto& photo, double stretch) {
  const Result<PhotoPlane> plane = plane_of(photo);
  if (!plane) {
    return tl::unexpected<base::Error>(plane.error());
  }
  const Vec2 from = plane->to_mm(photo.boundary[0].at_px);
  const Vec2 along = plane->to_mm(photo.boundary[1].at_px) - from;
  if (!(length(along) > 0.0)) {
    return refusal("found both points of the line between the halves in one place");
  }
  Vec2 across = Vec2(-along.y, along.x) / length(along);
  const double side = dot(across, plane->to_mm(photo.soft[0].at_px) - from);
  if (side == 0.0) {
    return refusal("found the mark of the soft half on the line between the halves");
  }
  across = side < 0.0 ? -across : across;
  const Result<geometry::EllipseFit> rim = rim_of(photo, *plane);
  if (!rim) {
    return tl::unexpected<base::Error>(rim.error());
  }
  return TopModel{*plane, across, plane->to_mm(mean_of(photo.plan)), *rim, stretch};
}

void add_clicks(std::vector<Click>& clicks, std::vector<UncertainInput>& inputs) {
  for (Click& click : clicks) {
    inputs.push_back({&click.at_px.x, click.sd_px});
    inputs.push_back({&click.at_px.y, click.sd_px});
  }
}

/// A centre that was marked three times or more shows its own scatter.
void widen_by_scatter(std::vector<Click>& clicks) {
  constexpr std::size_t kLeast = 3;
  if (clicks.size() < kLeast) {
    return;
  }
  const Vec2 mean = mean_of(clicks);
  double squares = 0.0;
  for (const Click& click : clicks) {
    squares += dot(click.at_px - mean, click.at_px - mean);
  }
  const auto degrees = static_cast<double>(2 * clicks.size() - 2);
  const double sd = std::sqrt(squares / degrees) * stats::t_quantile(kLevel, degrees) / kCoverage;
  for (Click& click : clicks) {
    click.sd_px = std::max(click.sd_px, sd);
  }
}

/// Standard deviation of the rim points about the curve, widened for few points.
struct RimScatter {
  double residual_mm = 0.0;
  double counted_mm = 0.0;
};

RimScatter rim_scatter(const TopPhoto& photo, const TopModel& model) {
  const double degrees = static_cast<double>(photo.rim.size()) - (photo.is_ellipse ? 5.0 : 3.0);
  const double sd = std::sqrt(model.rim.squares_mm2 / degrees);
  return {sd, sd * stats::t_quantile(kLevel, degrees) / kCoverage};
}

std::vector<Vec2> outline_of(const TopModel& model) {
  constexpr int kPoints = 72;
  const geometry::EllipseFit& e = model.rim;
  const double turn = e.orientation.value;
  std::vector<Vec2> outline;
  for (int i = 0; i < kPoints; ++i) {
    const double t = 2.0 * math::kPi * i / kPoints;
    const Vec2 q(e.semi_major_mm * std::cos(t), e.semi_minor_mm * std::sin(t));
    outline.push_back(
        model.plane.to_px(e.centre_mm + Vec2(std::cos(turn) * q.x - std::sin(turn) * q.y,
                                             std::sin(turn) * q.x + std::cos(turn) * q.y)));
  }
  return outline;
}

/// Angle of the pin's lower end from the edge's, + to the right of the picture.
std::optional<std::array<double, 1>> lean_deg(const LeanPhoto& photo) {
  const auto downward = [](const std::vector<Click>& clicks) {
    const Vec2 d = clicks[1].at_px - clicks[0].at_px;
    return d.y < 0.0 ? -d : d;
  };
  const Vec2 pin = downward(photo.pin);
  const Vec2 edge = downward(photo.edge);
  const double right = pin.x * edge.y - pin.y * edge.x;
  const double down = dot(pin, edge);
  if (!(down > std::abs(right))) {
    return std::nullopt;
  }
  return std::array<double, 1>{std::atan2(right, down) * kToDegrees};
}

}  // namespace

double click_sd_px(double zoom) {
  const double hand = kHand_px / zoom;
  return std::sqrt(kEdgeOfPhoto_px * kEdgeOfPhoto_px + hand * hand);
}

Result<TopMeasure> measure_top(const TopPhoto& given) {
  if (const Result<void> complete = check_top(given); !complete) {
    return tl::unexpected<base::Error>(complete.error());
  }
  TopPhoto photo = given;
  const Result<TopModel> model = model_of(photo, 1.0);
  if (!model) {
    return tl::unexpected<base::Error>(model.error());
  }
  const RimScatter scatter = rim_scatter(photo, *model);
  TopMeasure measure;
  measure.residual_mm = scatter.residual_mm;
  measure.centre_px = model->plane.to_px(model->rim.centre_mm);
  measure.plan_px = model->plane.to_px(model->plan_mm);
  measure.md_px = model->plane.to_px(model->plan_mm + model->md_unit);
  measure.bl_px = model->plane.to_px(model->plan_mm + model->bl_unit());
  measure.mm_per_px = model->plane.mm_per_px(measure.centre_px);
  measure.long_diameter_mm = 2.0 * model->rim.semi_major_mm;
  measure.short_diameter_mm = 2.0 * model->rim.semi_minor_mm;
  measure.outline_px = outline_of(*model);

  widen_by_scatter(photo.plan);
  for (Click& click : photo.rim) {
    click.sd_px = std::max(click.sd_px, scatter.counted_mm / measure.mm_per_px);
  }
  double stretch = 1.0;
  std::vector<UncertainInput> inputs{
      {&stretch, photo.is_straightened ? kStraightened_frac : kNotStraightened_frac},
      {&photo.width_mm, photo.size_sd_mm}};
  if (photo.is_straightened) {
    inputs.push_back({&photo.height_mm, photo.size_sd_mm});
    add_clicks(photo.corners, inputs);
  } else {
    add_clicks(photo.edge, inputs);
  }
  add_clicks(photo.boundary, inputs);
  add_clicks(photo.plan, inputs);
  add_clicks(photo.rim, inputs);
  const auto sds = standard_uncertainties<3>(
      inputs, [&photo, &stretch]() -> std::optional<std::array<double, 3>> {
        const Result<TopModel> beside = model_of(photo, stretch);
        return beside ? std::optional(beside->values()) : std::nullopt;
      });
  if (!sds.has_value()) {
    return refusal("found points that barely determine the rim, expected points all round it");
  }
  const std::array<double, 3> values = model->values();
  measure.entry_md_mm = {values[0], kCoverage * (*sds)[0]};
  measure.entry_bl_mm = {values[1], kCoverage * (*sds)[1]};
  measure.rim_diameter_mm = {values[2], kCoverage * (*sds)[2]};
  return measure;
}

Result<Uncertain> measure_lean_deg(const LeanPhoto& given) {
  LeanPhoto photo = given;
  for (const Result<void>& held : {expect_points(photo.pin, 2, false, "the pin's axis"),
                                   expect_points(photo.edge, 2, false, "the upright edge")}) {
    if (!held) {
      return tl::unexpected<base::Error>(held.error());
    }
  }
  if (!(photo.engaged_mm > 0.0) || photo.play_mm < 0.0) {
    return refusal("found a pin that does not sit in the hole, expected a depth above 0");
  }
  const auto value = lean_deg(photo);
  std::vector<UncertainInput> inputs;
  add_clicks(photo.pin, inputs);
  add_clicks(photo.edge, inputs);
  const auto sds = value.has_value()
                       ? standard_uncertainties<1>(inputs, [&photo] { return lean_deg(photo); })
                       : std::nullopt;
  if (!sds.has_value()) {
    return refusal("found a pin across the block's edge, expected both upright in the picture");
  }
  const double play_deg = std::atan(photo.play_mm / photo.engaged_mm) * kToDegrees / std::sqrt(3.0);
  const double sd =
      std::sqrt((*sds)[0] * (*sds)[0] + play_deg * play_deg + kCamera_deg * kCamera_deg);
  const double sign = photo.positive_is_right ? 1.0 : -1.0;
  return Uncertain{sign * (*value)[0], kCoverage * sd};
}

Result<Uncertain> measure_depth_mm(const Probe& probe, double lean_rad) {
  if (probe.readings_mm.empty()) {
    return refusal("found no reading of the probe, expected one at least");
  }
  const auto n = static_cast<double>(probe.readings_mm.size());
  double mean = 0.0;
  for (const double reading : probe.readings_mm) {
    mean += reading / n;
  }
  double squares = 0.0;
  for (const double reading : probe.readings_mm) {
    squares += (reading - mean) * (reading - mean);
  }
  double of_mean = 0.0;
  if (probe.readings_mm.size() > 1) {
    // Of two readings alone t would say nothing at all.
    const double wide = n > 2.0 ? stats::t_quantile(kLevel, n - 1.0) / kCoverage : 1.0;
    of_mean = std::sqrt(squares / (n - 1.0) / n) * wide;
  }
  const double division = probe.division_mm / std::sqrt(12.0);
  const double sd = std::sqrt(of_mean * of_mean + division * division);
  const double floor_mm = (mean - probe.tip_mm) * std::cos(lean_rad);
  return Uncertain{floor_mm - probe.planned_mm, kCoverage * sd};
}

std::optional<Uncertain> apex_mm(const std::optional<Uncertain>& entry_mm,
                                 const std::optional<Uncertain>& tilt_deg,
                                 const std::optional<Uncertain>& depth_mm, double planned_mm) {
  if (!entry_mm.has_value() || !tilt_deg.has_value() || !depth_mm.has_value()) {
    return std::nullopt;
  }
  Uncertain entry = *entry_mm;
  Uncertain tilt = *tilt_deg;
  Uncertain depth = *depth_mm;
  const auto apex = [&]() -> std::optional<std::array<double, 1>> {
    return std::array<double, 1>{entry.value +
                                 (planned_mm + depth.value) * std::tan(tilt.value / kToDegrees)};
  };
  const std::array<UncertainInput, 3> inputs{{{&entry.value, entry.u95 / kCoverage},
                                              {&tilt.value, tilt.u95 / kCoverage},
                                              {&depth.value, depth.u95 / kCoverage}}};
  const double value = (*apex())[0];
  return Uncertain{value, kCoverage * (*standard_uncertainties<1>(inputs, apex))[0]};
}

std::optional<double> angle_deg(const std::optional<Uncertain>& tilt_md_deg,
                                const std::optional<Uncertain>& tilt_bl_deg) {
  if (!tilt_md_deg.has_value() || !tilt_bl_deg.has_value()) {
    return std::nullopt;
  }
  return std::atan(std::hypot(std::tan(tilt_md_deg->value / kToDegrees),
                              std::tan(tilt_bl_deg->value / kToDegrees))) *
         kToDegrees;
}

}  // namespace driftbench::classroom
