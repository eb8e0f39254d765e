// The same holes on a finer lattice and with a shorter step.
#pragma once

#include "base/json_writer.h"

namespace driftbench::population {

/// Writes an array of cases, each with entry, apex, angle and time at every resolution.
void write_convergence_table(base::JsonWriter& writer);

}  // namespace driftbench::population
