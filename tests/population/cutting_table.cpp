#include "cutting_table.h"

#include "bare_drill.h"

#include "drilling/strength_table.h"
#include "math/angle.h"
#include "specimen/block.h"

#include <algorithm>

namespace driftbench::population {
namespace {

/// One published condition.
struct Condition {
  const char* id;
  double diameter_mm;
  double rev_per_min;
  double feed_mm_per_s;
  double strength_mpa;
};

// Compressive strength of cortical bone 130 to 200 MPa (handbook value, from memory): 170. Foam
// that stands for D3: 8.36 MPa (material.h).
constexpr double kCortical_mpa = 170.0;
constexpr double kFoamD3_mpa = 8.36;
constexpr Condition kConditions[] = {
    {"cortical-1000", 3.2, 1000.0, 2.0, kCortical_mpa},
    {"cortical-1250", 3.2, 1250.0, 2.0, kCortical_mpa},
    {"cortical-1500", 3.2, 1500.0, 2.0, kCortical_mpa},
    {"foam-slow-1000", 2.5, 1000.0, 0.5, kFoamD3_mpa},
    {"foam-fast-1000", 2.5, 1000.0, 2.0, kFoamD3_mpa},
    {"foam-slow-1500", 2.5, 1500.0, 0.5, kFoamD3_mpa},
    {"foam-fast-1500", 2.5, 1500.0, 2.0, kFoamD3_mpa},
};

/// Density at which the model has this strength, mg/cm^3.
std::uint16_t density_for(double strength_mpa) {
  const drilling::StrengthTable table;
  int density = 1;
  while (density < drilling::kLargestDensity_mg_per_cm3 && table.at(density) < strength_mpa) {
    ++density;
  }
  return static_cast<std::uint16_t>(density);
}

void write_row(base::JsonWriter& writer, const Condition& condition) {
  base::Result<volume::Volume> block = specimen::build_block({});
  if (!block) {
    return;
  }
  const std::uint16_t density = density_for(condition.strength_mpa);
  std::fill(block->density_mg_per_cm3.begin(), block->density_mg_per_cm3.end(), density);
  Drilling task;
  task.diameter_mm = condition.diameter_mm;
  task.rev_per_s = condition.rev_per_min / 60.0;
  task.fixed_feed_mm_per_s = condition.feed_mm_per_s;
  task.depth_mm = 6.0;
  task.start.tip_mm = {0.0, 0.0, 0.2};
  const Drilled drilled = drill(*block, task);

  const double area_mm2 = 0.25 * math::kPi * condition.diameter_mm * condition.diameter_mm;
  const double feed_mm = condition.feed_mm_per_s / task.rev_per_s;
  const double energy_j_per_mm3 =
      1e-3 * (2.0 * math::kPi * drilled.torque_nmm + drilled.thrust_n * feed_mm) /
      (area_mm2 * feed_mm);
  writer.begin_object(base::JsonLayout::kCompact).field("id", condition.id);
  writer.field("diameter_mm", condition.diameter_mm).field("speed_rpm", condition.rev_per_min);
  writer.field("feed_mm_per_s", condition.feed_mm_per_s);
  writer.field("strength_mpa", condition.strength_mpa).field("density_mg_per_cm3", density);
  writer.field("thrust_n", drilled.thrust_n).field("torque_nmm", drilled.torque_nmm);
  writer.field("energy_j_per_mm3", energy_j_per_mm3).field("is_done", drilled.is_done);
  writer.end_object();
}

}  // namespace

void write_cutting_table(base::JsonWriter& writer) {
  writer.begin_array();
  for (const Condition& condition : kConditions) {
    write_row(writer, condition);
  }
  writer.end_array();
}

}  // namespace driftbench::population
