// Trace and state hashes as JSON arrays.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "record/attempt.h"
#include "record/trace.h"

#include <cstdint>
#include <string_view>
#include <vector>

namespace driftbench::record {

/// Latest step that a file may state: 10 hours of 1 ms steps.
inline constexpr std::int64_t kMaxStep = 36'000'000;

/// Reads the required array of [step, op, arguments...]. Steps must not fall, ops must be known,
/// and every op must have its exact number of arguments.
[[nodiscard]] Trace read_trace(base::ObjectReader& reader, std::string_view key);
void write_trace(base::JsonWriter& writer, const Trace& trace);

/// Reads the required array of [step, "16 hexadecimal digits"] with rising steps.
[[nodiscard]] std::vector<StateHash> read_state_hashes(base::ObjectReader& reader,
                                                       std::string_view key);
void write_state_hashes(base::JsonWriter& writer, const std::vector<StateHash>& hashes);

}  // namespace driftbench::record
