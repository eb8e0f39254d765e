#include "lesson/demonstration.h"

#include "math/vec.h"

#include <algorithm>
#include <cmath>

namespace driftbench::lesson {

base::Result<AttemptSetup> example_setup(const Lesson& lesson, const specimen::Kit& kit,
                                         std::size_t block_index, const specimen::JawSite* jaw) {
  if (block_index >= lesson.blocks.size() || !lesson.blocks[block_index].example.has_value()) {
    return base::fail(base::ErrorCode::kOutOfRange, "This block has no worked example.");
  }
  return resolve(lesson, kit, block_index, 0, lesson.blocks[block_index].example->seed, jaw);
}

std::size_t block_of_group(const Lesson& lesson, std::size_t group) {
  const std::string& id = lesson.prediction->groups[group].block_id;
  const auto found = std::find_if(lesson.blocks.begin(), lesson.blocks.end(),
                                  [&id](const LessonBlock& block) { return block.id == id; });
  return static_cast<std::size_t>(found - lesson.blocks.begin());
}

base::Result<AttemptSetup> prediction_setup(const Lesson& lesson, const specimen::Kit& kit,
                                            std::size_t group, std::size_t hole,
                                            const specimen::JawSite* jaw) {
  if (!lesson.prediction.has_value() || group >= lesson.prediction->groups.size()) {
    return base::fail(base::ErrorCode::kOutOfRange, "This lesson has no such group.");
  }
  const Prediction& asked = *lesson.prediction;
  const std::uint64_t index =
      static_cast<std::uint64_t>(group) * static_cast<std::uint64_t>(asked.holes) + hole;
  return resolve(lesson, kit, block_of_group(lesson, group), index, asked.seed, jaw);
}

GroupFindings findings_of(std::span<const ShownHole> holes) {
  std::vector<math::Vec2> entries;
  std::vector<math::Vec2> apexes;
  GroupFindings findings;
  double squares = 0.0;
  double degrees = 0.0;
  for (const ShownHole& hole : holes) {
    entries.push_back(hole.entry_mm);
    apexes.push_back(hole.apex_mm);
    squares += math::dot(hole.apex_mm, hole.apex_mm);
    degrees += hole.angle_deg;
  }
  findings.entry = own_cloud(entries);
  findings.apex = own_cloud(apexes);
  if (!holes.empty()) {
    const auto count = static_cast<double>(holes.size());
    findings.apex_rms_mm = std::sqrt(squares / count);
    findings.mean_angle_deg = degrees / count;
  }
  findings.is_bias = math::length(findings.entry.bias_mm) > findings.entry.spread_mm.value_or(0.0);
  return findings;
}

std::size_t widest_of(std::span<const GroupFindings> groups) {
  const auto widest =
      std::max_element(groups.begin(), groups.end(),
                       [](const auto& a, const auto& b) { return a.apex_rms_mm < b.apex_rms_mm; });
  return groups.empty() ? 0 : static_cast<std::size_t>(widest - groups.begin());
}

}  // namespace driftbench::lesson
