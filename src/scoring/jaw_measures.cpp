#include "scoring/jaw_measures.h"

#include "scoring/process.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace driftbench::scoring {
namespace {

using specimen::Clearance;
using specimen::RevolvedBody;
using specimen::Structure;

constexpr double kLeastBody_mm = 0.05;      // full diameter below the platform that counts as in
constexpr double kBetweenPlaces_mm = 0.25;  // of the tip, between places that are looked at
constexpr double kNear_mm = 3.0;            // nearer structures are looked at from every place
constexpr double kGoesOn_mm = 0.5;          // deeper than at the event: went on; own assumption
constexpr double kLargestFactor = 3.0;      // of the error that is asked about
constexpr double kFactorStep = 0.25;

/// Touching these, or leaving the bone there, is critical.
constexpr std::array<Structure, 11> kCritical{
    Structure::kCanal,        Structure::kForamen,     Structure::kNasopalatine,
    Structure::kRootMesial,   Structure::kRootDistal,  Structure::kFacialPlate,
    Structure::kLingualPlate, Structure::kBase,        Structure::kSinusFloor,
    Structure::kNasalFloor,   Structure::kOtherImplant};

/// Where a drill was.
struct Place {
  std::int64_t step = 0;
  std::int32_t drill = -1;
  RevolvedBody body;  ///< site frame

  [[nodiscard]] double depth_mm() const { return body.length_mm + body.point_mm; }
};

/// To a millionth, far below the search's own 0.02 mm: so that every build states the same number.
double stated(double value) {
  constexpr double kPerUnit = 1e6;
  return std::floor(value * kPerUnit + 0.5) / kPerUnit + 0.0;
}

math::Vec3 stated(const math::Vec3& p) {
  return {stated(p.x), stated(p.y), stated(p.z)};
}

RevolvedBody in_jaw(const specimen::JawPose& pose, RevolvedBody body) {
  body.top_mm = pose.to_jaw(body.top_mm);
  body.down_unit = math::unit(pose.direction_to_jaw(body.down_unit));
  return body;
}

double off_axis_mm(const RevolvedBody& body, const math::Vec3& p) {
  return specimen::body_coordinates(body, p).out_mm;
}

const specimen::Drill* drill_at(const JawWork& work, std::int32_t index) {
  return index >= 0 && static_cast<std::size_t>(index) < work.drills.size()
             ? &work.drills[static_cast<std::size_t>(index)]
             : nullptr;
}

/// The places of all drills: each deeper one, and each one to the side of the last.
std::vector<Place> places_of(const JawWork& work) {
  std::vector<Place> places;
  std::vector<std::size_t> last(work.drills.size(), 0);  // place of each drill, counted from 1
  for (const drilling::LoadSample& sample : work.samples) {
    const specimen::Drill* drill = drill_at(work, sample.drill_index);
    if (drill == nullptr || !sample.in_contact) {
      continue;
    }
    const std::optional<RevolvedBody> body = body_of(sample.pose, *drill, work.plan);
    if (!body) {
      continue;
    }
    const Place place{sample.step, sample.drill_index, *body};
    std::size_t& at = last[static_cast<std::size_t>(sample.drill_index)];
    const bool is_new = at == 0 ||
                        place.depth_mm() > places[at - 1].depth_mm() + kBetweenPlaces_mm ||
                        off_axis_mm(places[at - 1].body, sample.pose.tip_mm) > kBetweenPlaces_mm;
    if (is_new) {
      places.push_back(place);
      at = places.size();
    }
  }
  return places;
}

/// The deepest place of every drill that went in.
std::vector<Place> deepest_places(const JawWork& work) {
  std::vector<Place> deepest;
  for (const drilling::LoadSample& sample : work.samples) {
    const specimen::Drill* drill = drill_at(work, sample.drill_index);
    const std::optional<RevolvedBody> body = drill != nullptr && sample.in_contact
                                                 ? body_of(sample.pose, *drill, work.plan)
                                                 : std::nullopt;
    if (!body) {
      continue;
    }
    const Place place{sample.step, sample.drill_index, *body};
    const auto same = std::find_if(deepest.begin(), deepest.end(),
                                   [&](const Place& one) { return one.drill == place.drill; });
    if (same == deepest.end()) {
      deepest.push_back(place);
    } else if (place.depth_mm() > same->depth_mm()) {
      *same = place;
    }
  }
  return deepest;
}

RevolvedBody implant_body(const specimen::Implant& implant, const math::Vec3& end_mm,
                          const math::Vec3& axis_out_unit) {
  RevolvedBody body;
  body.top_mm = end_mm + implant.length_mm * axis_out_unit;
  body.down_unit = -axis_out_unit;
  body.radius_mm = 0.5 * implant.diameter_mm;
  body.length_mm = implant.length_mm;
  return body;
}

/// Hole and implant as planned; the hole is the last drill at its depth, with its point.
std::vector<RevolvedBody> planned_bodies(const JawWork& work) {
  const specimen::Plan& plan = work.plan;
  std::vector<RevolvedBody> bodies;
  if (const specimen::Drill* drill = drill_at(work, work.last_drill)) {
    RevolvedBody hole;
    hole.top_mm = plan.entry_mm;
    hole.down_unit = -plan.axis_out_unit;
    hole.radius_mm = 0.5 * drill->diameter_mm;
    hole.length_mm = plan.depth_mm;
    hole.point_mm = tip_to_shoulder_mm(*drill);
    bodies.push_back(hole);
  }
  if (work.planned != nullptr) {
    bodies.push_back(implant_body(*work.planned,
                                  plan.entry_mm - work.planned->length_mm * plan.axis_out_unit,
                                  plan.axis_out_unit));
  }
  return bodies;
}

/// Everything that is looked up more than once.
class Search {
 public:
  explicit Search(const JawWork& work)
      : work_(work),
        pose_(specimen::pose_of(*work.site)),
        deepest_(deepest_places(work)),
        places_(places_of(work)) {}

