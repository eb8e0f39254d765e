#include "session/operator_profile.h"

#include "base/json_reader.h"
#include "lesson/read_document.h"
#include "math/elementary.h"

#include <algorithm>
#include <array>

namespace driftbench::session {
namespace {

constexpr std::string_view kOperatorFormat = "driftbench-operator";
constexpr std::size_t kMaxOperatorBytes = std::size_t{64} << 10U;
constexpr std::size_t kLongestName = 80;

struct NumberField {
  std::string_view name;
  double OperatorProfile::*member;
  base::NumberRange range;
  std::string_view unit;
};

constexpr std::array kNumberFields{
    NumberField{"aim_sd_mm", &OperatorProfile::aim_sd_mm, {0.0, 5.0}, "mm"},
    NumberField{"aim_bias_md_mm", &OperatorProfile::aim_bias_md_mm, {-5.0, 5.0}, "mm"},
    NumberField{"aim_bias_bl_mm", &OperatorProfile::aim_bias_bl_mm, {-5.0, 5.0}, "mm"},
    NumberField{"lean_sd_deg", &OperatorProfile::lean_sd_deg, {0.0, 15.0}, "degrees"},
    NumberField{"lean_bias_md_deg", &OperatorProfile::lean_bias_md_deg, {-15.0, 15.0}, "degrees"},
    NumberField{"lean_bias_bl_deg", &OperatorProfile::lean_bias_bl_deg, {-15.0, 15.0}, "degrees"},
    NumberField{"relean_sd_deg", &OperatorProfile::relean_sd_deg, {0.0, 15.0}, "degrees"},
    NumberField{"press_n", &OperatorProfile::press_n, {2.0, 40.0}, "N"},
    NumberField{"press_sd_n", &OperatorProfile::press_sd_n, {0.0, 15.0}, "N"},
    NumberField{"depth_sd_mm", &OperatorProfile::depth_sd_mm, {0.0, 3.0}, "mm"},
    NumberField{"reaction_s", &OperatorProfile::reaction_s, {0.0, 2.0}, "s"},
    NumberField{"follow_s", &OperatorProfile::follow_s, {0.05, 60.0}, "s"},
    NumberField{"seat_care", &OperatorProfile::seat_care, {0.0, 1.0}, ""},
    NumberField{"guided_lean_sd_deg", &OperatorProfile::guided_lean_sd_deg, {0.0, 15.0}, "degrees"},
    NumberField{"guided_side_sd_mm", &OperatorProfile::guided_side_sd_mm, {0.0, 5.0}, "mm"},
    NumberField{"aim_person_sd_mm", &OperatorProfile::aim_person_sd_mm, {0.0, 5.0}, "mm"},
    NumberField{"lean_person_sd_deg", &OperatorProfile::lean_person_sd_deg, {0.0, 15.0}, "degrees"},
    NumberField{"pivot_frac", &OperatorProfile::pivot_frac, {0.0, 1.0}, ""},
    NumberField{"easy_feed_mm_per_s", &OperatorProfile::easy_feed_mm_per_s, {0.2, 80.0}, "mm/s"},
    NumberField{"learning_rate", &OperatorProfile::learning_rate, {0.0, 1.0}, ""},
    NumberField{"learning_floor_frac", &OperatorProfile::learning_floor_frac, {0.0, 1.0}, ""}};

}  // namespace

lesson::ReadOutcome<OperatorProfile> read_operator(std::string_view text,
                                                   std::string_view file_name) {
  return lesson::read_document<OperatorProfile>(
      text, file_name, {kOperatorFormat, lesson::kFileVersion, kMaxOperatorBytes},
      [](base::ObjectReader& reader) {
        OperatorProfile profile;
        profile.id = reader.required_string("id", kLongestName);
        profile.name = reader.required_string("name", kLongestName);
        for (const NumberField& field : kNumberFields) {
          profile.*field.member = reader.required_double(field.name, field.range, field.unit);
        }
        return profile;
      });
}

double error_share(const OperatorProfile& profile, std::uint64_t tries_before) {
  const double tries = static_cast<double>(tries_before) + 1.0;
  const double share = math::exp(-profile.learning_rate * math::log(tries));
  return std::max(profile.learning_floor_frac, share);
}

}  // namespace driftbench::session
