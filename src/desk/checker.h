// Repeats one attempt file in portions; runs in a worker of the page, where nothing else runs.
#pragma once

#include "classroom/verification.h"

#include <cstdint>
#include <memory>
#include <string>

namespace driftbench::desk {

class Checker {
 public:
  /// Begins with the bytes of an attempt file.
  Checker(std::string name, std::string bytes);

  /// Runs about `step_budget` steps. True while there is more to do.
  bool advance(std::int64_t step_budget);

  /// {"equal": true, "reasons": []}; when advance() has said false.
  [[nodiscard]] std::string verdict_json() const;

 private:
  std::string sha256_;
  classroom::Verification verification_;
};

}  // namespace driftbench::desk
