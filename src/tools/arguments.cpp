#include "tools/arguments.h"

#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace driftbench::tools {

using base::ErrorCode;

base::Result<Arguments> Arguments::parse(std::span<const std::string> words,
                                         std::span<const Flag> flags) {
  Arguments arguments;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    if (!word.starts_with("--")) {
      arguments.plain_.push_back(word);
      continue;
    }
    const std::size_t equals = word.find('=');
    const std::string name = word.substr(0, equals);
    const auto flag = std::find_if(flags.begin(), flags.end(),
                                   [&](const Flag& known) { return known.name == name; });
    if (flag == flags.end()) {
      return base::fail(ErrorCode::kInvalidArgument,
                        fmt::format("found {}, expected a flag that --help lists", name));
    }
    std::string value;
    if (equals != std::string::npos) {
      value = word.substr(equals + 1);
    } else if (flag->takes_value && i + 1 < words.size()) {
      value = words[++i];
    }
    if (flag->takes_value == value.empty()) {
      return base::fail(ErrorCode::kInvalidArgument,
                        flag->takes_value
                            ? fmt::format("found {} alone, expected a value after it", name)
                            : fmt::format("found a value after {}, expected none", name));
    }
    if (!arguments.values_.emplace(name, value).second) {
      return base::fail(ErrorCode::kInvalidArgument,
                        fmt::format("found {} twice, expected it once", name));
    }
  }
  return arguments;
}

bool Arguments::has(std::string_view flag) const {
  return values_.find(flag) != values_.end();
}

std::optional<std::string> Arguments::text(std::string_view flag) const {
  const auto found = values_.find(flag);
  return found == values_.end() ? std::nullopt : std::optional(found->second);
}

base::Result<double> Arguments::number(std::string_view flag) const {
  const std::optional<std::string> value = text(flag);
  if (!value.has_value()) {
    return base::fail(ErrorCode::kInvalidArgument, fmt::format("found no {}, expected it", flag));
  }
  const std::optional<double> number = base::parse_number(*value);
  if (!number.has_value()) {
    return base::fail(ErrorCode::kInvalidArgument,
                      fmt::format("found \"{}\" after {}, expected a number", *value, flag));
  }
  return *number;
}

base::Result<double> Arguments::number(std::string_view flag, double fallback) const {
  return has(flag) ? number(flag) : base::Result<double>(fallback);
}

base::Result<std::int64_t> Arguments::integer(std::string_view flag, std::int64_t low,
                                              std::int64_t high, std::int64_t fallback) const {
  const std::optional<std::string> value = text(flag);
  if (!value.has_value()) {
    return fallback;
  }
  const std::optional<std::int64_t> number = base::parse_integer(*value);
  if (!number.has_value() || *number < low || *number > high) {
    return base::fail(ErrorCode::kOutOfRange,
                      fmt::format("found \"{}\" after {}, expected an integer from {} to {}",
                                  *value, flag, low, high));
  }
  return *number;
}

}  // namespace driftbench::tools