  [[nodiscard]] bool is_empty() const { return deepest_.empty(); }

  [[nodiscard]] JawMeasures measured() {
    JawMeasures measures;
    add_clearances(measures);
    add_events(measures);
    measures.next = next_touch(measures);
    for (ClearanceMeasure& one : measures.clearances) {
      one.planned_mm = stated(one.planned_mm);
      one.achieved_mm = stated(one.achieved_mm);
      one.at_mm = stated(one.at_mm);
    }
    for (JawEvent& event : measures.events) {
      event.at_mm = stated(event.at_mm);
    }
    return measures;
  }

 private:
  [[nodiscard]] std::vector<Clearance> all_clearances(std::vector<RevolvedBody> bodies) const {
    for (RevolvedBody& body : bodies) {
      body = in_jaw(pose_, body);
    }
    return specimen::clearances(*work_.jaw, bodies);
  }

  [[nodiscard]] std::optional<Clearance> clearance(const RevolvedBody& body,
                                                   Structure structure) const {
    return specimen::clearance_to(*work_.jaw, in_jaw(pose_, body), structure);
  }

  [[nodiscard]] double keep_mm(Structure structure) const {
    for (const specimen::Margin& margin : work_.site->margins) {
      if (margin.structure == structure) {
        return margin.keep_mm;
      }
    }
    return 0.0;
  }

  /// What is nearer than this was touched. No drill gets into metal: it stops within the half voxel
  /// over which metal and bone are mixed.
  [[nodiscard]] double touch_mm(Structure structure) const {
    return structure == Structure::kOtherImplant ? 0.5 * work_.site->jaw.voxel_mm : 0.0;
  }

