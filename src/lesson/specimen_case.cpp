#include "lesson/specimen_case.h"

#include "lesson/fields.h"
#include "lesson/identifier.h"
#include "lesson/jaw_json.h"
#include "lesson/local_text.h"
#include "lesson/read_document.h"
#include "lesson/vector_json.h"
#include "specimen/shape_functions.h"

#include <fmt/format.h>

#include <array>
#include <set>

namespace driftbench::lesson {
namespace {

using specimen::GumState;
using specimen::Structure;

constexpr std::int64_t kMostMargins = 12;

constexpr std::array<base::EnumName<GumState>, 3> kAccessWords{
    {{"flap", GumState::kFlap}, {"punch", GumState::kPunch}, {"none", GumState::kIntact}}};

/// Everything that a section itself may have: all but the other implant, which comes last.
constexpr auto kStructureWords = [] {
  std::array<base::EnumName<Structure>, static_cast<std::size_t>(Structure::kOtherImplant)> words{};
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto structure = static_cast<Structure>(i);
    words[i] = {specimen::name_of(structure), structure};
  }
  return words;
}();

constexpr std::array<NumberField<CasePlan>, 2> kLeanFields{
    {{"lean_md_deg", &CasePlan::lean_md_deg, {-40.0, 40.0}, "deg"},
     {"lean_bl_deg", &CasePlan::lean_bl_deg, {-40.0, 40.0}, "deg"}}};

constexpr std::array<NumberField<CasePlan>, 2> kImplantFields{
    {{"diameter_mm", &CasePlan::diameter_mm, {2.0, 7.0}, "mm"},
     {"length_mm", &CasePlan::length_mm, {4.0, 20.0}, "mm"}}};

CasePlan read_plan(base::ObjectReader& parent) {
  constexpr base::NumberRange kPlace_mm{-15.0, 15.0};
  base::ObjectReader reader = parent.required_object("plan");
  CasePlan plan;
  plan.entry_mm = read_vec3(reader, "entry_mm", kPlace_mm, "mm");
  read_fields<CasePlan>(reader, kLeanFields, Missing::kKeepsDefault, plan);
  base::ObjectReader implant = reader.required_object("implant");
  read_fields<CasePlan>(implant, kImplantFields, Missing::kIsError, plan);
  implant.finish();
  reader.finish();
  return plan;
}

Margin read_margin(const base::JsonValue& item, const std::string& path,
                   base::ProblemList& problems) {
  base::ObjectReader reader(item, path, problems);
  Margin margin;
  margin.structure = reader.required_enum("structure", kStructureWords);
  margin.keep_mm = reader.required_double("keep_mm", {0.0, 10.0}, "mm");
  reader.finish();
  return margin;
}

/// The field that a sentence about impossible anatomy is about, if the file has it.
std::string_view field_of(base::ObjectReader& reader, std::string_view sentence) {
  constexpr std::array<std::array<std::string_view, 2>, 12> kWords{{{"tooth_ridge.", "tooth_ridge"},
                                                                    {"ridge.", "ridge"},
                                                                    {"voxels", "section"},
                                                                    {"arch_radius", "section"},
                                                                    {"canal", "canal"},
                                                                    {"sinus", "sinus"},
                                                                    {"nose", "nose"},
                                                                    {"socket", "socket"},
                                                                    {"Teeth", "teeth"},
                                                                    {"Tooth", "teeth"},
                                                                    {"root of tooth", "teeth"},
                                                                    {"tooth is", "tooth"}}};
  for (const auto& [word, field] : kWords) {
    if (sentence.find(word) != std::string_view::npos && reader.find(field) != nullptr) {
      return field;
    }
  }
  return "region";
}

void check_margins(base::ObjectReader& reader, const SpecimenCase& specimen,
                   const specimen::Jaw& jaw) {
  const std::array<specimen::RevolvedBody, 1> bodies{implant_of(specimen)};
  std::set<Structure> known;
  for (const specimen::Clearance& clearance : clearances(jaw, bodies)) {
    known.insert(clearance.structure);
  }
  for (const Margin& margin : specimen.margins) {
    if (known.count(margin.structure) == 0) {
      reader.add_error(
          "margins",
          fmt::format("a margin to the {}", base::name_of(kStructureWords, margin.structure)),
          "only structures that this section has");
    }
  }
}

void check_anatomy(base::ObjectReader& reader, const SpecimenCase& specimen) {
  const base::Result<specimen::JawSpec> checked = validated(specimen.jaw);
  if (!checked) {
    const std::string& sentence = checked.error().message;
    reader.add_error(field_of(reader, sentence), "impossible anatomy (" + sentence + ")",
                     "a jaw that can exist");
    return;
  }
  const specimen::Jaw jaw(specimen.jaw, specimen::Jaw::Texture::kNone);
  if (const auto problem = plan_problem(jaw, implant_of(specimen))) {
    reader.add_error("plan", "an impossible plan (" + *problem + ")",
                     "an implant that lies in the bone");
  }
  check_margins(reader, specimen, jaw);
}

SpecimenCase read_case_fields(base::ObjectReader& reader) {
  const std::size_t errors_before = reader.problems().error_count();
  SpecimenCase specimen;
  specimen.id = read_identifier(reader, "id");
  specimen.title = read_local_text(reader, "title");
  specimen.story = read_local_text(reader, "story");
  specimen.jaw = read_jaw_fields(reader);
  specimen.access = reader.optional_enum("access", kAccessWords).value_or(specimen.access);
  specimen.plan = read_plan(reader);
  specimen.margins = reader.required_array("margins", {1, kMostMargins}, read_margin);
  if (reader.problems().error_count() == errors_before) {
    check_anatomy(reader, specimen);
  }
  return specimen;
}

}  // namespace

