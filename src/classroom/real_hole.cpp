#include "classroom/real_hole.h"

#include "base/csv.h"
#include "base/json_reader.h"
#include "base/json_writer.h"
#include "base/text.h"
#include "classroom/column_mapping.h"
#include "classroom/entry.h"
#include "classroom/photo.h"
#include "classroom/words.h"
#include "math/angle.h"

#include <fmt/format.h>

#include <array>
#include <optional>
#include <vector>

namespace driftbench::classroom {
namespace {

using base::JsonValue;
using base::JsonWriter;
using base::ObjectReader;
using base::Result;

constexpr base::IntRange kPoints{0, 200};
constexpr base::NumberRange kLength{0.01, 1000.0};
constexpr base::NumberRange kSmall{0.0, 100.0};
constexpr std::size_t kMaxText_bytes = 200;
constexpr std::int64_t kMaxPeriod = 1'000'000;
constexpr int kDecimals = 3;

/// Columns behind those of holes.csv.
constexpr std::array<std::string_view, 9> kExtraColumns{
    "rim_diameter_mm", "rim_diameter_u95_mm", "entry_md_u95_mm", "entry_bl_u95_mm", "depth_u95_mm",
    "apex_md_u95_mm",  "apex_bl_u95_mm",      "tilt_md_u95_deg", "tilt_bl_u95_deg"};

Click click_of(const JsonValue& item, const std::string& path, base::ProblemList& problems) {
  const bool is_point = item.is_array() && item.items().size() == 3 &&
                        item.items()[0].is_number() && item.items()[1].is_number() &&
                        item.items()[2].is_number() && item.items()[2].as_double() > 0.0;
  if (!is_point) {
    problems.add({item.line(), item.column(), path, item.description(), "[x, y, zoom]"});
    return {};
  }
  return {{item.items()[0].as_double(), item.items()[1].as_double()},
          click_sd_px(item.items()[2].as_double())};
}

std::vector<Click> clicks_of(ObjectReader& reader, std::string_view key) {
  return reader.optional_array(key, kPoints, click_of);
}

TopPhoto top_of(ObjectReader& reader) {
  TopPhoto top;
  top.is_straightened = reader.required_bool("is_straightened");
  top.edge = clicks_of(reader, "edge");
  top.corners = clicks_of(reader, "corners");
  top.width_mm = reader.required_double("width_mm", kLength, "mm");
  top.height_mm = reader.required_double("height_mm", kLength, "mm");
  top.size_sd_mm = reader.required_double("size_sd_mm", kSmall, "mm");
  top.boundary = clicks_of(reader, "boundary");
  top.soft = clicks_of(reader, "soft");
  top.plan = clicks_of(reader, "plan");
  top.rim = clicks_of(reader, "rim");
  top.is_ellipse = reader.required_bool("is_ellipse");
  reader.finish();
  return top;
}

LeanPhoto lean_of(ObjectReader& reader) {
  LeanPhoto lean;
  lean.pin = clicks_of(reader, "pin");
  lean.edge = clicks_of(reader, "upright");
  lean.positive_is_right = reader.required_bool("positive_is_right");
  lean.play_mm = reader.required_double("play_mm", kSmall, "mm");
  lean.engaged_mm = reader.required_double("engaged_mm", kLength, "mm");
  reader.finish();
  return lean;
}

Probe probe_of(ObjectReader& reader, double planned_mm) {
  Probe probe;
  probe.readings_mm = reader.required_doubles("readings_mm", {0, 20}, kSmall, "mm");
  probe.division_mm = reader.required_double("division_mm", kSmall, "mm");
  probe.tip_mm = reader.required_double("tip_mm", kSmall, "mm");
  probe.planned_mm = planned_mm;
  reader.finish();
  return probe;
}

/// A result, a reason why there is none, or nothing because nobody tried.
template <class T>
using Tried = std::optional<Result<T>>;

template <class T>
std::optional<T> value_of(const Tried<T>& tried) {
  return tried.has_value() && tried->has_value() ? std::optional<T>(**tried) : std::nullopt;
}

struct Measured {
  Tried<TopMeasure> top;
  Tried<Uncertain> tilt_md_deg;
  Tried<Uncertain> tilt_bl_deg;
  Tried<Uncertain> depth_mm;
  double planned_mm = 10.0;

  [[nodiscard]] std::optional<Uncertain> of_top(Uncertain TopMeasure::*member) const {
    const std::optional<TopMeasure> found = value_of(top);
    return found.has_value() ? std::optional((*found).*member) : std::nullopt;
  }

