// Small edits of a text, for tests that spoil a good file.
#pragma once

#include <string>

namespace driftbench::support {

/// The text with the first occurrence of `from` replaced; unchanged when there is none.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

}  // namespace driftbench::support
