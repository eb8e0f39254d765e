#include "lesson/case_plan_review.h"

#include "lesson/case_plan_edit.h"
#include "math/angle.h"
#include "math/elementary.h"
#include "volume/sample.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::lesson {

using specimen::DensityClass;
using specimen::Structure;

std::optional<double> common_margin_mm(Structure structure) {
  switch (structure) {
    case Structure::kCanal:
    case Structure::kForamen:
    case Structure::kFacialPlate:
      return 2.0;
    case Structure::kRootMesial:
    case Structure::kRootDistal:
    case Structure::kNasalFloor:
      return 1.5;
    case Structure::kLingualPlate:
    case Structure::kSinusFloor:
      return 1.0;
    case Structure::kOtherImplant:
      return 3.0;
    case Structure::kCanalWall:
    case Structure::kNasopalatine:
    case Structure::kBase:
      break;
  }
  return std::nullopt;
}

std::vector<DrillStep> suggested_steps(const specimen::Kit& kit, const CasePlan& plan,
                                       DensityClass density) {
  std::vector<DrillStep> steps;
  for (const specimen::Drill& drill : kit.drills) {
    if (drill.kind == specimen::DrillKind::kTwist && drill.diameter_mm < plan.diameter_mm) {
      const auto wider = std::find_if(steps.begin(), steps.end(), [&drill](const DrillStep& other) {
        return other.drill->diameter_mm > drill.diameter_mm;
      });
      steps.insert(wider, {&drill, plan.length_mm});
    }
  }
  if (density == DensityClass::kD4 && steps.size() > 1) {
    steps.pop_back();
  }
  return steps;
}

specimen::RevolvedBody deepest_drill(const CasePlan& plan, const std::vector<DrillStep>& steps) {
  specimen::RevolvedBody body = implant_body(plan);
  if (!steps.empty()) {
    const DrillStep& last = steps.back();
    body.radius_mm = 0.5 * last.drill->diameter_mm;
    body.length_mm = last.depth_mm;
    body.point_mm = last.drill->tip_length_mm;
  }
  return body;
}

PlanReview review_plan(const specimen::Jaw& jaw, const CasePlan& plan,
                       const std::vector<Margin>& margins, const specimen::RevolvedBody& drill) {
  const specimen::RevolvedBody implant = implant_body(plan);
  const std::array<specimen::RevolvedBody, 1> first{implant};
  const std::array<specimen::RevolvedBody, 1> second{drill};
  const std::vector<specimen::Clearance> of_implant = clearances(jaw, first);
  const std::vector<specimen::Clearance> of_drill = clearances(jaw, second);
  PlanReview review;
  for (const specimen::Clearance& near : of_implant) {
    std::optional<double> keep = common_margin_mm(near.structure);
    for (const Margin& margin : margins) {
      if (margin.structure == near.structure) {
        keep = margin.keep_mm;
      }
    }
    if (!keep.has_value()) {
      continue;
    }
    PlanClearance row{near.structure, near.distance_mm, near.distance_mm, *keep, near};
    for (const specimen::Clearance& other : of_drill) {
      if (other.structure == near.structure) {
        row.drill_mm = other.distance_mm;
        if (other.distance_mm < near.distance_mm) {
          row.worse = other;
          row.worse.body = 1;
        }
      }
    }
    const auto easier = std::find_if(
        review.clearances.begin(), review.clearances.end(), [&row](const PlanClearance& other) {
          return other.least_mm() - other.keep_mm > row.least_mm() - row.keep_mm;
        });
    review.clearances.insert(easier, row);
  }
  review.problem = plan_problem(jaw, implant);
  const specimen::BoneAlong bone = bone_along(jaw, implant.top_mm, implant.down_unit);
  review.bone_mm = bone.length_mm;
  review.bone_ends_at = std::string(bone.ends_at);
  return review;
}

DensityAlong density_along(const volume::Volume& volume, const specimen::RevolvedBody& body) {
  constexpr int kRing = 12;
  const math::Vec3 side = math::any_perpendicular(body.down_unit);
  const math::Vec3 other = math::cross(body.down_unit, side);
  DensityAlong along;
  const int steps =
      std::max(1, static_cast<int>(std::lround(body.length_mm / DensityAlong::kStep_mm)));
  for (int i = 0; i < steps; ++i) {
    const math::Vec3 middle = body.top_mm + (i + 0.5) * (body.length_mm / steps) * body.down_unit;
    double sum = 0.0;
    for (int k = 0; k < kRing; ++k) {
      const double angle = 2.0 * math::kPi * k / kRing;
      const math::Vec3 p =
          middle + body.radius_mm * (math::cos(angle) * side + math::sin(angle) * other);
      sum += density_at(volume, p) * coverage_at(volume, p);
    }
    along.mg_per_cm3.push_back(sum / kRing);
    along.mean += sum / kRing / steps;
  }
  along.density_class = along.mean > 1250.0  ? DensityClass::kD1
                        : along.mean > 850.0 ? DensityClass::kD2
                        : along.mean > 350.0 ? DensityClass::kD3
                                             : DensityClass::kD4;
  return along;
}

specimen::RevolvedBody implant_body(const CasePlan& plan) {
  specimen::RevolvedBody body;
  body.top_mm = plan.entry_mm;
  body.down_unit = -axis_out_of(plan);
  body.radius_mm = 0.5 * plan.diameter_mm;
  body.length_mm = plan.length_mm;
  return body;
}

}  // namespace driftbench::lesson
