#include "lesson/jaw_json.h"

#include "lesson/fields.h"
#include "lesson/lesson.h"
#include "lesson/vocabulary.h"
#include "specimen/tooth_number.h"

#include <fmt/format.h>

#include <array>

namespace driftbench::lesson {
namespace {

using specimen::CanalSpec;
using specimen::CancellousSpec;
using specimen::CortexSpec;
using specimen::ForamenSpec;
using specimen::GumSpec;
using specimen::JawRegion;
using specimen::JawSpec;
using specimen::LumenSpec;
using specimen::NasopalatineSpec;
using specimen::RidgeSpec;
using specimen::ToothSpec;

constexpr std::array<base::EnumName<JawRegion>, 4> kRegionWords{
    {{"posterior-mandible", JawRegion::kPosteriorMandible},
     {"anterior-mandible", JawRegion::kAnteriorMandible},
     {"posterior-maxilla", JawRegion::kPosteriorMaxilla},
     {"anterior-maxilla", JawRegion::kAnteriorMaxilla}}};

// The ranges are those of specimen::validated().
constexpr std::array<NumberField<JawSpec>, 4> kSectionFields{
    {{"length_mm", &JawSpec::length_mm, {14.0, 70.0}, "mm"},
     {"depth_mm", &JawSpec::depth_mm, {10.0, 60.0}, "mm"},
     {"arch_radius_mm", &JawSpec::arch_radius_mm, {0.0, 500.0}, "mm"},
     {"voxel_mm", &JawSpec::voxel_mm, {0.1, 0.5}, "mm"}}};

constexpr std::array<NumberField<RidgeSpec>, 15> kRidgeFields{
    {{"height_mm", &RidgeSpec::height_mm, {12.0, 45.0}, "mm"},
     {"crest_width_mm", &RidgeSpec::crest_width_mm, {0.8, 16.0}, "mm"},
     {"upper_width_mm", &RidgeSpec::upper_width_mm, {1.5, 20.0}, "mm"},
     {"body_width_mm", &RidgeSpec::body_width_mm, {4.0, 24.0}, "mm"},
     {"body_depth_mm", &RidgeSpec::body_depth_mm, {5.0, 29.0}, "mm"},
     {"base_width_mm", &RidgeSpec::base_width_mm, {4.0, 24.0}, "mm"},
     {"lean_mm", &RidgeSpec::lean_mm, {-15.0, 15.0}, "mm"},
     {"crest_slope_deg", &RidgeSpec::crest_slope_deg, {-45.0, 45.0}, "deg"},
     {"rise_mm", &RidgeSpec::rise_mm, {-2.0, 6.0}, "mm"},
     {"undercut_depth_mm", &RidgeSpec::undercut_depth_mm, {0.0, 6.0}, "mm"},
     {"undercut_level_mm", &RidgeSpec::undercut_level_mm, {4.0, 20.0}, "mm"},
     {"undercut_angle_deg", &RidgeSpec::undercut_angle_deg, {35.0, 85.0}, "deg"},
     {"facial_hollow_mm", &RidgeSpec::facial_hollow_mm, {0.0, 4.0}, "mm"},
     {"facial_hollow_level_mm", &RidgeSpec::facial_hollow_level_mm, {3.0, 20.0}, "mm"},
     {"palate_flare_mm", &RidgeSpec::palate_flare_mm, {0.0, 15.0}, "mm"}}};

constexpr std::array<NumberField<CortexSpec>, 4> kCortexFields{
    {{"facial_mm", &CortexSpec::facial_mm, {0.2, 5.0}, "mm"},
     {"lingual_mm", &CortexSpec::lingual_mm, {0.2, 5.0}, "mm"},
     {"crest_mm", &CortexSpec::crest_mm, {0.2, 5.0}, "mm"},
     {"base_mm", &CortexSpec::base_mm, {0.2, 6.0}, "mm"}}};

constexpr std::array<NumberField<CanalSpec>, 7> kCanalFields{
    {{"diameter_mm", &CanalSpec::diameter_mm, {1.0, 5.0}, "mm"},
     {"wall_mm", &CanalSpec::wall_mm, {0.0, 2.0}, "mm"},
     {"depth_mm", &CanalSpec::depth_mm, {1.0, 30.0}, "mm"},
     {"lateral_mm", &CanalSpec::lateral_mm, {-6.0, 6.0}, "mm"},
     {"rise_deg", &CanalSpec::rise_deg, {-30.0, 30.0}, "deg"},
     {"drift_deg", &CanalSpec::drift_deg, {-30.0, 30.0}, "deg"},
     {"sag_mm", &CanalSpec::sag_mm, {-4.0, 4.0}, "mm"}}};

constexpr std::array<NumberField<ForamenSpec>, 4> kForamenFields{
    {{"at_mm", &ForamenSpec::at_mm, {-25.0, 25.0}, "mm"},
     {"depth_mm", &ForamenSpec::depth_mm, {4.0, 25.0}, "mm"},
     {"diameter_mm", &ForamenSpec::diameter_mm, {1.0, 6.0}, "mm"},
     {"loop_mm", &ForamenSpec::loop_mm, {0.0, 6.0}, "mm"}}};

constexpr std::array<NumberField<NasopalatineSpec>, 5> kNasopalatineFields{
    {{"at_mm", &NasopalatineSpec::at_mm, {-20.0, 20.0}, "mm"},
     {"lateral_mm", &NasopalatineSpec::lateral_mm, {-5.0, 15.0}, "mm"},
     {"lean_deg", &NasopalatineSpec::lean_deg, {-45.0, 45.0}, "deg"},
     {"diameter_mm", &NasopalatineSpec::diameter_mm, {1.0, 8.0}, "mm"},
     {"wall_mm", &NasopalatineSpec::wall_mm, {0.0, 2.0}, "mm"}}};

constexpr std::array<NumberField<LumenSpec>, 8> kLumenFields{
    {{"floor_mm", &LumenSpec::floor_mm, {1.5, 59.0}, "mm"},
     {"lowest_mm", &LumenSpec::lowest_mm, {-30.0, 30.0}, "mm"},
     {"bow_radius_mm", &LumenSpec::bow_radius_mm, {5.0, 1000.0}, "mm"},
     {"mesial_end_mm", &LumenSpec::mesial_end_mm, {-40.0, 20.0}, "mm"},
     {"lateral_mm", &LumenSpec::lateral_mm, {-15.0, 20.0}, "mm"},
     {"width_mm", &LumenSpec::width_mm, {2.0, 25.0}, "mm"},
     {"cortex_mm", &LumenSpec::cortex_mm, {0.2, 3.0}, "mm"},
     {"membrane_mm", &LumenSpec::membrane_mm, {0.1, 6.0}, "mm"}}};

constexpr std::array<NumberField<ToothSpec>, 6> kToothFields{
    {{"at_mm", &ToothSpec::at_mm, {-40.0, 40.0}, "mm"},
     {"lateral_mm", &ToothSpec::lateral_mm, {-8.0, 8.0}, "mm"},
     {"neck_mm", &ToothSpec::neck_mm, {-3.0, 8.0}, "mm"},
     {"lean_md_deg", &ToothSpec::lean_md_deg, {-35.0, 35.0}, "deg"},
     {"lean_bl_deg", &ToothSpec::lean_bl_deg, {-40.0, 40.0}, "deg"},
     {"scale", &ToothSpec::scale, {0.7, 1.3}, ""}}};

constexpr std::array<NumberField<GumSpec>, 3> kGumFields{
    {{"crest_mm", &GumSpec::crest_mm, {0.3, 8.0}, "mm"},
     {"side_mm", &GumSpec::side_mm, {0.3, 6.0}, "mm"},
     {"reach_mm", &GumSpec::reach_mm, {4.0, 20.0}, "mm"}}};

/// Reads a part made of numbers only, if it is there.
template <class T, class Table>
void read_part(base::ObjectReader& parent, std::string_view key, const Table& table, T& part) {
  std::optional<base::ObjectReader> reader = parent.optional_object(key);
  if (reader.has_value()) {
    read_fields<T>(*reader, table, Missing::kKeepsDefault, part);
    reader->finish();
  }
}

template <class T, class Table>
void read_part(base::ObjectReader& parent, std::string_view key, const Table& table,
               std::optional<T>& part) {
  if (parent.find(key) != nullptr) {
    T value = part.value_or(T{});
    read_part(parent, key, table, value);
    part = value;
  }
}

int read_tooth_number(base::ObjectReader& reader) {
  constexpr int kSafe = 36;
  const int fdi = static_cast<int>(reader.required_int("tooth", {11, 48}));
  if (fdi >= 11 && !specimen::is_fdi(fdi)) {
    reader.add_error("tooth", fmt::format("{}", fdi),
                     "an FDI number: quadrant 1 to 4, then tooth 1 to 8");
    return kSafe;
  }
  return fdi;
}

ToothSpec read_tooth(const base::JsonValue& item, const std::string& path,
                     base::ProblemList& problems) {
  base::ObjectReader reader(item, path, problems);
  ToothSpec tooth;
  tooth.fdi = read_tooth_number(reader);
  read_fields<ToothSpec>(reader, kToothFields, Missing::kKeepsDefault, tooth);
  reader.finish();
  return tooth;
}

void read_canal(base::ObjectReader& parent, std::optional<CanalSpec>& canal) {
  std::optional<base::ObjectReader> reader = parent.optional_object("canal");
  if (reader.has_value()) {
    CanalSpec value = canal.value_or(CanalSpec{});
    read_fields<CanalSpec>(*reader, kCanalFields, Missing::kKeepsDefault, value);
    read_part(*reader, "foramen", kForamenFields, value.foramen);
    reader->finish();
    canal = value;
  }
}

void read_cancellous(base::ObjectReader& parent, CancellousSpec& cancellous) {
  std::optional<base::ObjectReader> reader = parent.optional_object("cancellous");
  if (reader.has_value()) {
    cancellous.density = reader->optional_enum("class", kDensityWords).value_or(cancellous.density);
    cancellous.contrast = reader->optional_double("contrast", {0.0, 0.9}, "", cancellous.contrast);
    cancellous.texture = static_cast<std::uint64_t>(
        reader->optional_int("texture", {0, static_cast<std::int64_t>(kMaxSeed)}, "",
                             static_cast<std::int64_t>(cancellous.texture)));
    reader->finish();
  }
}

void read_socket(base::ObjectReader& parent, std::optional<ToothSpec>& socket) {
  if (const base::JsonValue* value = parent.find("socket"); value != nullptr) {
    socket = read_tooth(*value, parent.path_of("socket"), parent.problems());
  }
}

template <class T, class Table>
void write_part(base::JsonWriter& writer, std::string_view key, const Table& table, const T& part) {
  writer.key(key).begin_object(base::JsonLayout::kCompact);
  write_fields<T>(writer, table, part);
  writer.end_object();
}

void write_tooth(base::JsonWriter& writer, const ToothSpec& tooth) {
  writer.begin_object(base::JsonLayout::kCompact).field("tooth", tooth.fdi);
  write_fields<ToothSpec>(writer, kToothFields, tooth);
  writer.end_object();
}

void write_optional_parts(base::JsonWriter& writer, const JawSpec& jaw) {
  if (jaw.canal) {
    writer.key("canal").begin_object();
    write_fields<CanalSpec>(writer, kCanalFields, *jaw.canal);
    if (jaw.canal->foramen) {
      write_part(writer, "foramen", kForamenFields, *jaw.canal->foramen);
    }
    writer.end_object();
  }
  if (jaw.nasopalatine) {
    write_part(writer, "nasopalatine", kNasopalatineFields, *jaw.nasopalatine);
  }
  if (jaw.sinus) {
    write_part(writer, "sinus", kLumenFields, *jaw.sinus);
  }
  if (jaw.nose) {
    write_part(writer, "nose", kLumenFields, *jaw.nose);
  }
}

}  // namespace

JawSpec read_jaw_fields(base::ObjectReader& reader) {
  const JawRegion region = reader.required_enum("region", kRegionWords);
  JawSpec jaw = specimen::typical_jaw(region);
  jaw.site_fdi = read_tooth_number(reader);
  read_part(reader, "section", kSectionFields, jaw);
  read_part(reader, "ridge", kRidgeFields, jaw.ridge);
  read_part(reader, "tooth_ridge", kRidgeFields, jaw.tooth_ridge);
  read_part(reader, "cortex", kCortexFields, jaw.cortex);
  read_part(reader, "tooth_cortex", kCortexFields, jaw.tooth_cortex);
  read_cancellous(reader, jaw.cancellous);
  read_canal(reader, jaw.canal);
  read_part(reader, "nasopalatine", kNasopalatineFields, jaw.nasopalatine);
  read_part(reader, "sinus", kLumenFields, jaw.sinus);
  read_part(reader, "nose", kLumenFields, jaw.nose);
  if (reader.find("teeth") != nullptr) {
    jaw.teeth = reader.required_array("teeth", {0, specimen::kMostTeeth}, read_tooth);
  }
  read_socket(reader, jaw.socket);
  read_part(reader, "gum", kGumFields, jaw.gum);
  return jaw;
}

void write_jaw_fields(base::JsonWriter& writer, const JawSpec& jaw) {
  writer.field("region", base::name_of(kRegionWords, jaw.region)).field("tooth", jaw.site_fdi);
  write_part(writer, "section", kSectionFields, jaw);
  writer.key("ridge").begin_object();
  write_fields<RidgeSpec>(writer, kRidgeFields, jaw.ridge);
  writer.end_object().key("tooth_ridge").begin_object();
  write_fields<RidgeSpec>(writer, kRidgeFields, jaw.tooth_ridge);
  writer.end_object();
  write_part(writer, "cortex", kCortexFields, jaw.cortex);
  write_part(writer, "tooth_cortex", kCortexFields, jaw.tooth_cortex);
  writer.key("cancellous").begin_object(base::JsonLayout::kCompact);
  writer.field("class", base::name_of(kDensityWords, jaw.cancellous.density));
  writer.field("contrast", jaw.cancellous.contrast).field("texture", jaw.cancellous.texture);
  writer.end_object();
  write_optional_parts(writer, jaw);
  writer.key("teeth").begin_array();
  for (const ToothSpec& tooth : jaw.teeth) {
    write_tooth(writer, tooth);
  }
  writer.end_array();
  if (jaw.socket) {
    writer.key("socket");
    write_tooth(writer, *jaw.socket);
  }
  write_part(writer, "gum", kGumFields, jaw.gum);
}

}  // namespace driftbench::lesson
