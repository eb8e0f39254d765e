#include "lesson/kit_json.h"

#include "lesson/fields.h"
#include "lesson/identifier.h"
#include "lesson/lesson.h"
#include "lesson/read_document.h"
#include "lesson/vocabulary.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace driftbench::lesson {
namespace {

using specimen::Drill;
using specimen::Implant;
using specimen::Key;
using specimen::Kit;
using specimen::Sleeve;

constexpr std::int64_t kMaxItems = 50;
constexpr std::size_t kMaxNameBytes = 200;
constexpr base::NumberRange kLengthRange_mm{1.0, 60.0};

constexpr std::array<NumberField<Drill>, 6> kDrillFields{
    {{"diameter_mm", &Drill::diameter_mm, {0.8, 6.0}, "mm"},
     {"point_angle_deg", &Drill::point_angle_deg, {60.0, 180.0}, "deg"},
     {"tip_length_mm", &Drill::tip_length_mm, {0.0, 5.0}, "mm"},
     {"shank_diameter_mm", &Drill::shank_diameter_mm, {0.5, 6.0}, "mm"},
     {"body_length_mm", &Drill::body_length_mm, {0.5, 40.0}, "mm"},
     {"speed_rpm", &Drill::speed_rpm, {10.0, 3000.0}, "rpm"}}};

/// Of the guiding collar that the shank of a drill may have.
constexpr std::array<NumberField<Drill>, 2> kCollarFields{
    {{"diameter_mm", &Drill::collar_diameter_mm, {0.8, 8.0}, "mm"},
     {"length_mm", &Drill::collar_length_mm, {0.5, 30.0}, "mm"}}};

constexpr std::array<NumberField<Sleeve>, 3> kSleeveFields{
    {{"bore_mm", &Sleeve::bore_mm, {1.0, 10.0}, "mm"},
     {"height_mm", &Sleeve::height_mm, {1.0, 12.0}, "mm"},
     {"outer_diameter_mm", &Sleeve::outer_diameter_mm, {1.5, 15.0}, "mm"}}};

constexpr std::array<NumberField<Key>, 3> kKeyFields{
    {{"spigot_diameter_mm", &Key::spigot_diameter_mm, {1.0, 10.0}, "mm"},
     {"bore_mm", &Key::bore_mm, {0.8, 8.0}, "mm"},
     {"collar_mm", &Key::collar_mm, {0.2, 6.0}, "mm"}}};

constexpr std::array<NumberField<Implant>, 2> kImplantFields{
    {{"diameter_mm", &Implant::diameter_mm, {2.0, 7.0}, "mm"},
     {"length_mm", &Implant::length_mm, {4.0, 20.0}, "mm"}}};

using specimen::ImplantThread;

constexpr std::array<NumberField<ImplantThread>, 6> kThreadFields{
    {{"core_diameter_mm", &ImplantThread::core_diameter_mm, {1.0, 6.5}, "mm"},
     {"apex_diameter_mm", &ImplantThread::apex_diameter_mm, {1.0, 7.0}, "mm"},
     {"taper_mm", &ImplantThread::taper_mm, {0.5, 20.0}, "mm"},
     {"pitch_mm", &ImplantThread::pitch_mm, {0.2, 3.0}, "mm"},
     {"lead_mm_per_rev", &ImplantThread::lead_mm_per_rev, {0.2, 6.0}, "mm"},
     {"speed_rpm", &ImplantThread::speed_rpm, {5.0, 50.0}, "rpm"}}};

/// A printed point length that is wrong would make every depth wrong, so it is checked.
void check_point(base::ObjectReader& reader, const Drill& drill) {
  constexpr double kPrintedTo_mm = 0.051;  // printed to one decimal
  const double height_mm = specimen::point_height_mm(drill.diameter_mm, drill.point_angle_deg);
  if (std::abs(height_mm - drill.tip_length_mm) > kPrintedTo_mm) {
    reader.add_error("tip_length_mm", fmt::format("{} mm", drill.tip_length_mm),
                     fmt::format("{:.1f} mm, the height of a {} mm point of {} degrees", height_mm,
                                 drill.diameter_mm, drill.point_angle_deg));
  }
}

void check_rising(base::ObjectReader& reader, std::string_view key,
                  const std::vector<double>& lengths_mm) {
  if (!std::is_sorted(lengths_mm.begin(), lengths_mm.end(), std::less_equal<>())) {
    reader.add_error(key, "lengths out of order", "each length larger than the one before");
  }
}

void check_wider(base::ObjectReader& reader, std::string_view key, double diameter_mm,
                 double bore_mm) {
  if (diameter_mm < bore_mm) {
    reader.add_error(key, fmt::format("{} mm", diameter_mm),
                     fmt::format("more than the bore of {} mm", bore_mm));
  }
}

/// A collar stands between the stop and the cutting body, and follows the body through the bore.
void check_collar(base::ObjectReader& reader, const Drill& drill) {
  if (drill.collar_diameter_mm < drill.diameter_mm) {
    reader.add_error("diameter_mm", fmt::format("{} mm", drill.collar_diameter_mm),
                     fmt::format("at least the {} mm of the drill", drill.diameter_mm));
  }
  if (drill.stop_lengths_mm.empty() || drill.collar_length_mm > drill.stop_lengths_mm.front()) {
    reader.add_error("length_mm", fmt::format("{} mm", drill.collar_length_mm),
                     "no more than the drill's shortest stop length");
  }
}

void read_collar(base::ObjectReader& reader, Drill& drill) {
  std::optional<base::ObjectReader> nested = reader.optional_object("collar");
  if (!nested) {
    return;
  }
  const std::size_t errors_before = reader.problems().error_count();
  read_fields<Drill>(*nested, kCollarFields, Missing::kIsError, drill);
  nested->finish();
  if (reader.problems().error_count() == errors_before) {
    check_collar(*nested, drill);
  }
}

/// What an instrument has besides its id and its table of numbers.
void read_rest(base::ObjectReader& reader, Drill& drill, bool has_good_numbers) {
  const std::size_t errors_before = reader.problems().error_count();
  drill.kind = reader.required_enum("kind", kDrillKindWords);
  drill.stop_lengths_mm =
      reader.optional_doubles("stop_lengths_mm", {0, kMaxItems}, kLengthRange_mm, "mm");
  drill.depth_lines_mm =
      reader.optional_doubles("depth_lines_mm", {0, kMaxItems}, kLengthRange_mm, "mm");
  read_collar(reader, drill);
  if (has_good_numbers && reader.problems().error_count() == errors_before) {
    check_point(reader, drill);
    check_rising(reader, "stop_lengths_mm", drill.stop_lengths_mm);
    check_rising(reader, "depth_lines_mm", drill.depth_lines_mm);
  }
}

void read_rest(base::ObjectReader& reader, Sleeve& sleeve, bool /*has_good_numbers*/) {
  check_wider(reader, "outer_diameter_mm", sleeve.outer_diameter_mm, sleeve.bore_mm);
}

void read_rest(base::ObjectReader& reader, Key& key, bool /*has_good_numbers*/) {
  key.drill_id = read_identifier(reader, "drill");
  check_wider(reader, "spigot_diameter_mm", key.spigot_diameter_mm, key.bore_mm);
}

/// A thread that the kit leaves out has usual proportions, see specimen::thread_of().
void read_rest(base::ObjectReader& reader, Implant& implant, bool has_good_numbers) {
  std::optional<base::ObjectReader> nested = reader.optional_object("thread");
  if (!nested) {
    return;
  }
  const std::size_t errors_before = reader.problems().error_count();
  ImplantThread thread = specimen::thread_of(implant);
  read_fields<ImplantThread>(*nested, kThreadFields, Missing::kKeepsDefault, thread);
  nested->finish();
  if (has_good_numbers && reader.problems().error_count() == errors_before) {
    const double thread_depths_mm = implant.diameter_mm - thread.core_diameter_mm;
    if (!(thread_depths_mm > 0.0) || !(thread.apex_diameter_mm > thread_depths_mm) ||
        thread.apex_diameter_mm > implant.diameter_mm || thread.taper_mm > implant.length_mm) {
      reader.add_error("thread", "a thread that does not fit its implant",
                       "a core narrower than the implant, an end wider than both thread depths, "
                       "and no more taper than length");
    }
  }
  implant.thread = thread;
}

/// How one instrument of an array is read.
template <class T, class Table>
auto reader_of(const Table& table) {
  return
      [&table](const base::JsonValue& item, const std::string& path, base::ProblemList& problems) {
        base::ObjectReader reader(item, path, problems);
        const std::size_t errors_before = problems.error_count();
        T instrument;
        instrument.id = read_identifier(reader, "id");
        read_fields<T>(reader, table, Missing::kIsError, instrument);
        read_rest(reader, instrument, problems.error_count() == errors_before);
        reader.finish();
        return instrument;
      };
}

/// Adds an error at field `field` of element `index` of array `array`.
void add_item_error(base::ObjectReader& reader, std::string_view array, std::size_t index,
                    std::string_view field, std::string found, std::string expected) {
  const base::JsonValue& item = reader.find(array)->items()[index];
  base::ObjectReader place(item, fmt::format("{}[{}]", reader.path_of(array), index),
                           reader.problems());
  place.add_error(field, std::move(found), std::move(expected));
}

template <class T>
void check_ids(base::ObjectReader& reader, std::string_view array, const std::vector<T>& items) {
  std::set<std::string> seen;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (!seen.insert(items[i].id).second) {
      add_item_error(reader, array, i, "id", "the id " + base::json_quoted(items[i].id) + " again",
                     "an id that no other of its kind has");
    }
  }
}

