// The parts of an attempt file that both the file and its digests are made of.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "record/attempt.h"

#include <cstdint>
#include <string_view>

namespace driftbench::record {

inline constexpr std::string_view kAttemptFormat = "driftbench-attempt";
inline constexpr std::int64_t kAttemptVersion = 1;
inline constexpr std::size_t kMaxAttemptBytes = std::size_t{32} << 20U;

/// Writes the fields from "attempt_id" to "setup" into an open object.
void write_head_fields(base::JsonWriter& writer, const Attempt& attempt);

/// Digests of the parts of a file as they stand in it, each over the stated digest before it.
[[nodiscard]] DigestChain chain_of_text(base::ObjectReader& file, const DigestChain& stated);

/// Writes the fields "trace", "end_step" and "state_hashes" into an open object.
void write_trace_fields(base::JsonWriter& writer, const Attempt& attempt);

}  // namespace driftbench::record
