#include "lesson/specimen_json.h"

#include "lesson/fields.h"
#include "lesson/identifier.h"
#include "lesson/vocabulary.h"
#include "specimen/guide_support.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <set>

namespace driftbench::lesson {
namespace {

using scoring::Tolerance;
using specimen::BlockSpec;
using specimen::Guide;
using specimen::GuideSupport;
using specimen::Plan;

constexpr std::int64_t kMaxDrills = 20;
constexpr std::size_t kMaxIdBytes = 64;

// The ranges are those of specimen::validated().
constexpr std::array<NumberField<BlockSpec>, 6> kBlockFields{
    {{"edge_mm", &BlockSpec::edge_mm, {10.0, 40.0}, "mm"},
     {"voxel_mm", &BlockSpec::voxel_mm, {0.1, 0.5}, "mm"},
     {"boundary_offset_mm", &BlockSpec::boundary_offset_mm, {-20.0, 20.0}, "mm"},
     {"boundary_deg", &BlockSpec::boundary_deg, {-360.0, 360.0}, "deg"},
     {"slope_deg", &BlockSpec::slope_deg, {0.0, 60.0}, "deg"},
     {"slope_direction_deg", &BlockSpec::slope_direction_deg, {-360.0, 360.0}, "deg"}}};

constexpr std::array<NumberField<Guide>, 8> kGuideFields{
    {{"gap_mm", &Guide::gap_mm, {0.5, 10.0}, "mm"},
     {"foot_span_mm", &Guide::foot_span_mm, {8.0, 36.0}, "mm"},
     {"seat_force_n", &Guide::seat_force_n, {0.5, 60.0}, "N"},
     {"start_gap_max_mm", &Guide::start_gap_max_mm, {0.0, 4.0}, "mm"},
     {"support_stiffness_n_per_mm", &Guide::support_stiffness_n_per_mm, {10.0, 2000.0}, "N/mm"},
     {"foot_stiffness_n_per_mm", &Guide::foot_stiffness_n_per_mm, {2.0, 2000.0}, "N/mm"},
     {"fit_sd_mm", &Guide::fit_sd_mm, {0.0, 2.0}, "mm"},
     {"fit_tilt_sd_deg", &Guide::fit_tilt_sd_deg, {0.0, 10.0}, "deg"}}};

constexpr base::NumberRange kMouth_mm{15.0, 70.0};
constexpr base::IntRange kPins{0, 6};

constexpr std::array<base::EnumName<specimen::SupportKind>, 3> kSupportWords{
    {{"teeth", specimen::SupportKind::kTeeth},
     {"mucosa", specimen::SupportKind::kMucosa},
     {"bone", specimen::SupportKind::kBone}}};

constexpr std::array<NumberField<Tolerance>, 5> kToleranceFields{
    {{"entry_mm", &Tolerance::entry_mm, {0.05, 10.0}, "mm"},
     {"apex_mm", &Tolerance::apex_mm, {0.05, 10.0}, "mm"},
     {"angle_deg", &Tolerance::angle_deg, {0.1, 45.0}, "deg"},
     {"depth_low_mm", &Tolerance::depth_low_mm, {-10.0, 0.0}, "mm"},
     {"depth_high_mm", &Tolerance::depth_high_mm, {0.0, 10.0}, "mm"}}};

struct FlagField {
  std::string_view name;
  bool Visibility::*member;
};

constexpr std::array<FlagField, 5> kShowFields{{{"plan", &Visibility::plan},
                                                {"numbers", &Visibility::numbers},
                                                {"section", &Visibility::section},
                                                {"sound", &Visibility::sound},
                                                {"start_mark", &Visibility::start_mark}}};

std::optional<GuideSupport> read_support(base::ObjectReader& parent) {
  std::optional<base::ObjectReader> reader = parent.optional_object("support");
  if (!reader.has_value()) {
    return std::nullopt;
  }
  GuideSupport support;
  support.on = reader->required_enum("on", kSupportWords);
  support.pins = static_cast<int>(reader->optional_int("pins", kPins, {}, 0));
  support.bite_index = reader->optional_bool("bite_index", false);
  if (support.bite_index && support.on != specimen::SupportKind::kMucosa) {
    reader->add_error("bite_index", "true",
                      "false, because only a guide on gum is put on by the bite");
  }
  reader->finish();
  return support;
}

void write_support(base::JsonWriter& writer, const GuideSupport& support) {
  writer.key("support").begin_object(base::JsonLayout::kCompact);
  writer.field("on", base::name_of(kSupportWords, support.on));
  writer.field("pins", static_cast<std::int64_t>(support.pins));
  writer.field("bite_index", support.bite_index).end_object();
}

void read_halves(base::ObjectReader& parent, BlockSpec& block) {
  base::ObjectReader halves = parent.required_object("halves");
  block.first = halves.required_enum("first", kDensityWords);
  block.second = halves.optional_enum("second", kDensityWords);
  halves.finish();
}

}  // namespace

BlockSpec read_block(base::ObjectReader& parent, std::string_view key) {
  base::ObjectReader reader = parent.required_object(key);
  BlockSpec block;
  block.id = read_identifier(reader, "id");
  read_halves(reader, block);
  read_fields<BlockSpec>(reader, kBlockFields, Missing::kKeepsDefault, block);
  if (!(std::abs(block.boundary_offset_mm) < block.edge_mm / 2.0)) {
    reader.add_error("boundary_offset_mm", fmt::format("{} mm", block.boundary_offset_mm),
                     fmt::format("less than half the edge of {} mm, either way", block.edge_mm));
  }
  reader.finish();
  return block;
}

void write_block(base::JsonWriter& writer, const BlockSpec& block) {
  writer.begin_object().field("id", block.id);
  writer.key("halves").begin_object(base::JsonLayout::kCompact);
  writer.field("first", base::name_of(kDensityWords, block.first));
  if (block.second.has_value()) {
    writer.field("second", base::name_of(kDensityWords, *block.second));
  }
  writer.end_object();
  write_fields<BlockSpec>(writer, kBlockFields, block);
  writer.end_object();
}

void read_plan_rules(base::ObjectReader& reader, Plan& plan) {
  constexpr base::NumberRange kDepth_mm{3.0, 20.0};
  plan.depth_mm = reader.required_double("depth_mm", kDepth_mm, "mm");
  plan.implant_id = read_identifier(reader, "implant");
  plan.drill_ids = reader.required_strings("drills", {1, kMaxDrills}, kMaxIdBytes);
  std::set<std::string> seen;
  for (const std::string& id : plan.drill_ids) {
    if (!is_identifier(id)) {
      reader.add_error("drills", "the text " + base::json_quoted(id), "ids of drills");
    } else if (!seen.insert(id).second) {
      reader.add_error("drills", "the id " + base::json_quoted(id) + " twice", "each drill once");
    }
  }
}

void write_plan_rules(base::JsonWriter& writer, const Plan& plan) {
  writer.field("depth_mm", plan.depth_mm).field("implant", plan.implant_id);
  writer.key("drills").begin_array(base::JsonLayout::kCompact);
  for (const std::string& id : plan.drill_ids) {
    writer.value(id);
  }
  writer.end_array();
}

std::optional<Guide> read_guide(base::ObjectReader& parent, std::string_view key) {
  std::optional<base::ObjectReader> reader = parent.optional_object(key);
  if (!reader.has_value()) {
    return std::nullopt;
  }
  const std::optional<GuideSupport> support = read_support(*reader);
  Guide guide = support.has_value() ? specimen::typical_guide(*support) : Guide{};
  guide.sleeve_id = read_identifier(*reader, "sleeve");
  read_fields<Guide>(*reader, kGuideFields, Missing::kKeepsDefault, guide);
  guide.mouth_opening_mm = reader->optional_double("mouth_opening_mm", kMouth_mm, "mm");
  reader->finish();
  return guide;
}

void write_guide(base::JsonWriter& writer, const Guide& guide) {
  writer.begin_object().field("sleeve", guide.sleeve_id);
  if (guide.support.has_value()) {  // digests of records without one stay as they are
    write_support(writer, *guide.support);
  }
  for (const NumberField<Guide>& field : kGuideFields) {
    // A span of 0 is left to the jaw.
    if (field.member != &Guide::foot_span_mm || guide.foot_span_mm > 0.0) {
      writer.field(field.name, guide.*field.member);
    }
  }
  if (guide.mouth_opening_mm.has_value()) {
    writer.field("mouth_opening_mm", *guide.mouth_opening_mm);
  }
  writer.end_object();
}

Visibility read_visibility(base::ObjectReader& parent, std::string_view key) {
  Visibility show;
  std::optional<base::ObjectReader> reader = parent.optional_object(key);
  if (reader.has_value()) {
    for (const FlagField& field : kShowFields) {
      show.*field.member = reader->optional_bool(field.name, show.*field.member);
    }
    reader->finish();
  }
  return show;
}

void write_visibility(base::JsonWriter& writer, const Visibility& show) {
  writer.begin_object(base::JsonLayout::kCompact);
  for (const FlagField& field : kShowFields) {
    writer.field(field.name, show.*field.member);
  }
  writer.end_object();
}

Tolerance read_tolerance(base::ObjectReader& parent, std::string_view key) {
  base::ObjectReader reader = parent.required_object(key);
  Tolerance tolerance;
  read_fields<Tolerance>(reader, kToleranceFields, Missing::kIsError, tolerance);
  reader.finish();
  return tolerance;
}

void write_tolerance(base::JsonWriter& writer, const Tolerance& tolerance) {
  writer.begin_object();
  write_fields<Tolerance>(writer, kToleranceFields, tolerance);
  writer.end_object();
}

}  // namespace driftbench::lesson