/// Every key must belong to a drill that passes through it and to a sleeve that takes it.
void check_keys(base::ObjectReader& reader, const Kit& kit) {
  for (std::size_t i = 0; i < kit.keys.size(); ++i) {
    const Key& key = kit.keys[i];
    const auto drill = std::find_if(kit.drills.begin(), kit.drills.end(),
                                    [&](const Drill& d) { return d.id == key.drill_id; });
    if (drill == kit.drills.end()) {
      add_item_error(reader, "keys", i, "drill", "the id " + base::json_quoted(key.drill_id),
                     "the id of a drill of this kit");
    } else if (const double widest_mm = std::max(drill->diameter_mm, drill->collar_diameter_mm);
               !(key.bore_mm > widest_mm)) {
      add_item_error(reader, "keys", i, "bore_mm", fmt::format("{} mm", key.bore_mm),
                     fmt::format("more than the {} mm of its drill", widest_mm));
    }
    const bool fits = std::any_of(kit.sleeves.begin(), kit.sleeves.end(), [&](const Sleeve& s) {
      return key.spigot_diameter_mm < s.bore_mm;
    });
    if (!fits) {
      add_item_error(reader, "keys", i, "spigot_diameter_mm",
                     fmt::format("{} mm", key.spigot_diameter_mm),
                     "less than the bore of a sleeve of this kit");
    }
  }
}

