// Words after the name of a subcommand: flags with or without a value, and plain words.
#pragma once

#include "base/result.h"

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::tools {

/// A flag that a subcommand knows.
struct Flag {
  std::string_view name;    ///< with its two hyphens
  bool takes_value = true;  ///< the next word, or what follows '='
};

/// Parsed words of one subcommand.
class Arguments {
 public:
  /// Errors: kInvalidArgument for an unknown flag, a flag given twice, a value that is missing
  [[nodiscard]] static base::Result<Arguments> parse(std::span<const std::string> words,
                                                     std::span<const Flag> flags);

  [[nodiscard]] const std::vector<std::string>& plain() const { return plain_; }

  [[nodiscard]] bool has(std::string_view flag) const;
  [[nodiscard]] std::optional<std::string> text(std::string_view flag) const;

  /// The number of a flag that must be there.
  ///
  /// Errors: kInvalidArgument when it is missing or no number
  [[nodiscard]] base::Result<double> number(std::string_view flag) const;
  /// The number of a flag, or `fallback` when the flag is not there.
  [[nodiscard]] base::Result<double> number(std::string_view flag, double fallback) const;

  /// The integer of a flag, or `fallback`; kOutOfRange outside [low, high].
  [[nodiscard]] base::Result<std::int64_t> integer(std::string_view flag, std::int64_t low,
                                                   std::int64_t high, std::int64_t fallback) const;

 private:
  std::map<std::string, std::string, std::less<>> values_;
  std::vector<std::string> plain_;
};

}  // namespace driftbench::tools
