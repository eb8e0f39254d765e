#include "convergence_table.h"

#include "bare_drill.h"

#include "drilling/sleeve_fit.h"
#include "math/angle.h"
#include "specimen/block.h"

#include <array>
#include <optional>
#include <vector>

namespace driftbench::population {
namespace {

constexpr std::array<double, 4> kDiameters_mm{2.0, 2.7, 3.4, 4.0};  // the shipped sequence
constexpr std::array<double, 4> kSpeeds_rpm{1200.0, 1000.0, 900.0, 800.0};
constexpr std::array<double, 4> kCollars_mm{1.5, 1.5, 2.5, 2.5};
constexpr double kGap_mm = 3.5;
constexpr double kSleeveHeight_mm = 4.5;
constexpr double kDepth_mm = 10.0;

/// What is drilled: where the hand holds the first drill and how it leans.
struct Case {
  const char* id;
  specimen::DensityClass first;
  std::optional<specimen::DensityClass> second;
  bool is_guided;
  math::Vec2 hand_mm;
  math::Vec2 lean_rad;
  double wander_mm;
};

struct Resolution {
  const char* id;
  double voxel_mm;
  double step_s;
};

constexpr std::array<Resolution, 4> kResolutions{{{"normal", 0.15, 0.001},
                                                  {"half-voxel", 0.075, 0.001},
                                                  {"half-step", 0.15, 0.0005},
                                                  {"both", 0.075, 0.0005}}};

drilling::SleeveFit fit_for(std::size_t i) {
  const specimen::Sleeve sleeve{"sleeve", 5.2, kSleeveHeight_mm, 7.0};
  const specimen::Key key{"key", "drill", 5.0, kDiameters_mm[i] + 0.2, kCollars_mm[i]};
  const specimen::Drill drill = twist_drill(kDiameters_mm[i]);
  drilling::SleeveFit fit =
      drilling::make_sleeve_fit(sleeve, &key, drilling::make_tool(drill), drill,
                                kDepth_mm + kGap_mm + kSleeveHeight_mm + kCollars_mm[i]);
  fit.sleeve.tip_mm = {0.0, 0.0, kGap_mm};
  return fit;
}

/// Tip above the site, on a line with the given lean.
drilling::DrillPose start_pose(math::Vec2 at_mm, math::Vec2 lean_rad) {
  drilling::DrillPose pose;
  pose.axis_out_unit = math::unit(math::Vec3(lean_rad.x, lean_rad.y, 1.0));
  pose.tip_mm = math::Vec3(at_mm.x, at_mm.y, 0.0) + 0.5 * pose.axis_out_unit;
  return pose;
}

/// How the hand holds a drill, from its first touch to its depth; it never answers to the drill.
struct Hold {
  math::Vec2 hand_mm;
  math::Vec2 lean_rad;
};

/// The holds of the drills, recorded at the normal resolution and repeated at the others.
using Trace = std::vector<Hold>;

/// Into the hole that is there.
Hold hold_in(const Drilled& hole) {
  return {{hole.mouth_mm.x, hole.mouth_mm.y}, math::Vec2(hole.axis.x, hole.axis.y) / hole.axis.z};
}

/// Four drills one after the other; time is the sum. Empty when one did not reach its depth. What
/// `trace` holds is repeated, the rest recorded.
std::optional<Drilled> prepare(const Case& what, const Resolution& resolution, Trace& trace) {
  specimen::BlockSpec spec;
  spec.first = what.first;
  spec.second = what.second;
  spec.voxel_mm = resolution.voxel_mm;
  base::Result<volume::Volume> block = specimen::build_block(spec);
  if (!block) {
    return std::nullopt;
  }
  Drilled last;
  double time_s = 0.0;
  for (std::size_t i = 0; i < kDiameters_mm.size(); ++i) {
    const drilling::SleeveFit fit = fit_for(i);
    Drilling task;
    task.diameter_mm = kDiameters_mm[i];
    task.rev_per_s = kSpeeds_rpm[i] / 60.0;
    task.depth_mm = kDepth_mm;
    if (i >= trace.size()) {
      trace.push_back(what.is_guided || i == 0 ? Hold{what.hand_mm, what.lean_rad} : hold_in(last));
    }
    task.hand_mm = trace[i].hand_mm;
    task.lean_rad = trace[i].lean_rad;
    task.wander_mm = what.wander_mm;
    task.step_s = resolution.step_s;
    if (what.is_guided) {
      task.guide = &fit;
      task.start = start_pose({0.0, 0.0}, {0.0, 0.0});
    } else {
      task.start = start_pose(task.hand_mm, task.lean_rad);
    }
    last = drill(*block, task);
    if (!last.is_done) {
      return std::nullopt;
    }
    time_s += last.time_s;
  }
  last.time_s = time_s;
  return last;
}

void write_result(base::JsonWriter& writer, const Case& what, const Resolution& resolution,
                  Trace& trace) {
  const std::optional<Drilled> drilled = prepare(what, resolution, trace);
  writer.begin_object(base::JsonLayout::kCompact).field("id", resolution.id);
  writer.field("voxel_mm", resolution.voxel_mm).field("step_s", resolution.step_s);
  if (drilled) {
    writer.field("entry_x_mm", drilled->mouth_mm.x).field("entry_y_mm", drilled->mouth_mm.y);
    writer.field("apex_x_mm", drilled->floor_mm.x).field("apex_y_mm", drilled->floor_mm.y);
    writer.field("apex_z_mm", drilled->floor_mm.z);
    writer.field("axis_x", drilled->axis.x).field("axis_y", drilled->axis.y);
    writer.field("axis_z", drilled->axis.z).field("time_s", drilled->time_s);
  }
  writer.end_object();
}

}  // namespace

void write_convergence_table(base::JsonWriter& writer) {
  using specimen::DensityClass;
  const double lean_rad = math::Radians(math::Degrees(4.0)).value;
  const std::array<Case, 6> cases{{
      {"upright", DensityClass::kD2, std::nullopt, false, {0.6, -0.4}, {0.0, 0.0}, 0.1},
      {"lean", DensityClass::kD2, std::nullopt, false, {0.6, -0.4}, {lean_rad, 0.0}, 0.0},
      {"lean-wander", DensityClass::kD2, std::nullopt, false, {0.6, -0.4}, {0.0, lean_rad}, 0.1},
      {"boundary", DensityClass::kD1, DensityClass::kD4, false, {0.0, 0.0}, {0.0, 0.0}, 0.0},
      {"boundary-lean",
       DensityClass::kD1,
       DensityClass::kD4,
       false,
       {-0.3, 0.2},
       {lean_rad, 0.0},
       0.1},
      {"sleeve",
       DensityClass::kD1,
       DensityClass::kD4,
       true,
       {0.5, 0.3},
       {0.5 * lean_rad, 0.0},
       0.1},
  }};
  writer.begin_array();
  for (const Case& what : cases) {
    writer.begin_object().field("id", what.id).key("results").begin_array();
    Trace trace;
    for (const Resolution& resolution : kResolutions) {
      write_result(writer, what, resolution, trace);
    }
    writer.end_array().end_object();
  }
  writer.end_array();
}

}  // namespace driftbench::population