void write_lengths(base::JsonWriter& writer, std::string_view name,
                   const std::vector<double>& lengths_mm) {
  writer.key(name).begin_array(base::JsonLayout::kCompact);
  for (const double length_mm : lengths_mm) {
    writer.value(length_mm);
  }
  writer.end_array();
}

/// Writes an array of instruments: id, what `write_words` adds, and the numbers of the table.
template <class T, class Table, class WriteWords>
void write_instruments(base::JsonWriter& writer, std::string_view name,
                       const std::vector<T>& instruments, const Table& table,
                       WriteWords write_words) {
  writer.key(name).begin_array();
  for (const T& instrument : instruments) {
    writer.begin_object(base::JsonLayout::kCompact).field("id", instrument.id);
    write_words(instrument);
    write_fields<T>(writer, table, instrument);
    writer.end_object();
  }
  writer.end_array();
}

void write_drill(base::JsonWriter& writer, const Drill& drill) {
  writer.begin_object();
  writer.field("id", drill.id).field("kind", base::name_of(kDrillKindWords, drill.kind));
  write_fields<Drill>(writer, kDrillFields, drill);
  write_lengths(writer, "stop_lengths_mm", drill.stop_lengths_mm);
  write_lengths(writer, "depth_lines_mm", drill.depth_lines_mm);
  if (drill.collar_length_mm > 0.0) {
    writer.key("collar").begin_object(base::JsonLayout::kCompact);
    write_fields<Drill>(writer, kCollarFields, drill);
    writer.end_object();
  }
  writer.end_object();
}

