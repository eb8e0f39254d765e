// The instrument kit as a JSON object: in kit files and inside attempt files.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "specimen/kit.h"

#include <string>

namespace driftbench::lesson {

/// Reads id, name and instruments and checks that they fit together. Call reader.finish() after it.
[[nodiscard]] specimen::Kit read_kit_fields(base::ObjectReader& reader);

/// Writes the fields that read_kit_fields() reads.
void write_kit_fields(base::JsonWriter& writer, const specimen::Kit& kit);

/// Text of a kit file, version 1.
[[nodiscard]] std::string write_kit(const specimen::Kit& kit);

}  // namespace driftbench::lesson
