// Holds every constant of the mechanics, the kit, the operators and MODEL.md to the list of
// parameters with their ranges and sources in assets/mechanics/parameters.json.
#include "support/read_file.h"
#include "support/shipped.h"

#include "base/json_reader.h"
#include "base/text.h"
#include "drilling/params.h"
#include "lesson/read_document.h"
#include "session/operator_profile.h"
#include "specimen/material.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>

namespace driftbench {
namespace {

struct Parameter {
  double value = 0.0;
  double low = 0.0;
  double high = 0.0;
  std::string source;
};

using Parameters = std::map<std::string, Parameter>;

constexpr base::NumberRange kAny{-1e6, 1e6};

Parameters read_parameters() {
  const std::string text = support::read_file("assets/mechanics/parameters.json");
  auto outcome = lesson::read_document<Parameters>(
      text, "parameters.json", {"driftbench-parameters", 1, 1 << 20},
      [](base::ObjectReader& reader) {
        Parameters parameters;
        static_cast<void>(reader.required_string("note", 500));
        static_cast<void>(reader.required_array(
            "parameters", {1, 200},
            [&](const base::JsonValue& item, const std::string& path, base::ProblemList& problems) {
              base::ObjectReader row(item, path, problems);
              Parameter parameter;
              const std::string name = row.required_string("name", 80);
              parameter.value = row.required_double("value", kAny, "");
              parameter.low = row.required_double("low", kAny, "");
              parameter.high = row.required_double("high", kAny, "");
              parameter.source = row.required_string("source", 400);
              row.finish();
              EXPECT_TRUE(parameters.emplace(name, parameter).second) << name << " twice";
              return 0;
            }));
        return parameters;
      });
  EXPECT_TRUE(outcome.value.has_value()) << outcome.first_error();
  return outcome.value.value_or(Parameters{});
}

const Parameters& parameters() {
  static const Parameters list = read_parameters();
  return list;
}

void expect_within(const std::string& name, double value, const std::string& where) {
  ASSERT_TRUE(parameters().contains(name)) << name;
  const Parameter& parameter = parameters().at(name);
  EXPECT_GE(value, parameter.low) << name << " in " << where;
  EXPECT_LE(value, parameter.high) << name << " in " << where;
}

void expect_value(const std::string& name, double value) {
  ASSERT_TRUE(parameters().contains(name)) << name;
  EXPECT_DOUBLE_EQ(parameters().at(name).value, value) << name;
}

TEST(Parameters, EveryValueLiesInItsRangeAndNamesItsSource) {
  EXPECT_GT(parameters().size(), 40U);
  for (const auto& [name, parameter] : parameters()) {
    EXPECT_LE(parameter.low, parameter.value) << name;
    EXPECT_LE(parameter.value, parameter.high) << name;
    EXPECT_LT(parameter.low, parameter.high) << name;
    EXPECT_GT(parameter.source.size(), 10U) << name;
  }
}

TEST(Parameters, TheHandOfTheCodeIsTheHandOfTheList) {
  const drilling::HandParams hand;
  expect_value("hand.grip_height_mm", hand.grip_height_mm);
  expect_value("hand.lateral_stiffness_n_per_mm", hand.lateral_stiffness_n_per_mm);
  expect_value("hand.wrist_stiffness_nmm_per_rad", hand.wrist_stiffness_nmm_per_rad);
  expect_value("hand.lateral_damping_ns_per_mm", hand.lateral_damping_ns_per_mm);
  expect_value("hand.mass_kg", hand.mass_kg);
  expect_value("hand.feed_damping_ns_per_mm", hand.feed_damping_ns_per_mm);
  expect_value("hand.lowpass_hz", hand.lowpass_hz);
  expect_value("hand.press_lowpass_hz", hand.press_lowpass_hz);
  expect_value("hand.drift_mm", hand.drift_mm);
  expect_value("hand.drift_period_s", hand.drift_period_s);
  expect_value("hand.drift_lean_rad", hand.drift_lean_rad);
}

TEST(Parameters, TheCuttingLawsOfTheCodeAreThoseOfTheList) {
  const drilling::CuttingParams cutting;
  const auto zone = [](const std::string& name, const drilling::ZoneLaw& law) {
    expect_value("cutting." + name + ".yield_frac", law.yield_frac);
    expect_value("cutting." + name + ".chip_scale_mm", law.chip_scale_mm);
  };
  zone("lip", cutting.lip);
  zone("chisel", cutting.chisel);
  zone("margin", cutting.margin);
  zone("side_lip", cutting.side_lip);
  expect_value("cutting.specific_energy_frac", cutting.specific_energy_frac);
  expect_value("cutting.walk_frac", cutting.walk_frac);
  expect_value("cutting.friction", cutting.friction);
}

TEST(Parameters, TheStrengthOfAJawsTissuesIsThatOfTheList) {
  expect_value("jaw.bone_scale_mpa", specimen::kBoneScale_mpa);
  expect_value("jaw.bone_rate_per_s", specimen::kBoneRate_per_s);
  expect_value("jaw.dentine_mpa", specimen::kDentineStrength_mpa);
  expect_value("jaw.enamel_mpa", specimen::kEnamelStrength_mpa);
  expect_value("jaw.titanium_mpa", specimen::kTitaniumStrength_mpa);
}

TEST(Parameters, GuidesAndKeysStayInRange) {
  const specimen::Guide guide;
  expect_value("guide.support_stiffness_n_per_mm", guide.support_stiffness_n_per_mm);
  expect_value("guide.foot_stiffness_n_per_mm", guide.foot_stiffness_n_per_mm);
  expect_value("guide.seat_force_n", guide.seat_force_n);
  expect_value("guide.start_gap_max_mm", guide.start_gap_max_mm);
  expect_value("guide.fit_sd_mm", guide.fit_sd_mm);
  expect_value("guide.fit_tilt_sd_deg", guide.fit_tilt_sd_deg);
  const specimen::Kit& kit = support::shipped_kit();
  for (const specimen::Key& key : kit.keys) {
    expect_within("key.play_mm", kit.sleeves.front().bore_mm - key.spigot_diameter_mm, key.id);
    for (const specimen::Drill& drill : kit.drills) {
      if (drill.id == key.drill_id) {
        expect_within("key.play_mm", key.bore_mm - drill.diameter_mm, key.id);
      }
    }
  }
  for (const char* gap : {"gap-2", "gap-4", "gap-6", "uniform", "two-density", "practice"}) {
    const std::string file = std::string("tests/population/lessons/") + gap + ".lesson.json";
    const auto read = lesson::read_lesson(support::read_file(file), file);
    ASSERT_TRUE(read.value.has_value()) << read.first_error();
    for (const lesson::LessonBlock& block : read.value->blocks) {
      if (block.guide) {
        expect_within("guide.support_stiffness_n_per_mm", block.guide->support_stiffness_n_per_mm,
                      file);
        expect_within("guide.foot_stiffness_n_per_mm", block.guide->foot_stiffness_n_per_mm, file);
        expect_within("guide.fit_sd_mm", block.guide->fit_sd_mm, file);
        expect_within("guide.fit_tilt_sd_deg", block.guide->fit_tilt_sd_deg, file);
      }
    }
  }
}

void expect_operator_within(const session::OperatorProfile& profile) {
  const auto both = [](double person, double now) {
    return std::sqrt(person * person + now * now);
  };
  const std::string& where = profile.id;
  expect_within("operator.press_n", profile.press_n, where);
  expect_within("operator.reaction_s", profile.reaction_s, where);
  expect_within("operator.aim_mm", both(profile.aim_person_sd_mm, profile.aim_sd_mm), where);
  expect_within("operator.lean_deg", both(profile.lean_person_sd_deg, profile.lean_sd_deg), where);
  expect_within("operator.relean_sd_deg", profile.relean_sd_deg, where);
  expect_within("operator.pivot_frac", profile.pivot_frac, where);
  expect_within("operator.follow_s", profile.follow_s, where);
  expect_within("operator.easy_feed_mm_per_s", profile.easy_feed_mm_per_s, where);
  expect_within("operator.depth_sd_mm", profile.depth_sd_mm, where);
  expect_within("operator.seat_care", profile.seat_care, where);
  expect_within("operator.guided_lean_sd_deg", profile.guided_lean_sd_deg, where);
  expect_within("operator.guided_side_sd_mm", profile.guided_side_sd_mm, where);
  expect_within("operator.learning_rate", profile.learning_rate, where);
  expect_within("operator.learning_floor_frac", profile.learning_floor_frac, where);
}

TEST(Parameters, OperatorsStayInRangeAndGetBetterWithTraining) {
  double last_aim = 1e9;
  double last_lean = 1e9;
  for (const char* id : {"novice", "trained", "expert"}) {
    const std::string file = std::string("assets/operators/") + id + ".json";
    const auto read = session::read_operator(support::read_file(file), file);
    ASSERT_TRUE(read.value.has_value()) << read.first_error();
    expect_operator_within(*read.value);
    EXPECT_LT(read.value->aim_sd_mm, last_aim) << id;
    EXPECT_LT(read.value->lean_sd_deg, last_lean) << id;
    last_aim = read.value->aim_sd_mm;
    last_lean = read.value->lean_sd_deg;
  }
}

// One line of the model's page names every parameter with its value, so the page cannot fall
// behind.
TEST(Parameters, TheModelPageStatesEveryValue) {
  const std::string page = support::read_file("src/drilling/MODEL.md");
  for (const auto& [name, parameter] : parameters()) {
    const std::size_t at = page.find("`" + name + "`");
    ASSERT_NE(at, std::string::npos) << name << " is not in MODEL.md";
    const std::string line = page.substr(at, page.find('\n', at) - at);
    const std::string value = "| " + base::number(parameter.value) + " |";
    EXPECT_NE(line.find(value), std::string::npos)
        << name << ": expected " << value << " in: " << line;
  }
}

}  // namespace
}  // namespace driftbench
