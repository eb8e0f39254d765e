// A piece of jaw as JSON objects inside a specimen file.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "specimen/jaw.h"

namespace driftbench::lesson {

/// Reads region, tooth and every part. What is not there stays as in a typical jaw of the region.
[[nodiscard]] specimen::JawSpec read_jaw_fields(base::ObjectReader& reader);

/// Writes the fields that read_jaw_fields() reads.
void write_jaw_fields(base::JsonWriter& writer, const specimen::JawSpec& jaw);

}  // namespace driftbench::lesson