void write_implant(base::JsonWriter& writer, const Implant& implant) {
  // Without a thread as in older files, so that digests of older records stay as they are.
  writer.begin_object(implant.thread ? base::JsonLayout::kPretty : base::JsonLayout::kCompact);
  writer.field("id", implant.id);
  write_fields<Implant>(writer, kImplantFields, implant);
  if (implant.thread) {
    writer.key("thread").begin_object(base::JsonLayout::kCompact);
    write_fields<ImplantThread>(writer, kThreadFields, *implant.thread);
    writer.end_object();
  }
  writer.end_object();
}

}  // namespace

Kit read_kit_fields(base::ObjectReader& reader) {
  const std::size_t errors_before = reader.problems().error_count();
  Kit kit;
  kit.id = read_identifier(reader, "id");
  kit.name = reader.required_string("name", kMaxNameBytes);
  kit.drills = reader.required_array("drills", {1, kMaxItems}, reader_of<Drill>(kDrillFields));
  kit.sleeves = reader.optional_array("sleeves", {0, kMaxItems}, reader_of<Sleeve>(kSleeveFields));
  kit.keys = reader.optional_array("keys", {0, kMaxItems}, reader_of<Key>(kKeyFields));
  kit.implants =
      reader.optional_array("implants", {0, kMaxItems}, reader_of<Implant>(kImplantFields));
  if (reader.problems().error_count() == errors_before) {
    check_ids(reader, "drills", kit.drills);
    check_ids(reader, "sleeves", kit.sleeves);
    check_ids(reader, "keys", kit.keys);
    check_ids(reader, "implants", kit.implants);
    check_keys(reader, kit);
  }
  return kit;
}

void write_kit_fields(base::JsonWriter& writer, const Kit& kit) {
  writer.field("id", kit.id).field("name", kit.name);
  writer.key("drills").begin_array();
  for (const Drill& drill : kit.drills) {
    write_drill(writer, drill);
  }
  writer.end_array();
  write_instruments(writer, "sleeves", kit.sleeves, kSleeveFields, [](const Sleeve&) {});
  write_instruments(writer, "keys", kit.keys, kKeyFields,
                    [&writer](const Key& key) { writer.field("drill", key.drill_id); });
  writer.key("implants").begin_array();
  for (const Implant& implant : kit.implants) {
    write_implant(writer, implant);
  }
  writer.end_array();
}

std::string write_kit(const Kit& kit) {
  base::JsonWriter writer;
  writer.begin_object().field("format", kKitFormat).field("version", kFileVersion);
  write_kit_fields(writer, kit);
  writer.end_object();
  return writer.take();
}

ReadOutcome<Kit> read_kit(std::string_view text, std::string_view file_name) {
  return read_document<Kit>(text, file_name, {kKitFormat, kFileVersion, kMaxKitBytes},
                            [](base::ObjectReader& reader) { return read_kit_fields(reader); });
}

}  // namespace driftbench::lesson
