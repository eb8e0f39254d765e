#include "lesson/jaw_site_json.h"

#include "lesson/fields.h"
#include "lesson/hex.h"
#include "lesson/identifier.h"
#include "lesson/jaw_json.h"
#include "lesson/vector_json.h"
#include "lesson/vocabulary.h"
#include "specimen/clearance.h"

#include <fmt/format.h>

#include <array>
#include <set>

namespace driftbench::lesson {
namespace {

using specimen::GumState;
using specimen::Margin;
using specimen::SitePlan;
using specimen::Structure;

constexpr std::int64_t kMostMargins = 12;

constexpr std::array<base::EnumName<GumState>, 3> kAccessWords{
    {{"flap", GumState::kFlap}, {"punch", GumState::kPunch}, {"none", GumState::kIntact}}};

constexpr std::array<NumberField<SitePlan>, 2> kLeanFields{
    {{"lean_md_deg", &SitePlan::lean_md_deg, {-40.0, 40.0}, "deg"},
     {"lean_bl_deg", &SitePlan::lean_bl_deg, {-40.0, 40.0}, "deg"}}};

constexpr std::array<NumberField<SitePlan>, 2> kImplantFields{
    {{"diameter_mm", &SitePlan::diameter_mm, {2.0, 7.0}, "mm"},
     {"length_mm", &SitePlan::length_mm, {4.0, 20.0}, "mm"}}};

SitePlan read_plan(base::ObjectReader& parent) {
  constexpr base::NumberRange kPlace_mm{-15.0, 15.0};
  base::ObjectReader reader = parent.required_object("plan");
  SitePlan plan;
  plan.entry_mm = read_vec3(reader, "entry_mm", kPlace_mm, "mm");
  read_fields<SitePlan>(reader, kLeanFields, Missing::kKeepsDefault, plan);
  base::ObjectReader implant = reader.required_object("implant");
  read_fields<SitePlan>(implant, kImplantFields, Missing::kIsError, plan);
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
  constexpr std::array<std::array<std::string_view, 2>, 13> kWords{{{"tooth_ridge.", "tooth_ridge"},
                                                                    {"ridge.", "ridge"},
                                                                    {"voxels", "section"},
                                                                    {"arch_radius", "section"},
                                                                    {"under crown", "teeth"},
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

void check_margins(base::ObjectReader& reader, const specimen::JawSite& site,
                   const specimen::Jaw& jaw) {
  const std::array<specimen::RevolvedBody, 1> bodies{specimen::implant_of(site)};
  std::set<Structure> known;
  for (const specimen::Clearance& clearance : clearances(jaw, bodies)) {
    known.insert(clearance.structure);
  }
  for (const Margin& margin : site.margins) {
    if (known.count(margin.structure) == 0) {
      reader.add_error(
          "margins",
          fmt::format("a margin to the {}", base::name_of(kStructureWords, margin.structure)),
          "only structures that this section has");
    }
  }
}

}  // namespace

void read_site_fields(base::ObjectReader& reader, specimen::JawSite& site) {
  site.jaw = read_jaw_fields(reader);
  site.access = reader.optional_enum("access", kAccessWords).value_or(site.access);
  site.plan = read_plan(reader);
  site.margins = reader.required_array("margins", {1, kMostMargins}, read_margin);
}

void check_site(base::ObjectReader& reader, const specimen::JawSite& site) {
  const base::Result<specimen::JawSpec> checked = validated(site.jaw);
  if (!checked) {
    const std::string& sentence = checked.error().message;
    reader.add_error(field_of(reader, sentence), "impossible anatomy (" + sentence + ")",
                     "a jaw that can exist");
    return;
  }
  const specimen::Jaw jaw(site.jaw, specimen::Jaw::Texture::kNone);
  if (const auto problem = plan_problem(jaw, specimen::implant_of(site))) {
    reader.add_error("plan", "an impossible plan (" + *problem + ")",
                     "an implant that lies in the bone");
  }
  check_margins(reader, site, jaw);
}

void write_site_fields(base::JsonWriter& writer, const specimen::JawSite& site) {
  write_jaw_fields(writer, site.jaw);
  writer.field("access", base::name_of(kAccessWords, site.access));
  writer.key("plan").begin_object();
  write_vec3(writer, "entry_mm", site.plan.entry_mm);
  write_fields<SitePlan>(writer, kLeanFields, site.plan);
  writer.key("implant").begin_object(base::JsonLayout::kCompact);
  write_fields<SitePlan>(writer, kImplantFields, site.plan);
  writer.end_object().end_object().key("margins").begin_array();
  for (const Margin& margin : site.margins) {
    writer.begin_object(base::JsonLayout::kCompact);
    writer.field("structure", base::name_of(kStructureWords, margin.structure));
    writer.field("keep_mm", margin.keep_mm).end_object();
  }
  writer.end_array();
}

specimen::JawSite read_jaw_site(base::ObjectReader& parent, std::string_view key) {
  base::ObjectReader reader = parent.required_object(key);
  specimen::JawSite site;
  site.id = read_identifier(reader, "id");
  site.sha256 = read_hex(reader, "sha256", kSha256Digits);
  read_site_fields(reader, site);
  reader.finish();
  return site;
}

void write_jaw_site(base::JsonWriter& writer, const specimen::JawSite& site) {
  writer.begin_object().field("id", site.id).field("sha256", site.sha256);
  write_site_fields(writer, site);
  writer.end_object();
}

}  // namespace driftbench::lesson
