#include "classroom/filters.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <tuple>

namespace driftbench::classroom {
namespace {

bool fits(const Entry& entry, const Filters& filters) {
  return (!filters.source.has_value() || entry.source == *filters.source) &&
         (!filters.approach.has_value() || entry.approach == *filters.approach) &&
         (filters.device.empty() || entry.device == filters.device);
}

/// Leaves the early or the late half of each learner's attempts by each approach.
std::vector<std::size_t> in_window(const Roster& roster, const std::vector<std::size_t>& chosen,
                                   Window window) {
  if (window == Window::kAll) {
    return chosen;
  }
  std::map<std::tuple<std::string, stats::Approach, Source>, std::vector<std::size_t>> groups;
  for (const std::size_t i : chosen) {
    const Entry& entry = roster.entries[i];
    groups[{entry.learner, entry.approach, entry.source}].push_back(i);
  }
  std::vector<std::size_t> left;
  for (auto& [key, group] : groups) {
    std::stable_sort(group.begin(), group.end(), [&roster](std::size_t a, std::size_t b) {
      constexpr int kLast = std::numeric_limits<int>::max();
      return roster.entries[a].period.value_or(kLast) < roster.entries[b].period.value_or(kLast);
    });
    const auto half = group.begin() + static_cast<std::ptrdiff_t>((group.size() + 1) / 2);
    left.insert(left.end(), window == Window::kEarly ? group.begin() : half,
                window == Window::kEarly ? half : group.end());
  }
  std::sort(left.begin(), left.end());
  return left;
}

}  // namespace

Roster filtered(const Roster& roster, const Filters& filters) {
  std::vector<std::size_t> chosen;
  for (std::size_t i = 0; i < roster.entries.size(); ++i) {
    if (fits(roster.entries[i], filters)) {
      chosen.push_back(i);
    }
  }
  Roster part;
  part.refused = roster.refused;
  part.notes = roster.notes;
  part.lesson_id = roster.lesson_id;
  part.lesson_sha256 = roster.lesson_sha256;
  // A part of the attempts cannot show whether a plan was followed.
  if (filters.device.empty() && filters.window == Window::kAll && !filters.approach.has_value()) {
    part.experiment = roster.experiment;
  }
  for (const std::size_t i : in_window(roster, chosen, filters.window)) {
    part.entries.push_back(roster.entries[i]);
  }
  return part;
}

std::vector<std::string> devices_of(const Roster& roster) {
  std::set<std::string> devices;
  for (const Entry& entry : roster.entries) {
    if (!entry.device.empty()) {
      devices.insert(entry.device);
    }
  }
  return {devices.begin(), devices.end()};
}

}  // namespace driftbench::classroom
