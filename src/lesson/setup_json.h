// The resolved set-up of an attempt as a JSON object inside the attempt file.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "lesson/attempt_setup.h"

#include <string_view>

namespace driftbench::lesson {

/// Reads and finishes the nested object at `key`.
[[nodiscard]] AttemptSetup read_setup(base::ObjectReader& parent, std::string_view key);

/// Writes the object that read_setup() reads.
void write_setup(base::JsonWriter& writer, const AttemptSetup& setup);

}  // namespace driftbench::lesson
