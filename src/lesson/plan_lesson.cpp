#include "lesson/plan_lesson.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace driftbench::lesson {
namespace {

constexpr std::string_view kSuffix = "-plan";
constexpr std::size_t kLongestId = 64;
constexpr int kAttempts = 3;

double unlike(const specimen::Implant& implant, const CasePlan& plan) {
  return std::abs(implant.diameter_mm - plan.diameter_mm) +
         std::abs(implant.length_mm - plan.length_mm);
}

}  // namespace

SpecimenCase planned_case(const SpecimenCase& specimen, const CasePlan& plan) {
  SpecimenCase planned = specimen;
  planned.plan = plan;
  if (!planned.id.ends_with(kSuffix)) {
    planned.id = planned.id.substr(0, kLongestId - kSuffix.size()).append(kSuffix);
  }
  return planned;
}

base::Result<Lesson> lesson_of(const SpecimenCase& planned, const std::vector<DrillStep>& steps,
                               const specimen::Kit& kit, const GuidePlan& guide) {
  if (guide.approach != specimen::Approach::kFreehand && kit.sleeves.empty()) {
    return base::fail(
        base::ErrorCode::kMismatch,
        fmt::format("The kit \"{}\" has no sleeve, expected one for a guide.", kit.id));
  }
  const auto nearest =
      std::min_element(kit.implants.begin(), kit.implants.end(),
                       [&](const specimen::Implant& a, const specimen::Implant& b) {
                         return unlike(a, planned.plan) < unlike(b, planned.plan);
                       });
  if (nearest == kit.implants.end() || steps.empty()) {
    return base::fail(base::ErrorCode::kMismatch,
                      "The kit \"" + kit.id + "\" has " +
                          (steps.empty() ? "no drill narrower than the implant" : "no implant") +
                          ", expected one for a lesson.");
  }
  Lesson lesson;
  lesson.id = planned.id;
  lesson.revision = "1";
  lesson.title = planned.title;
  lesson.question = planned.story;
  // Words of the file, for its author to change.
  lesson.not_taught = {{"en", "Anything beyond the preparation: the bone is simulated."}};
  lesson.teacher_notes = {{"en",
                           "Made from a plan on the study screen. Change words, tolerance and "
                           "feedback as you need them."}};
  lesson.kit_id = kit.id;
  LessonBlock block;
  block.id = "freehand";
  block.title = planned.title;
  block.attempts = kAttempts;
  block.case_id = planned.id;
  block.plan.depth_mm = planned.plan.length_mm;
  block.plan.implant_id = nearest->id;
  for (const DrillStep& step : steps) {
    block.plan.drill_ids.push_back(step.drill->id);
  }
  lesson.blocks.push_back(block);
  if (guide.approach != specimen::Approach::kFreehand) {
    lesson.blocks.front().title = {{"en", "By hand"}};
    block.id = "guided";
    block.title = {{"en", "Through the guide"}};
    block.approach = guide.approach;
    block.implant_through_guide = guide.implant_through_guide;
    block.guide = guide_of(guide, kit);
    lesson.blocks.push_back(std::move(block));
  }
  return lesson;
}

base::Result<AttemptSetup> guided_setup(const SpecimenCase& planned,
                                        const std::vector<DrillStep>& steps,
                                        const specimen::Kit& kit, const GuidePlan& guide) {
  if (guide.approach == specimen::Approach::kFreehand) {
    return base::fail(base::ErrorCode::kInvalidArgument, "No guide is planned.");
  }
  return lesson_of(planned, steps, kit, guide).and_then([&](const Lesson& lesson) {
    return resolve(lesson, kit, 1, 0, std::nullopt, &planned);
  });
}

}  // namespace driftbench::lesson
