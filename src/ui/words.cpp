#include "ui/words.h"

#include "base/text.h"
#include "math/angle.h"
#include "specimen/tooth_number.h"
#include "ui/strings.h"

#include <cmath>

namespace driftbench::ui {

namespace {

constexpr int kCanine = 3;  // position in the quadrant; front teeth up to here

struct Pair {
  std::string edge;
  std::string toward;
};

// The operator's own words for a direction in the block.
Pair operator_words(const math::Vec3& direction) {
  if (std::abs(direction.x) >= std::abs(direction.y)) {
    return direction.x >= 0.0 ? Pair{std::string(tr(Str::kRight)), std::string(tr(Str::kToRight))}
                              : Pair{std::string(tr(Str::kLeft)), std::string(tr(Str::kToLeft))};
  }
  return direction.y >= 0.0 ? Pair{std::string(tr(Str::kFar)), std::string(tr(Str::kToFar))}
                            : Pair{std::string(tr(Str::kNear)), std::string(tr(Str::kToNear))};
}

// The trade's words in a jaw: front teeth have a facial side, upper teeth a palatal one.
SiteWords jaw_words(int fdi) {
  const bool is_front = specimen::position_of(fdi) <= kCanine;
  const bool is_upper = specimen::is_upper(fdi);
  const auto word = [](Str str) { return std::string(tr(str)); };
  return {word(Str::kDistal),
          word(Str::kMesial),
          word(is_upper ? Str::kPalatal : Str::kLingual),
          word(is_front ? Str::kFacial : Str::kBuccal),
          word(Str::kDistally),
          word(Str::kMesially),
          word(is_upper ? Str::kPalatally : Str::kLingually),
          word(is_front ? Str::kFacially : Str::kBuccally)};
}

// Unit vector toward the softer half; zero in a uniform block.
math::Vec3 soft_direction(const specimen::BlockSpec& block) {
  if (!block.second.has_value() || *block.second == block.first) {
    return {0.0, 0.0, 0.0};
  }
  const double heading = math::Radians(math::Degrees(block.boundary_deg)).value;
  const math::Vec3 normal{std::cos(heading), std::sin(heading), 0.0};
  const bool second_is_softer = static_cast<int>(*block.second) > static_cast<int>(block.first);
  return second_is_softer ? normal : -normal;
}

// Words of a direction; halves only where it runs along the boundary's normal.
Pair words_of(const math::Vec3& direction, const math::Vec3& soft) {
  constexpr double kAlong = 0.9;  // cosine; 26 degrees
  const double along = math::dot(direction, soft);
  if (along > kAlong) {
    return {std::string(tr(Str::kSoftHalf)), std::string(tr(Str::kToSoftHalf))};
  }
  if (along < -kAlong) {
    return {std::string(tr(Str::kDenseHalf)), std::string(tr(Str::kToDenseHalf))};
  }
  return operator_words(direction);
}

std::string along(const std::string& plus, const std::string& minus, double value_mm) {
  if (std::abs(value_mm) < kOnLine_mm) {
    return std::string(tr(Str::kOnLine));
  }
  return say(Str::kMmToward, amount(value_mm, 1), value_mm > 0.0 ? plus : minus);
}

std::string lean(const std::string& plus, const std::string& minus, double value_deg) {
  if (std::abs(value_deg) < kUpright_deg) {
    return std::string(tr(Str::kNoLean));
  }
  return say(Str::kApexLeans, amount(value_deg, 1), value_deg > 0.0 ? plus : minus);
}

}  // namespace

std::string amount(double value, int decimals) {
  return base::fixed(std::abs(value), decimals);
}

SiteWords site_words(const lesson::AttemptSetup& setup) {
  if (const specimen::JawSite* jaw = specimen::jaw_in(setup.specimen)) {
    return jaw_words(jaw->jaw.site_fdi);
  }
  const math::Vec3 soft = soft_direction(*specimen::block_in(setup.specimen));
  const math::Vec3& md = setup.plan.md_hint;
  const math::Vec3& bl = setup.plan.bl_hint;
  const Pair md_plus = words_of(md, soft);
  const Pair md_minus = words_of(-md, soft);
  const Pair bl_plus = words_of(bl, soft);
  const Pair bl_minus = words_of(-bl, soft);
  return {md_plus.edge,   md_minus.edge,   bl_plus.edge,   bl_minus.edge,
          md_plus.toward, md_minus.toward, bl_plus.toward, bl_minus.toward};
}

std::string along_md(const SiteWords& words, double md_mm) {
  return along(words.toward_md_plus, words.toward_md_minus, md_mm);
}

std::string along_bl(const SiteWords& words, double bl_mm) {
  return along(words.toward_bl_plus, words.toward_bl_minus, bl_mm);
}

std::string off_centre(const SiteWords& words, double md_mm, double bl_mm) {
  const bool md_off = std::abs(md_mm) >= kOnLine_mm;
  const bool bl_off = std::abs(bl_mm) >= kOnLine_mm;
  if (md_off && bl_off) {
    return say(Str::kTwoDirections, along_md(words, md_mm), along_bl(words, bl_mm));
  }
  if (!md_off && !bl_off) {
    return std::string(tr(Str::kAtPoint));
  }
  return md_off ? along_md(words, md_mm) : along_bl(words, bl_mm);
}

std::string depth_words(double depth_error_mm) {
  if (std::abs(depth_error_mm) < kOnLine_mm) {
    return std::string(tr(Str::kAtDepth));
  }
  return say(depth_error_mm > 0.0 ? Str::kTooDeep : Str::kTooShallow, amount(depth_error_mm, 1));
}

std::string lean_md(const SiteWords& words, double tilt_md_deg) {
  return lean(words.toward_md_plus, words.toward_md_minus, tilt_md_deg);
}

std::string lean_bl(const SiteWords& words, double tilt_bl_deg) {
  return lean(words.toward_bl_plus, words.toward_bl_minus, tilt_bl_deg);
}

std::string direction_words(const SiteWords& words, double md, double bl) {
  const double size = std::sqrt(md * md + bl * bl);
  if (!(size > 0.0)) {
    return {};
  }
  constexpr double kBetween = 0.3826834323650898;  // sin 22.5 degrees
  const std::string& md_words = md > 0.0 ? words.toward_md_plus : words.toward_md_minus;
  const std::string& bl_words = bl > 0.0 ? words.toward_bl_plus : words.toward_bl_minus;
  if (std::abs(bl) < kBetween * size) {
    return md_words;
  }
  if (std::abs(md) < kBetween * size) {
    return bl_words;
  }
  return say(Str::kBothDirections, md_words, bl_words);
}

std::string reason_words(const scoring::Reason& reason) {
  // One decimal, two where one would print the same for both.
  const double limit = reason.found < reason.low ? reason.low : reason.high;
  const int decimals = amount(reason.found, 1) == amount(limit, 1) ? 2 : 1;
  const std::string found = amount(reason.found, decimals);
  const std::string high = amount(reason.high, decimals);
  if (reason.measure.find("entry") != std::string::npos) {
    return say(Str::kReasonEntry, found, high);
  }
  if (reason.measure.find("apex_lateral") != std::string::npos ||
      reason.measure.find("apex_global") != std::string::npos) {
    return say(Str::kReasonApex, found, high);
  }
  if (reason.measure.find("angle") != std::string::npos) {
    return say(Str::kReasonAngle, found, high);
  }
  if (reason.measure.find("depth") != std::string::npos) {
    return reason.found > reason.high
               ? say(Str::kReasonDeep, found, high)
               : say(Str::kReasonShallow, found, amount(reason.low, decimals));
  }
  return say(Str::kReasonOther, reason.measure, base::fixed(reason.found, 1),
             base::fixed(reason.low, 1), base::fixed(reason.high, 1));
}

std::string approach_words(specimen::Approach approach, bool implant_through_guide) {
  switch (approach) {
    case specimen::Approach::kFreehand:
      return std::string(tr(Str::kFreehand));
    case specimen::Approach::kPilot:
      return std::string(tr(Str::kPilotGuided));
    case specimen::Approach::kSleeve:
      break;
  }
  return std::string(tr(implant_through_guide ? Str::kFullyGuided : Str::kDrillGuided));
}

namespace {

std::string grade_words(specimen::DensityClass density_class) {
  const specimen::FoamGrade& grade = specimen::foam_grade(density_class);
  const Str name = static_cast<int>(density_class) <= static_cast<int>(specimen::DensityClass::kD2)
                       ? Str::kDenseFoam
                       : Str::kSoftFoam;
  return say(name, grade.grade_pcf, std::string(grade.class_name));
}

}  // namespace

std::string block_words(const specimen::BlockSpec& block) {
  if (!block.second.has_value()) {
    return say(Str::kUniformBlock, grade_words(block.first));
  }
  return say(Str::kTwoHalves, grade_words(block.first), grade_words(*block.second));
}

std::string specimen_words(const specimen::Specimen& specimen) {
  if (const specimen::JawSite* jaw = specimen::jaw_in(specimen)) {
    const int fdi = jaw->jaw.site_fdi;
    return say(Str::kJawSite, fdi, specimen::us_tooth_number(fdi));
  }
  return block_words(*specimen::block_in(specimen));
}

}  // namespace driftbench::ui
