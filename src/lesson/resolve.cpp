#include "base/random.h"
#include "lesson/lesson.h"
#include "math/angle.h"
#include "math/elementary.h"

#include <fmt/format.h>

#include <algorithm>

namespace driftbench::lesson {
namespace {

using base::ErrorCode;

template <class T>
bool has_id(const std::vector<T>& items, const std::string& id) {
  return std::any_of(items.begin(), items.end(), [&](const T& item) { return item.id == id; });
}

std::string missing(const specimen::Kit& kit, std::string_view what, const std::string& id) {
  return fmt::format(
      "found no {} \"{}\" in the kit \"{}\", expected it because the lesson names it", what, id,
      kit.id);
}

bool is_twist(const specimen::Kit& kit, const std::string& drill_id) {
  return std::any_of(kit.drills.begin(), kit.drills.end(), [&](const specimen::Drill& drill) {
    return drill.id == drill_id && drill.kind == specimen::DrillKind::kTwist;
  });
}

/// The planned twist drills that the guide leads: the first of them, or all.
std::vector<std::string> guided_drills(const specimen::Kit& kit, const LessonBlock& block) {
  std::vector<std::string> guided;
  for (const std::string& id : block.plan.drill_ids) {
    const bool is_led = block.approach == specimen::Approach::kSleeve ||
                        (block.approach == specimen::Approach::kPilot && guided.empty());
    if (is_led && is_twist(kit, id)) {
      guided.push_back(id);
    }
  }
  return guided;
}

base::Result<void> check_instruments(const specimen::Kit& kit, const LessonBlock& block) {
  for (const std::string& id : block.plan.drill_ids) {
    if (!has_id(kit.drills, id)) {
      return base::fail(ErrorCode::kMismatch, missing(kit, "drill", id));
    }
  }
  if (!has_id(kit.implants, block.plan.implant_id)) {
    return base::fail(ErrorCode::kMismatch, missing(kit, "implant", block.plan.implant_id));
  }
  if (block.guide.has_value() && !has_id(kit.sleeves, block.guide->sleeve_id)) {
    return base::fail(ErrorCode::kMismatch, missing(kit, "sleeve", block.guide->sleeve_id));
  }
  for (const std::string& id : guided_drills(kit, block)) {
    const bool has_key = std::any_of(kit.keys.begin(), kit.keys.end(),
                                     [&](const specimen::Key& key) { return key.drill_id == id; });
    if (!has_key) {
      return base::fail(ErrorCode::kMismatch, missing(kit, "key for the guided drill", id));
    }
  }
  return {};
}

/// 'md' of a block: along the boundary's normal toward the softer half; +x where there is none.
math::Vec3 md_direction(const specimen::BlockSpec& block) {
  if (!block.second.has_value() || *block.second == block.first) {
    return {1.0, 0.0, 0.0};
  }
  const math::SinCos heading =
      math::sincos(math::to_radians(math::Degrees(block.boundary_deg)).value);
  const bool is_first_softer = specimen::foam_grade(block.first).density_mg_per_cm3 <
                               specimen::foam_grade(*block.second).density_mg_per_cm3;
  const double sign = is_first_softer ? -1.0 : 1.0;
  // Adding 0 turns -0 into 0, which files do not keep.
  return {sign * heading.cos + 0.0, sign * heading.sin + 0.0, 0.0};
}

}  // namespace

base::Result<AttemptSetup> resolve(const Lesson& lesson, const specimen::Kit& kit,
                                   std::size_t block_index, std::uint64_t attempt_index,
                                   std::optional<std::uint64_t> seed_override) {
  if (block_index >= lesson.blocks.size()) {
    return base::fail(ErrorCode::kOutOfRange, fmt::format("found block {}, expected 0 to {}",
                                                          block_index, lesson.blocks.size() - 1));
  }
  if (kit.id != lesson.kit_id) {
    return base::fail(ErrorCode::kMismatch,
                      fmt::format("found the kit \"{}\", expected \"{}\" as the lesson says",
                                  kit.id, lesson.kit_id));
  }
  const std::uint64_t lesson_seed = seed_override.value_or(lesson.seed);
  if (lesson_seed > kMaxSeed) {
    return base::fail(ErrorCode::kOutOfRange,
                      fmt::format("found seed {}, expected 0 to {}", lesson_seed, kMaxSeed));
  }
  const LessonBlock& block = lesson.blocks[block_index];
  if (const base::Result<void> checked = check_instruments(kit, block); !checked) {
    return tl::unexpected<base::Error>(checked.error());
  }

  AttemptSetup setup;
  setup.lesson_id = lesson.id;
  setup.lesson_sha256 = lesson.sha256;
  setup.block_id = block.id;
  setup.site_name = block.site;
  setup.approach = block.approach;
  setup.implant_through_guide = block.implant_through_guide;
  setup.block = block.specimen;
  setup.kit = kit;
  setup.plan = block.plan;
  setup.plan.md_hint = md_direction(block.specimen);
  setup.plan.bl_hint = math::cross({0.0, 0.0, 1.0}, setup.plan.md_hint) + math::Vec3(0.0);
  setup.guide = block.guide;
  setup.show = block.show;
  setup.ask_estimate = block.ask_estimate;
  setup.tolerance = lesson.tolerance;
  setup.lesson_seed = lesson_seed;
  setup.attempt_index = attempt_index;
  setup.seed = base::split(lesson_seed, static_cast<std::uint64_t>(block.approach), attempt_index);
  return setup;
}

}  // namespace driftbench::lesson
