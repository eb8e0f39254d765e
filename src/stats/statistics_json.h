// The statistics of a class as JSON.
#pragma once

#include "base/json_writer.h"
#include "stats/class_statistics.h"

namespace driftbench::stats {

/// Writes {measure, groups, paired, left_out_count, left_out}. A value that does not exist is null,
/// and the object that holds it has `reasons` with its name.
void write_statistics(base::JsonWriter& writer, const HoleTable& table,
                      const ClassStatistics& statistics);

/// The same for one approach, and for the pairs: an object each.
void write_group(base::JsonWriter& writer, const HoleTable& table, const GroupStatistics& group);
void write_paired(base::JsonWriter& writer, const PairedStatistics& paired);

}  // namespace driftbench::stats
