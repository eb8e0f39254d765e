#include "lesson/jaw_json.h"

#include "lesson/fields.h"
#include "lesson/lesson.h"
#include "lesson/vocabulary.h"
#include "specimen/jaw_limits.h"
#include "specimen/tooth_number.h"

#include <fmt/format.h>

#include <array>

namespace driftbench::lesson {
namespace {

using specimen::CanalSpec;
using specimen::CancellousSpec;
using specimen::CortexSpec;
using specimen::ForamenSpec;
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

/// A table of limits as a table of fields.
template <class T, std::size_t kCount>
constexpr std::array<NumberField<T>, kCount> fields_of(
    const std::array<specimen::SizeLimit<T>, kCount>& limits) {
  std::array<NumberField<T>, kCount> fields{};
  for (std::size_t i = 0; i < kCount; ++i) {
    fields[i] = {limits[i].name, limits[i].member, {limits[i].low, limits[i].high}, limits[i].unit};
  }
  return fields;
}

constexpr auto kSectionFields = fields_of(specimen::kSectionLimits);
constexpr auto kRidgeFields = fields_of(specimen::kRidgeLimits);
constexpr auto kCortexFields = fields_of(specimen::kCortexLimits);
constexpr auto kCancellousFields = fields_of(specimen::kCancellousLimits);
constexpr auto kCanalFields = fields_of(specimen::kCanalLimits);
constexpr auto kForamenFields = fields_of(specimen::kForamenLimits);
constexpr auto kNasopalatineFields = fields_of(specimen::kNasopalatineLimits);
constexpr auto kLumenFields = fields_of(specimen::kLumenLimits);
constexpr auto kToothFields = fields_of(specimen::kToothLimits);
constexpr auto kImplantRootFields = fields_of(specimen::kImplantRootLimits);
constexpr auto kGumFields = fields_of(specimen::kGumLimits);

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

/// A lost tooth had roots; a neighbour may stand on an implant.
ToothSpec read_lost_tooth(base::ObjectReader& reader) {
  ToothSpec tooth;
  tooth.fdi = read_tooth_number(reader);
  read_fields<ToothSpec>(reader, kToothFields, Missing::kKeepsDefault, tooth);
  return tooth;
}

ToothSpec read_tooth(const base::JsonValue& item, const std::string& path,
                     base::ProblemList& problems) {
  base::ObjectReader reader(item, path, problems);
  ToothSpec tooth = read_lost_tooth(reader);
  read_part(reader, "implant", kImplantRootFields, tooth.implant);
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
    read_fields<CancellousSpec>(*reader, kCancellousFields, Missing::kKeepsDefault, cancellous);
    cancellous.texture = static_cast<std::uint64_t>(
        reader->optional_int("texture", {0, static_cast<std::int64_t>(kMaxSeed)}, "",
                             static_cast<std::int64_t>(cancellous.texture)));
    reader->finish();
  }
}

void read_socket(base::ObjectReader& parent, std::optional<ToothSpec>& socket) {
  if (const base::JsonValue* value = parent.find("socket"); value != nullptr) {
    base::ObjectReader reader(*value, parent.path_of("socket"), parent.problems());
    socket = read_lost_tooth(reader);
    reader.finish();
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
  if (tooth.implant) {
    write_part(writer, "implant", kImplantRootFields, *tooth.implant);
  }
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
  write_fields<CancellousSpec>(writer, kCancellousFields, jaw.cancellous);
  writer.field("texture", jaw.cancellous.texture).end_object();
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
