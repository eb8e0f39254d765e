// Self-estimate and results as JSON objects; null when there are none.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "scoring/results.h"

#include <optional>
#include <string_view>

namespace driftbench::record {

[[nodiscard]] std::optional<scoring::SelfEstimate> read_estimate(base::ObjectReader& parent,
                                                                 std::string_view key);
void write_estimate(base::JsonWriter& writer, const std::optional<scoring::SelfEstimate>& estimate);

[[nodiscard]] std::optional<scoring::Results> read_results(base::ObjectReader& parent,
                                                           std::string_view key);
void write_results(base::JsonWriter& writer, const std::optional<scoring::Results>& results);

}  // namespace driftbench::record