  void add_clearances(JawMeasures& measures) {
    std::vector<RevolvedBody> bodies;
    for (const Place& place : deepest_) {
      bodies.push_back(place.body);
    }
    const std::size_t implant = bodies.size();
    if (work_.placed != nullptr) {
      bodies.push_back(implant_body(*work_.placed, work_.seat.tip_mm, work_.seat.axis_out_unit));
    }
    const std::vector<Clearance> planned = all_clearances(planned_bodies(work_));
    for (const Clearance& found : all_clearances(bodies)) {
      ClearanceMeasure measure;
      measure.structure = found.structure;
      measure.achieved_mm = found.distance_mm;
      measure.keep_mm = keep_mm(found.structure);
      measure.is_implant = found.body == implant;
      measure.at_mm = pose_.to_core(found.on_structure_mm);
      const auto same = std::find_if(planned.begin(), planned.end(), [&](const Clearance& one) {
        return one.structure == found.structure;
      });
      measure.planned_mm = same != planned.end() ? same->distance_mm : found.distance_mm;
      look_from_every_place(measure);
      measures.clearances.push_back(measure);
    }
    std::sort(measures.clearances.begin(), measures.clearances.end(),
              [](const ClearanceMeasure& a, const ClearanceMeasure& b) {
                return a.structure < b.structure;
              });
  }

  /// The least distance and the first touch of a near structure.
  void look_from_every_place(ClearanceMeasure& measure) {
    if (measure.achieved_mm > kNear_mm) {
      return;
    }
    for (const Place& place : places_) {
      const std::optional<Clearance> found = clearance(place.body, measure.structure);
      if (!found) {
        continue;
      }
      if (found->distance_mm < touch_mm(measure.structure)) {
        note_touch(measure.structure, place, *found);
      }
      if (found->distance_mm < measure.achieved_mm) {
        measure.achieved_mm = found->distance_mm;
        measure.is_implant = false;
        measure.at_mm = pose_.to_core(found->on_structure_mm);
      }
    }
    if (measure.achieved_mm < touch_mm(measure.structure) && !is_noted(measure.structure)) {
      note_late_touch(measure);
    }
  }

  [[nodiscard]] bool is_noted(Structure structure) const {
    return std::any_of(touches_.begin(), touches_.end(),
                       [&](const Touch& touch) { return touch.event.structure == structure; });
  }

  void note_touch(Structure structure, const Place& place, const Clearance& found) {
    const bool counts = std::find(kCritical.begin(), kCritical.end(), structure) != kCritical.end();
    if (counts && !is_noted(structure)) {
      touches_.push_back(
          {{structure, false, place.step, pose_.to_core(found.on_structure_mm)}, place});
    }
  }

  /// Touched only at the very end of a drill's way, or by the implant.
  void note_late_touch(const ClearanceMeasure& measure) {
    const Clearance at{measure.structure, measure.achieved_mm, pose_.to_jaw(measure.at_mm), {}, 0};
    for (const Place& place : deepest_) {
      const std::optional<Clearance> found = clearance(place.body, measure.structure);
      if (found && found->distance_mm < touch_mm(measure.structure)) {
        note_touch(measure.structure, place, *found);
      }
    }
    if (!is_noted(measure.structure) && measure.is_implant) {
      note_touch(measure.structure, {work_.placed_step, -1, {}}, at);
    }
  }

  void add_events(JawMeasures& measures) {
    std::stable_sort(touches_.begin(), touches_.end(),
                     [](const Touch& a, const Touch& b) { return a.event.step < b.event.step; });
    for (const Touch& touch : touches_) {
      measures.events.push_back(touch.event);
    }
    if (touches_.empty()) {
      return;
    }
    if (const std::optional<JawEvent> second = going_on(touches_.front())) {
      measures.events.push_back(*second);
      std::stable_sort(measures.events.begin(), measures.events.end(),
                       [](const JawEvent& a, const JawEvent& b) { return a.step < b.step; });
    }
  }

  struct Touch {
    JawEvent event;
    Place place;
  };

