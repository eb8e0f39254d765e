#include "base/csv.h"
#include "base/json_writer.h"
#include "base/text.h"
#include "record/result_fields.h"
#include "scoring/deviation.h"
#include "tools/commands.h"
#include "tools/files.h"
#include "tools/output.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <optional>

namespace driftbench::tools {
namespace {

using scoring::Deviation;

constexpr std::string_view kHelp =
    R"(driftbench measure: the difference between planned and placed, row by row.

usage: driftbench measure FILE.csv [--json]

The file has the columns id, plan_entry_x, plan_entry_y, plan_entry_z, plan_apex_x ... plan_apex_z,
entry_x ... entry_z, apex_x ... apex_z, all in mm and in one frame in which +x is distal and +y lingual.
Entry is the platform centre (of a hole: its axis through the planned platform plane).

Gives, in mm and degrees: entry_global_mm, entry_lateral_mm (perpendicular to the planned axis),
entry_piercing_mm (where the placed axis pierces the platform plane), depth_mm (entry, + deeper),
apex_global_mm, apex_lateral_mm, apex_depth_mm, angle_deg, and the signed parts entry_md_mm, entry_bl_mm,
apex_md_mm, apex_bl_mm (+ distal, + lingual), tilt_md_deg, tilt_bl_deg (+ apex leans distally, lingually).
What cannot be measured is null (in the table: a dash), with a reason.

example: driftbench measure placed.csv --json
)";

/// Columns of one row: planned entry, planned apex, entry, apex.
constexpr std::array<std::string_view, 12> kColumns{
    "plan_entry_x", "plan_entry_y", "plan_entry_z", "plan_apex_x", "plan_apex_y", "plan_apex_z",
    "entry_x",      "entry_y",      "entry_z",      "apex_x",      "apex_y",      "apex_z"};

/// Coordinates beyond this are mistakes, not positions in a mouth.
constexpr double kFarthest_mm = 1e6;

struct Row {
  std::string id;
  std::optional<Deviation> deviation;
  bool has_directions = false;  ///< md, bl and the tilts are defined
  std::string reason;           ///< why something is missing; empty when nothing is
};

bool is_direction(std::string_view field) {
  return field.find("_md_") != std::string_view::npos ||
         field.find("_bl_") != std::string_view::npos;
}

struct Points {
  math::Vec3 plan_entry;
  math::Vec3 plan_apex;
  math::Vec3 entry;
  math::Vec3 apex;
};

/// Measures a row whose numbers are all there.
void measure_points(const Points& p, Row& row) {
  const math::Vec3 distal(1.0, 0.0, 0.0);
  const math::Vec3 lingual(0.0, 1.0, 0.0);
  base::Result<Deviation> result =
      scoring::deviation(p.plan_entry, p.plan_apex, p.entry, p.apex, distal, lingual);
  if (result) {
    row.deviation = *result;
    row.has_directions = true;
    return;
  }
  row.reason = result.error().message;
  if (p.plan_entry == p.plan_apex) {
    return;
  }
  // Distances and the angle need no distal direction: any frame gives them.
  const math::Vec3 md = math::any_perpendicular(p.plan_apex - p.plan_entry);
  const math::Vec3 bl = math::cross(p.plan_apex - p.plan_entry, md);
  result = scoring::deviation(p.plan_entry, p.plan_apex, p.entry, p.apex, md, bl);
  if (result) {
    row.deviation = *result;
  }
}

Row measure_row(const base::CsvRow& cells, std::size_t id_column,
                const std::array<std::size_t, kColumns.size()>& columns) {
  Row row;
  row.id = cells.cells[id_column];
  std::array<double, kColumns.size()> n{};
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const std::string_view cell = base::trim(cells.cells[columns[i]]);
    const std::optional<double> number = base::parse_number(cell);
    if (!number.has_value() || std::abs(*number) > kFarthest_mm) {
      row.reason = fmt::format("found \"{}\" in {}, expected a number from -{} to {} mm", cell,
                               kColumns[i], kFarthest_mm, kFarthest_mm);
      return row;
    }
    n[i] = *number;
  }
  // Four points of three coordinates, in the order of the columns.
  const auto point = [&n](std::size_t index) {
    constexpr std::size_t kAxes = 3;
    const double* first = &n[index * kAxes];
    return math::Vec3(first[0], first[1], first[2]);
  };
  measure_points({point(0), point(1), point(2), point(3)}, row);
  return row;
}

