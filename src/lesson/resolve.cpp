#include "base/random.h"
#include "lesson/instruments.h"
#include "lesson/lesson.h"
#include "math/angle.h"
#include "math/elementary.h"

#include <fmt/format.h>

namespace driftbench::lesson {
namespace {

using base::ErrorCode;

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

  AttemptSetup setup;
  setup.lesson_id = lesson.id;
  setup.lesson_sha256 = lesson.sha256;
  setup.block_id = block.id;
  setup.site_name = block.site;
  setup.approach = block.approach;
  setup.implant_through_guide = block.implant_through_guide;
  setup.place_implant = block.place_implant;
  setup.block = block.specimen;
  setup.kit = kit;
  setup.plan = block.plan;
  setup.plan.md_hint = md_direction(block.specimen);
  setup.plan.bl_hint = math::cross({0.0, 0.0, 1.0}, setup.plan.md_hint) + math::Vec3(0.0);
  setup.guide = block.guide;
  setup.show = block.show;
  setup.ask_estimate = block.estimate.kind != EstimateKind::kNone;
  setup.tolerance = lesson.tolerance;
  setup.lesson_seed = lesson_seed;
  setup.attempt_index = attempt_index;
  setup.seed = base::split(lesson_seed, static_cast<std::uint64_t>(block.approach), attempt_index);
  return check_all_instruments(setup).map([&] { return setup; });
}

}  // namespace driftbench::lesson