ReadOutcome<SpecimenCase> read_specimen(std::string_view text, std::string_view file_name) {
  return read_hashed_document<SpecimenCase>(
      text, file_name, {kSpecimenFormat, kFileVersion, kMaxSpecimenBytes}, read_case_fields);
}

std::string write_specimen(const SpecimenCase& specimen) {
  base::JsonWriter writer;
  writer.begin_object().field("format", kSpecimenFormat).field("version", kFileVersion);
  writer.field("id", specimen.id).key("title");
  write_local_text(writer, specimen.title);
  writer.key("story");
  write_local_text(writer, specimen.story);
  write_jaw_fields(writer, specimen.jaw);
  writer.field("access", base::name_of(kAccessWords, specimen.access));
  writer.key("plan").begin_object();
  write_vec3(writer, "entry_mm", specimen.plan.entry_mm);
  write_fields<CasePlan>(writer, kLeanFields, specimen.plan);
  writer.key("implant").begin_object(base::JsonLayout::kCompact);
  write_fields<CasePlan>(writer, kImplantFields, specimen.plan);
  writer.end_object().end_object().key("margins").begin_array();
  for (const Margin& margin : specimen.margins) {
    writer.begin_object(base::JsonLayout::kCompact);
    writer.field("structure", base::name_of(kStructureWords, margin.structure));
    writer.field("keep_mm", margin.keep_mm).end_object();
  }
  writer.end_array().end_object();
  return writer.take();
}

specimen::Plan plan_of(const SpecimenCase& specimen) {
  specimen::Plan plan;
  plan.entry_mm = specimen.plan.entry_mm;
  plan.axis_out_unit =
      math::unit(math::Vec3(-specimen::tangent_of(specimen.plan.lean_md_deg),
                            -specimen::tangent_of(specimen.plan.lean_bl_deg), 1.0));
  plan.depth_mm = specimen.plan.length_mm;
  return plan;
}

specimen::RevolvedBody implant_of(const SpecimenCase& specimen) {
  specimen::RevolvedBody body;
  body.top_mm = specimen.plan.entry_mm;
  body.down_unit = -plan_of(specimen).axis_out_unit;
  body.radius_mm = 0.5 * specimen.plan.diameter_mm;
  body.length_mm = specimen.plan.length_mm;
  return body;
}

}  // namespace driftbench::lesson