base::Result<std::vector<Row>> measure_table(const base::CsvTable& table, const std::string& file) {
  const auto missing = [&](std::string_view name) {
    return base::fail(base::ErrorCode::kParse,
                      fmt::format("{}:1: found no column {}, expected it", file, name));
  };
  const std::optional<std::size_t> id_column = table.column("id");
  if (!id_column.has_value()) {
    return missing("id");
  }
  std::array<std::size_t, kColumns.size()> columns{};
  for (std::size_t i = 0; i < kColumns.size(); ++i) {
    const std::optional<std::size_t> column = table.column(kColumns[i]);
    if (!column.has_value()) {
      return missing(kColumns[i]);
    }
    columns[i] = *column;
  }
  std::vector<Row> rows;
  rows.reserve(table.rows.size());
  for (const base::CsvRow& cells : table.rows) {
    rows.push_back(measure_row(cells, *id_column, columns));
    if (!rows.back().reason.empty()) {
      print_message(fmt::format("{}:{}: {}", file, cells.line, rows.back().reason));
    }
  }
  return rows;
}

std::optional<double> value_of(const Row& row, const record::Field<Deviation>& field) {
  if (!row.deviation.has_value() || (is_direction(field.name) && !row.has_directions)) {
    return std::nullopt;
  }
  return (*row.deviation).*field.member;
}

std::string as_json(const std::vector<Row>& rows) {
  base::JsonWriter writer;
  writer.begin_array();
  for (const Row& row : rows) {
    writer.begin_object().field("id", row.id);
    for (const record::Field<Deviation>& field : record::kDeviationFields) {
      writer.field(field.name, value_of(row, field));
    }
    if (!row.reason.empty()) {
      writer.field("reason", row.reason);
    }
    writer.end_object();
  }
  writer.end_array();
  return writer.take();
}

std::string as_table(const std::vector<Row>& rows) {
  constexpr int kDecimals = 3;
  std::vector<std::vector<std::string>> lines{{"id"}};
  for (const record::Field<Deviation>& field : record::kDeviationFields) {
    lines[0].emplace_back(field.name);
  }
  for (const Row& row : rows) {
    std::vector<std::string> line{row.id};
    for (const record::Field<Deviation>& field : record::kDeviationFields) {
      const std::optional<double> value = value_of(row, field);
      line.push_back(value.has_value() ? base::fixed(*value, kDecimals) : "-");
    }
    lines.push_back(std::move(line));
  }
  return table(lines);
}

int run(const Arguments& arguments) {
  if (arguments.plain().size() != 1) {
    return refuse("measure", {base::ErrorCode::kInvalidArgument,
                              fmt::format("found {} files, expected one", arguments.plain().size()),
                              {}});
  }
  const std::string& file = arguments.plain()[0];
  const base::Result<std::string> text = read_file(file);
  if (!text) {
    return refuse("measure", text.error());
  }
  const base::Result<base::CsvTable> table = base::parse_csv(*text, file);
  if (!table) {
    return refuse("measure", table.error());
  }
  const base::Result<std::vector<Row>> rows = measure_table(*table, file);
  if (!rows) {
    return refuse("measure", rows.error());
  }
  print(arguments.has("--json") ? as_json(*rows) : as_table(*rows));
  return kGood;
}

}  // namespace

Command measure_command() {
  return {"measure", "differences between planned and placed positions in a table", kHelp, {}, run};
}

}  // namespace driftbench::tools
