// Wording of findings.
#include "base/problem.h"

#include <fmt/format.h>

#include <utility>

namespace driftbench::base {

std::string Problem::sentence(std::string_view file) const {
  std::string text(file);
  if (line > 0) {
    text += fmt::format(":{}:{}", line, column);
  }
  if (!path.empty()) {
    text += fmt::format(": {}", path);
  }
  return text + fmt::format(": found {}, expected {}", found, expected);
}

void ProblemList::add(Problem problem) {
  if (problem.severity == Problem::Severity::kError) {
    ++error_count_;
  }
  if (items_.size() >= kMaxKept) {
    ++dropped_count_;
    return;
  }
  items_.push_back(std::move(problem));
}

std::string ProblemList::first_error(std::string_view file) const {
  for (const Problem& problem : items_) {
    if (problem.severity == Problem::Severity::kError) {
      return problem.sentence(file);
    }
  }
  if (error_count_ > 0) {
    return fmt::format("{}: found {} errors after {} warnings, expected none", file, error_count_,
                       items_.size());
  }
  return {};
}

}  // namespace driftbench::base
