#include "lesson/identifier.h"

#include "base/json_writer.h"

#include <algorithm>
#include <cstddef>

namespace driftbench::lesson {

bool is_identifier(std::string_view text) {
  constexpr std::size_t kMaxLength = 64;
  return !text.empty() && text.size() <= kMaxLength &&
         std::all_of(text.begin(), text.end(), [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
         });
}

std::string read_identifier(base::ObjectReader& reader, std::string_view key) {
  constexpr std::size_t kMaxBytes = 256;
  std::string id = reader.required_string(key, kMaxBytes);
  if (!id.empty() && !is_identifier(id)) {
    reader.add_error(key, "the text " + base::json_quoted(id),
                     "1 to 64 lower-case letters, digits and hyphens");
  }
  return id;
}

}  // namespace driftbench::lesson
