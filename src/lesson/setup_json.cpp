#include "lesson/setup_json.h"

#include "base/hash64.h"
#include "lesson/fields.h"
#include "lesson/hex.h"
#include "lesson/identifier.h"
#include "lesson/jaw_site_json.h"
#include "lesson/kit_json.h"
#include "lesson/lesson.h"
#include "lesson/specimen_json.h"
#include "lesson/vector_json.h"
#include "lesson/vocabulary.h"

#include <array>

namespace driftbench::lesson {
namespace {

using drilling::CuttingParams;
using drilling::HandParams;
using drilling::ZoneLaw;

// Ranges are wide: they keep a record sane, they do not judge it.
constexpr base::NumberRange kUpTo1000{0.0, 1000.0};
/// A filter needs more than two steps of 1 ms in a period.
constexpr base::NumberRange kLowPass_hz{0.01, 400.0};

constexpr std::array<NumberField<HandParams>, 11> kHandFields{
    {{"grip_height_mm", &HandParams::grip_height_mm, kUpTo1000, "mm"},
     {"lateral_stiffness_n_per_mm", &HandParams::lateral_stiffness_n_per_mm, kUpTo1000, "N/mm"},
     {"wrist_stiffness_nmm_per_rad",
      &HandParams::wrist_stiffness_nmm_per_rad,
      {0.0, 1e6},
      "N mm/rad"},
     {"lateral_damping_ns_per_mm", &HandParams::lateral_damping_ns_per_mm, kUpTo1000, "N s/mm"},
     {"mass_kg", &HandParams::mass_kg, {0.0, 10.0}, "kg"},
     {"feed_damping_ns_per_mm", &HandParams::feed_damping_ns_per_mm, kUpTo1000, "N s/mm"},
     {"lowpass_hz", &HandParams::lowpass_hz, kLowPass_hz, "Hz"},
     {"press_lowpass_hz", &HandParams::press_lowpass_hz, kLowPass_hz, "Hz"},
     {"drift_mm", &HandParams::drift_mm, kUpTo1000, "mm"},
     {"drift_period_s", &HandParams::drift_period_s, {0.01, 1000.0}, "s"},
     {"drift_lean_rad", &HandParams::drift_lean_rad, {0.0, 1.0}, "rad"}}};

constexpr std::array<NumberField<ZoneLaw>, 2> kZoneFields{
    {{"yield_frac", &ZoneLaw::yield_frac, kUpTo1000, ""},
     {"chip_scale_mm", &ZoneLaw::chip_scale_mm, {1e-6, 1000.0}, "mm"}}};

struct ZoneField {
  std::string_view name;
  ZoneLaw CuttingParams::*member;
};

constexpr std::array<ZoneField, 4> kZones{{{"lip", &CuttingParams::lip},
                                           {"chisel", &CuttingParams::chisel},
                                           {"margin", &CuttingParams::margin},
                                           {"side_lip", &CuttingParams::side_lip}}};

constexpr std::array<NumberField<CuttingParams>, 3> kCuttingFields{
    {{"specific_energy_frac", &CuttingParams::specific_energy_frac, kUpTo1000, ""},
     {"idle_rev_per_s", &CuttingParams::idle_rev_per_s, {1e-6, 1000.0}, "1/s"},
     {"creep_speed_mm_per_s", &CuttingParams::creep_speed_mm_per_s, {1e-6, 1000.0}, "mm/s"}}};

specimen::Plan read_plan(base::ObjectReader& parent) {
  constexpr base::NumberRange kPlace_mm{-1000.0, 1000.0};
  constexpr base::NumberRange kUnit{-1.0, 1.0};
  base::ObjectReader reader = parent.required_object("plan");
  specimen::Plan plan;
  plan.entry_mm = read_vec3(reader, "entry_mm", kPlace_mm, "mm");
  plan.axis_out_unit = read_vec3(reader, "axis_out_unit", kUnit, "");
  plan.md_hint = read_vec3(reader, "md_hint", kUnit, "");
  plan.bl_hint = read_vec3(reader, "bl_hint", kUnit, "");
  read_plan_rules(reader, plan);
  reader.finish();
  return plan;
}

void write_plan(base::JsonWriter& writer, const specimen::Plan& plan) {
  writer.begin_object();
  write_vec3(writer, "entry_mm", plan.entry_mm);
  write_vec3(writer, "axis_out_unit", plan.axis_out_unit);
  write_vec3(writer, "md_hint", plan.md_hint);
  write_vec3(writer, "bl_hint", plan.bl_hint);
  write_plan_rules(writer, plan);
  writer.end_object();
}

CuttingParams read_cutting(base::ObjectReader& parent) {
  base::ObjectReader reader = parent.required_object("cutting");
  CuttingParams cutting;
  for (const ZoneField& zone : kZones) {
    base::ObjectReader nested = reader.required_object(zone.name);
    read_fields<ZoneLaw>(nested, kZoneFields, Missing::kIsError, cutting.*zone.member);
    nested.finish();
  }
  read_fields<CuttingParams>(reader, kCuttingFields, Missing::kIsError, cutting);
  reader.finish();
  return cutting;
}

void write_cutting(base::JsonWriter& writer, const CuttingParams& cutting) {
  writer.begin_object();
  for (const ZoneField& zone : kZones) {
    writer.key(zone.name).begin_object(base::JsonLayout::kCompact);
    write_fields<ZoneLaw>(writer, kZoneFields, cutting.*zone.member);
    writer.end_object();
  }
  write_fields<CuttingParams>(writer, kCuttingFields, cutting);
  writer.end_object();
}

HandParams read_hand(base::ObjectReader& parent) {
  base::ObjectReader reader = parent.required_object("hand");
  HandParams hand;
  read_fields<HandParams>(reader, kHandFields, Missing::kIsError, hand);
  reader.finish();
  return hand;
}

/// A jaw names its region, a block its halves.
specimen::Specimen read_specimen_of(base::ObjectReader& reader) {
  constexpr std::string_view kKey = "specimen";
  const base::JsonValue* value = reader.find(kKey);
  if (value != nullptr && value->is_object() && value->find("region") != nullptr) {
    return read_jaw_site(reader, kKey);
  }
  return read_block(reader, kKey);
}

void write_specimen_of(base::JsonWriter& writer, const specimen::Specimen& specimen) {
  writer.key("specimen");
  if (const specimen::JawSite* jaw = specimen::jaw_in(specimen)) {
    write_jaw_site(writer, *jaw);
  } else {
    write_block(writer, *specimen::block_in(specimen));
  }
}

/// The lesson that the set-up came from; a set-up made without a lesson names none.
void read_lesson_ref(base::ObjectReader& reader, AttemptSetup& setup) {
  if (reader.find("lesson_id") != nullptr) {
    setup.lesson_id = read_identifier(reader, "lesson_id");
    setup.lesson_sha256 = read_hex(reader, "lesson_sha256", kSha256Digits);
    setup.block_id = read_identifier(reader, "block_id");
  }
}

}  // namespace

AttemptSetup read_setup(base::ObjectReader& parent, std::string_view key) {
  constexpr std::int64_t kMaxIndex = static_cast<std::int64_t>(kMaxSeed);
  base::ObjectReader reader = parent.required_object(key);
  AttemptSetup setup;
  read_lesson_ref(reader, setup);
  setup.site_name = read_identifier(reader, "site");
  setup.approach = reader.required_enum("approach", kApproachWords);
  setup.implant_through_guide = reader.required_bool("implant_through_guide");
  setup.place_implant = reader.optional_bool("place_implant", false);
  setup.lesson_seed = static_cast<std::uint64_t>(reader.required_int("seed", {0, kMaxIndex}));
  setup.attempt_index =
      static_cast<std::uint64_t>(reader.required_int("attempt_index", {0, kMaxIndex}));
  setup.seed = read_hash64(reader, "attempt_seed");
  setup.specimen = read_specimen_of(reader);
  setup.plan = read_plan(reader);
  setup.guide = read_guide(reader, "guide");
  setup.show = read_visibility(reader, "show");
  setup.ask_estimate = reader.required_bool("ask_estimate");
  setup.tolerance = read_tolerance(reader, "tolerance");
  setup.hand = read_hand(reader);
  setup.cutting = read_cutting(reader);
  base::ObjectReader kit = reader.required_object("kit");
  setup.kit = read_kit_fields(kit);
  kit.finish();
  reader.finish();
  return setup;
}

void write_setup(base::JsonWriter& writer, const AttemptSetup& setup) {
  writer.begin_object();
  if (!setup.lesson_id.empty()) {
    writer.field("lesson_id", setup.lesson_id).field("lesson_sha256", setup.lesson_sha256);
    writer.field("block_id", setup.block_id);
  }
  writer.field("site", setup.site_name);
  writer.field("approach", base::name_of(kApproachWords, setup.approach));
  writer.field("implant_through_guide", setup.implant_through_guide);
  if (setup.place_implant) {  // digests of records without one stay as they are
    writer.field("place_implant", true);
  }
  writer.field("seed", setup.lesson_seed).field("attempt_index", setup.attempt_index);
  writer.field("attempt_seed", base::to_hex16(setup.seed));
  write_specimen_of(writer, setup.specimen);
  writer.key("plan");
  write_plan(writer, setup.plan);
  if (setup.guide.has_value()) {
    writer.key("guide");
    write_guide(writer, *setup.guide);
  }
  writer.key("show");
  write_visibility(writer, setup.show);
  writer.field("ask_estimate", setup.ask_estimate).key("tolerance");
  write_tolerance(writer, setup.tolerance);
  writer.key("hand").begin_object();
  write_fields<HandParams>(writer, kHandFields, setup.hand);
  writer.end_object().key("cutting");
  write_cutting(writer, setup.cutting);
  writer.key("kit").begin_object();
  write_kit_fields(writer, setup.kit);
  writer.end_object().end_object();
}

}  // namespace driftbench::lesson
