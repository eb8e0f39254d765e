// Vectors as arrays of three numbers in files.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "math/vec.h"

#include <string_view>
#include <vector>

namespace driftbench::lesson {

/// Reads a required array of three numbers; zeros when there is a problem.
[[nodiscard]] inline math::Vec3 read_vec3(base::ObjectReader& reader, std::string_view key,
                                          base::NumberRange range, std::string_view unit) {
  constexpr std::int64_t kCount = 3;
  const std::vector<double> numbers = reader.required_doubles(key, {kCount, kCount}, range, unit);
  return numbers.size() == kCount ? math::Vec3(numbers[0], numbers[1], numbers[2])
                                  : math::Vec3(0.0);
}

/// Writes the array that read_vec3() reads, on one line.
inline void write_vec3(base::JsonWriter& writer, std::string_view name, const math::Vec3& v) {
  writer.key(name).begin_array(base::JsonLayout::kCompact);
  writer.value(v.x).value(v.y).value(v.z).end_array();
}

}  // namespace driftbench::lesson