  /// Another drill, the same one deeper, or an implant after the first event.
  [[nodiscard]] std::optional<JawEvent> going_on(const Touch& first) const {
    JawEvent event = first.event;
    event.is_going_on = true;
    for (const Place& place : places_) {
      const bool is_later = place.step > first.event.step;
      const bool is_more = place.drill != first.place.drill ||
                           place.depth_mm() > first.place.depth_mm() + kGoesOn_mm;
      if (is_later && is_more) {
        event.step = place.step;
        event.at_mm = place.body.deepest_mm();
        return event;
      }
    }
    if (work_.placed != nullptr && first.place.drill >= 0) {
      event.step = work_.placed_step;
      event.at_mm = work_.seat.tip_mm;
      return event;
    }
    return std::nullopt;
  }

  /// The hole as it would be with `factor` times its error.
  [[nodiscard]] RevolvedBody with_error(const RevolvedBody& found, double factor) const {
    const math::Vec3 planned_end = work_.plan.apex_mm();
    const math::Vec3 end = found.top_mm + found.length_mm * found.down_unit;
    RevolvedBody body = found;
    body.top_mm = work_.plan.entry_mm + factor * (found.top_mm - work_.plan.entry_mm);
    const math::Vec3 new_end = planned_end + factor * (end - planned_end);
    body.length_mm = math::length(new_end - body.top_mm);
    body.down_unit = math::unit(new_end - body.top_mm);
    return body;
  }

  [[nodiscard]] std::optional<NextTouch> next_touch(const JawMeasures& measures) const {
    const auto deepest = std::max_element(
        deepest_.begin(), deepest_.end(),
        [](const Place& a, const Place& b) { return a.body.length_mm < b.body.length_mm; });
    for (double factor = 1.0 + kFactorStep; factor <= kLargestFactor; factor += kFactorStep) {
      std::optional<NextTouch> next;
      for (const ClearanceMeasure& measure : measures.clearances) {
        const bool counts =
            std::find(kCritical.begin(), kCritical.end(), measure.structure) != kCritical.end() &&
            measure.achieved_mm >= touch_mm(measure.structure);
        if (!counts || !touches(deepest->body, factor, measure.structure)) {
          continue;
        }
        const double exact = first_factor(deepest->body, factor, measure.structure);
        if (!next || exact < next->error_factor) {
          next = NextTouch{measure.structure, exact};
        }
      }
      if (next) {
        return next;
      }
    }
    return std::nullopt;
  }

  [[nodiscard]] bool touches(const RevolvedBody& body, double factor, Structure structure) const {
    const std::optional<Clearance> found = clearance(with_error(body, factor), structure);
    return found && found->distance_mm < touch_mm(structure);
  }

  /// Least factor that touches, between one step before `high` and it.
  [[nodiscard]] double first_factor(const RevolvedBody& body, double high,
                                    Structure structure) const {
    constexpr int kHalvings = 7;
    double low = high - kFactorStep;
    for (int i = 0; i < kHalvings; ++i) {
      const double middle = 0.5 * (low + high);
      (touches(body, middle, structure) ? high : low) = middle;
    }
    return high;
  }

  const JawWork& work_;
  specimen::JawPose pose_;
  std::vector<Place> deepest_;
  std::vector<Place> places_;
  std::vector<Touch> touches_;
};

}  // namespace

std::optional<RevolvedBody> body_of(const drilling::DrillPose& pose, const specimen::Drill& drill,
                                    const specimen::Plan& plan) {
  const double rise = math::dot(pose.axis_out_unit, plan.axis_out_unit);
  const double along_mm = math::dot(plan.entry_mm - pose.tip_mm, plan.axis_out_unit) / rise;
  RevolvedBody body;
  body.point_mm = tip_to_shoulder_mm(drill);
  body.length_mm = along_mm - body.point_mm;
  if (!(body.length_mm >= kLeastBody_mm)) {
    return std::nullopt;
  }
  body.top_mm = pose.tip_mm + along_mm * pose.axis_out_unit;
  body.down_unit = -pose.axis_out_unit;
  body.radius_mm = 0.5 * drill.diameter_mm;
  return body;
}

std::optional<JawMeasures> measure_in_jaw(const JawWork& work) {
  Search search(work);
  if (search.is_empty()) {
    return std::nullopt;
  }
  return search.measured();
}

}  // namespace driftbench::scoring
