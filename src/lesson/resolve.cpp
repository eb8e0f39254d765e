#include "base/random.h"
#include "lesson/instruments.h"
#include "lesson/lesson.h"
#include "specimen/clearance.h"
#include "specimen/guide_seat.h"

#include <fmt/format.h>

namespace driftbench::lesson {
namespace {

using base::ErrorCode;

/// The specimen that a block of the lesson drills.
base::Result<specimen::Specimen> specimen_of(const LessonBlock& block,
                                             const specimen::JawSite* jaw) {
  if (block.case_id.empty()) {
    return block.specimen;
  }
  if (jaw == nullptr || jaw->id != block.case_id) {
    return base::fail(
        ErrorCode::kMismatch,
        fmt::format("found {}, expected the piece of jaw \"{}\" as the lesson says",
                    jaw == nullptr ? "no piece of jaw" : "\"" + jaw->id + "\"", block.case_id));
  }
  return *jaw;
}

/// Whether the planned hole lies in the bone; a block has room for every plan that files allow.
base::Result<void> check_plan(const AttemptSetup& setup) {
  const specimen::JawSite* site = specimen::jaw_in(setup.specimen);
  if (site == nullptr) {
    return {};
  }
  specimen::RevolvedBody hole = specimen::implant_of(*site);
  hole.radius_mm = 0.5 * last_drill_mm(setup);
  hole.length_mm = setup.plan.depth_mm;
  const specimen::Jaw jaw(site->jaw, specimen::Jaw::Texture::kNone);
  if (const std::optional<std::string> problem = specimen::plan_problem(jaw, hole)) {
    return base::fail(ErrorCode::kInvalidArgument, "The plan does not fit this jaw. " + *problem);
  }
  return {};
}

/// Puts the guide on what it rests on; the jaw says how wide it stands.
base::Result<void> place_guide(AttemptSetup& setup) {
  const specimen::JawSite* site = specimen::jaw_in(setup.specimen);
  if (site == nullptr || !setup.guide.has_value() || !setup.guide->support.has_value()) {
    return {};
  }
  const base::Result<specimen::GuideSeat> seat = specimen::seat_of(*site, *setup.guide->support);
  if (!seat) {
    return tl::make_unexpected(seat.error());
  }
  if (setup.guide->foot_span_mm <= 0.0) {
    setup.guide->foot_span_mm = seat->span_mm;
  }
  setup.guide_seat = *seat;
  return {};
}

}  // namespace

base::Result<AttemptSetup> resolve(const Lesson& lesson, const specimen::Kit& kit,
                                   std::size_t block_index, std::uint64_t attempt_index,
                                   std::optional<std::uint64_t> seed_override,
                                   const specimen::JawSite* jaw) {
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
  const base::Result<specimen::Specimen> drilled = specimen_of(block, jaw);
  if (!drilled) {
    return tl::make_unexpected(drilled.error());
  }

  AttemptSetup setup;
  setup.lesson_id = lesson.id;
  setup.lesson_sha256 = lesson.sha256;
  setup.block_id = block.id;
  setup.site_name = !block.case_id.empty() && block.site == LessonBlock{}.site
                        ? std::to_string(jaw->jaw.site_fdi)
                        : block.site;
  setup.approach = block.approach;
  setup.implant_through_guide = block.implant_through_guide;
  setup.place_implant = block.place_implant;
  setup.specimen = *drilled;
  setup.kit = kit;
  setup.plan = block.plan;
  const specimen::SiteDirections directions = specimen::directions_of(*drilled);
  setup.plan.md_hint = directions.md;
  setup.plan.bl_hint = directions.bl;
  setup.guide = block.guide;
  setup.show = block.show;
  setup.ask_estimate = block.estimate.kind != EstimateKind::kNone;
  setup.tolerance = lesson.tolerance;
  setup.lesson_seed = lesson_seed;
  setup.attempt_index = attempt_index;
  setup.seed = base::split(lesson_seed, static_cast<std::uint64_t>(block.approach), attempt_index);
  return check_all_instruments(setup)
      .and_then([&] { return check_plan(setup); })
      .and_then([&] { return place_guide(setup); })
      .map([&] { return setup; });
}

}  // namespace driftbench::lesson
