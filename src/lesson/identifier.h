// Ids in files: short words that also serve as file names.
#pragma once

#include "base/json_reader.h"

#include <string>
#include <string_view>

namespace driftbench::lesson {

/// True for 1 to 64 lower-case letters, digits and hyphens.
[[nodiscard]] bool is_identifier(std::string_view text);

/// Reads a required id; another form adds an error.
[[nodiscard]] std::string read_identifier(base::ObjectReader& reader, std::string_view key);

}  // namespace driftbench::lesson
