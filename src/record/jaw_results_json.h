// The results of an attempt in a jaw as a JSON object; written only where there are any.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "scoring/results.h"

#include <optional>

namespace driftbench::record {

/// Reads the object "jaw" of the results, if it is there.
[[nodiscard]] std::optional<scoring::JawMeasures> read_jaw_results(base::ObjectReader& results);

/// Writes it, key included.
void write_jaw_results(base::JsonWriter& writer, const scoring::JawMeasures& jaw);

}  // namespace driftbench::record
