// Thrust, torque and energy of the model at the feeds and speeds of published drilling tests.
#pragma once

#include "base/json_writer.h"

namespace driftbench::population {

/// Writes an array of rows: what the step itself feels while the press is regulated to the feed.
void write_cutting_table(base::JsonWriter& writer);

}  // namespace driftbench::population