  [[nodiscard]] std::optional<Uncertain> apex_md() const {
    return apex_mm(of_top(&TopMeasure::entry_md_mm), value_of(tilt_md_deg), value_of(depth_mm),
                   planned_mm);
  }

  [[nodiscard]] std::optional<Uncertain> apex_bl() const {
    return apex_mm(of_top(&TopMeasure::entry_bl_mm), value_of(tilt_bl_deg), value_of(depth_mm),
                   planned_mm);
  }

  [[nodiscard]] std::optional<double> angle() const {
    return angle_deg(value_of(tilt_md_deg), value_of(tilt_bl_deg));
  }
};

Measured measure(ObjectReader& reader) {
  Measured m;
  m.planned_mm = reader.required_double("planned_depth_mm", {1.0, 30.0}, "mm");
  if (auto top = reader.optional_object("top")) {
    m.top = measure_top(top_of(*top));
  }
  if (auto front = reader.optional_object("front")) {
    m.tilt_md_deg = measure_lean_deg(lean_of(*front));
  }
  if (auto side = reader.optional_object("side")) {
    m.tilt_bl_deg = measure_lean_deg(lean_of(*side));
  }
  if (auto probe = reader.optional_object("probe")) {
    const double lean_deg = m.angle().value_or(0.0);
    m.depth_mm = measure_depth_mm(probe_of(*probe, m.planned_mm),
                                  math::Radians(math::Degrees(lean_deg)).value);
  }
  return m;
}

void write_uncertain(JsonWriter& out, std::string_view name, const std::optional<Uncertain>& one) {
  if (!one.has_value()) {
    return;
  }
  out.key(name).begin_object().field("value", one->value).field("u95", one->u95).end_object();
}

void write_point(JsonWriter& out, const math::Vec2& point) {
  out.begin_array().value(point.x).value(point.y).end_array();
}

void write_top(JsonWriter& out, const Tried<TopMeasure>& tried) {
  if (!tried.has_value()) {
    return;
  }
  out.key("top").begin_object();
  if (!*tried) {
    out.field("reason", tried->error().message).end_object();
    return;
  }
  const TopMeasure& top = **tried;
  write_uncertain(out, "entry_md_mm", top.entry_md_mm);
  write_uncertain(out, "entry_bl_mm", top.entry_bl_mm);
  write_uncertain(out, "rim_diameter_mm", top.rim_diameter_mm);
  out.field("long_diameter_mm", top.long_diameter_mm);
  out.field("short_diameter_mm", top.short_diameter_mm);
  out.field("residual_mm", top.residual_mm).field("mm_per_px", top.mm_per_px);
  out.key("centre_px");
  write_point(out, top.centre_px);
  out.key("plan_px");
  write_point(out, top.plan_px);
  out.key("md_px");
  write_point(out, top.md_px);
  out.key("bl_px");
  write_point(out, top.bl_px);
  out.key("outline_px").begin_array();
  for (const math::Vec2& point : top.outline_px) {
    write_point(out, point);
  }
  out.end_array().end_object();
}

void write_single(JsonWriter& out, std::string_view key, std::string_view name,
                  const Tried<Uncertain>& tried) {
  if (!tried.has_value()) {
    return;
  }
  out.key(key).begin_object();
  if (*tried) {
    write_uncertain(out, name, **tried);
  } else {
    out.field("reason", tried->error().message);
  }
  out.end_object();
}

/// Words of the row, as the person gave them.
struct RowWords {
  std::string who, approach, cohort, site, specimen, boundary_deg;
  std::optional<std::int64_t> period;
};

RowWords words_of(ObjectReader& reader) {
  const auto text = [&reader](std::string_view key) {
    const std::string found = reader.optional_string(key, kMaxText_bytes).value_or("");
    return std::string(base::trim(found));
  };
  RowWords words;
  words.who = text("operator");
  words.approach = text("approach");
  words.cohort = text("cohort");
  words.site = text("site");
  words.specimen = text("specimen");
  words.boundary_deg = text("boundary_deg");
  words.period = reader.optional_int("period", {1, kMaxPeriod});
  return words;
}

std::vector<std::string> problems_of(const RowWords& words, const Measured& m) {
  std::vector<std::string> problems;
  if (words.who.empty()) {
    problems.emplace_back("found no code name, expected that of the learner");
  }
  const auto approach = approach_of_word(words.approach);
  if (!approach.has_value()) {
    problems.emplace_back("found no technique, expected free-hand, pilot or sleeve");
  }
  if (!words.boundary_deg.empty() && !base::parse_number(words.boundary_deg).has_value()) {
    problems.emplace_back(fmt::format(
        "found \"{}\" as the direction of the line between the halves, expected degrees or nothing",
        words.boundary_deg));
  }
  if (!value_of(m.top).has_value() && !value_of(m.tilt_md_deg).has_value() &&
      !value_of(m.tilt_bl_deg).has_value() && !value_of(m.depth_mm).has_value()) {
    problems.emplace_back("found nothing measured yet, expected one measure at least");
  }
  return problems;
}

class RowWriter {
 public:
  void word(std::string_view text) { cells_.push_back(safe_cell(text)); }

  void value(const std::optional<Uncertain>& one) {
    cells_.push_back(one.has_value() ? base::fixed(one->value, kDecimals) : std::string());
  }

  void u95(const std::optional<Uncertain>& one) {
    cells_.push_back(one.has_value() ? base::fixed(one->u95, kDecimals) : std::string());
  }

  void number(const std::optional<double>& one) {
    cells_.push_back(one.has_value() ? base::fixed(*one, kDecimals) : std::string());
  }

  [[nodiscard]] std::string line() const { return base::csv_line(cells_); }

 private:
  std::vector<std::string> cells_;
};

std::string row_of(const RowWords& words, const Measured& m) {
  RowWriter row;
  const auto md = m.of_top(&TopMeasure::entry_md_mm);
  const auto bl = m.of_top(&TopMeasure::entry_bl_mm);
  const auto rim = m.of_top(&TopMeasure::rim_diameter_mm);
  row.word("");
  row.word(words.who);
  row.word(words.cohort);
  row.word(stats::kApproachNames[static_cast<std::size_t>(*approach_of_word(words.approach))]);
  row.word("");
  row.word("hole");
  row.word(words.site);
  row.word(words.specimen);
  row.word(words.boundary_deg);
  row.word(words.period.has_value() ? std::to_string(*words.period) : std::string());
  for (const auto& one : {md, bl, value_of(m.depth_mm), m.apex_md(), m.apex_bl(),
                          value_of(m.tilt_md_deg), value_of(m.tilt_bl_deg)}) {
    row.value(one);
  }
  row.number(m.angle());
  row.word("");  // hole_diameter_mm: the rim is another measure
  row.word("");  // time_s
  row.word(kSourceNames[static_cast<std::size_t>(Source::kBench)]);
  row.value(rim);
  for (const auto& one : {rim, md, bl, value_of(m.depth_mm), m.apex_md(), m.apex_bl(),
                          value_of(m.tilt_md_deg), value_of(m.tilt_bl_deg)}) {
    row.u95(one);
  }
  return row.line();
}

std::string header_line() {
  std::vector<std::string> names;
  for (const Target& target : kTargets) {
    names.emplace_back(target.name);
  }
  names.insert(names.end(), kExtraColumns.begin(), kExtraColumns.end());
  return base::csv_line(names);
}

}  // namespace

std::string measure_real_hole(std::string_view request) {
  JsonWriter out(base::JsonLayout::kCompact);
  out.begin_object();
  const auto document = base::read_json(request);
  base::ProblemList problems;
  if (document) {
    ObjectReader reader(*document, "", problems);
    const RowWords words = words_of(reader);
    const Measured m = measure(reader);
    reader.finish();
    if (!problems.has_errors()) {
      write_top(out, m.top);
      write_single(out, "front", "tilt_md_deg", m.tilt_md_deg);
      write_single(out, "side", "tilt_bl_deg", m.tilt_bl_deg);
      write_single(out, "probe", "depth_mm", m.depth_mm);
      write_uncertain(out, "apex_md_mm", m.apex_md());
      write_uncertain(out, "apex_bl_mm", m.apex_bl());
      const std::vector<std::string> lacking = problems_of(words, m);
      out.field("header", header_line());
      if (lacking.empty()) {
        out.field("row", row_of(words, m));
      }
      out.key("problems").begin_array();
      for (const std::string& sentence : lacking) {
        out.value(sentence);
      }
      out.end_array();
    }
  }
  if (!document || problems.has_errors()) {
    out.key("problems").begin_array();
    if (!document) {
      out.value(document.error().found);
    }
    for (const base::Problem& problem : problems.items()) {
      out.value(
          fmt::format("{}: found {}, expected {}", problem.path, problem.found, problem.expected));
    }
    out.end_array();
  }
  return out.end_object().take();
}

}  // namespace driftbench::classroom
