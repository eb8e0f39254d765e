#include "base/json_writer.h"
#include "classroom/mapped_rows.h"
#include "tools/commands.h"
#include "tools/files.h"
#include "tools/output.h"

#include <fmt/format.h>

namespace driftbench::tools {
namespace {

using base::Result;
using classroom::ForeignTable;
using classroom::MappedRows;
using classroom::Mapping;

constexpr std::string_view kHelp =
    R"(driftbench map: a table of real holes with other column names, units and signs, as a holes.csv.

usage: driftbench map FILE.csv [--mapping FILE] [--save-mapping FILE] [--out FILE.csv] [--json]

Columns may be separated by commas, semicolons or tabs; numbers may have a decimal comma. Without --mapping the columns
are guessed from their names and the units in them. Lengths become mm, angles degrees, times s; md + distal (in a block:
toward the soft half), bl + lingual, depth + deeper, tilt + when the deep end leans that way.

  --mapping       CSV with the columns column, as, unit (mm, cm, inch, um, deg, rad, s, min), sign (- where plus means
                  the other way) and words (of approach: "fh=freehand|g=sleeve"); a row without a column gives every
                  hole the word in words
  --save-mapping  writes the mapping that was used, to be looked at, changed and used again
  --out           writes the good rows; every row counts as measured on a real block unless it says simulated

Exit code 0: every row taken; 1: some rows were left out, with their lines; 2: bad usage, or no row that could be taken.

example: driftbench map block.csv --save-mapping block.mapping.csv --out holes.csv
)";

std::string meaning_of(const classroom::Choice& choice) {
  std::string text = choice.column.empty() ? fmt::format("every row \"{}\"", choice.constant)
                                           : fmt::format("\"{}\"", choice.column);
  if (choice.unit != nullptr) {
    text += fmt::format(" in {}", choice.unit->name);
  }
  return choice.is_reversed ? text + ", sign reversed" : text;
}

void print_outcome(const ForeignTable& table, const Mapping& mapping, const MappedRows& rows,
                   bool is_json) {
  if (!is_json) {
    for (const classroom::Choice& choice : mapping) {
      print(fmt::format("{}: {}\n", choice.target->name, meaning_of(choice)));
    }
    print(fmt::format("{} rows taken, {} left out\n", rows.good, rows.problems.count));
    return;
  }
  base::JsonWriter out;
  out.begin_object().field("file", table.file).key("mapping").begin_array();
  for (const classroom::Choice& choice : mapping) {
    out.begin_object(base::JsonLayout::kCompact);
    out.field("column", choice.column).field("as", choice.target->name);
    out.field("unit", choice.unit == nullptr ? std::string_view() : choice.unit->name);
    out.field("sign", choice.is_reversed ? "-" : "+").end_object();
  }
  out.end_array().field("good", rows.good).field("bad", rows.problems.count);
  out.key("problems").begin_array();
  for (const std::string& sentence : rows.problems.items) {
    out.value(sentence);
  }
  print(out.end_array().end_object().take());
}

Result<Mapping> mapping_for(const ForeignTable& table, const Arguments& arguments) {
  const std::optional<std::string> file = arguments.text("--mapping");
  if (!file.has_value()) {
    return classroom::guess_mapping(table);
  }
  const Result<std::string> text = read_file(*file);
  if (!text) {
    return tl::unexpected<base::Error>(text.error());
  }
  return classroom::read_mapping(*text, *file);
}

int run(const Arguments& arguments) {
  if (arguments.plain().size() != 1) {
    return refuse("map", {base::ErrorCode::kInvalidArgument,
                          fmt::format("found {} files, expected one", arguments.plain().size()),
                          {}});
  }
  const std::string& file = arguments.plain()[0];
  const Result<std::string> text = read_file(file, classroom::kForeignLimits.max_bytes);
  if (!text) {
    return refuse("map", text.error());
  }
  const Result<ForeignTable> table = classroom::read_foreign_table(*text, file);
  if (!table) {
    return refuse("map", table.error());
  }
  const Result<Mapping> mapping = mapping_for(*table, arguments);
  if (!mapping) {
    return refuse("map", mapping.error());
  }
  if (const auto kept = arguments.text("--save-mapping"); kept.has_value()) {
    if (const Result<void> written = write_file(*kept, classroom::write_mapping(*mapping));
        !written) {
      return refuse("map", written.error());
    }
  }
  const MappedRows rows = classroom::map_rows(*table, *mapping);
  for (const std::string& sentence : rows.problems.items) {
    print_message(sentence);
  }
  for (const std::string& sentence : rows.missing) {
    print_message(fmt::format("{}: {}", file, sentence));
  }
  if (rows.good == 0) {
    return refuse("map", {base::ErrorCode::kInvalidArgument,
                          fmt::format("{}: found no row that can be taken, expected one at least; "
                                      "--save-mapping writes a mapping that can be changed",
                                      file),
                          {}});
  }
  if (const auto out = arguments.text("--out"); out.has_value()) {
    if (const Result<void> written = write_file(*out, rows.holes_csv); !written) {
      return refuse("map", written.error());
    }
  }
  print_outcome(*table, *mapping, rows, arguments.has("--json"));
  return rows.problems.count == 0 ? kGood : kFoundWrong;
}

}  // namespace

Command map_command() {
  return {"map",
          "a table of real holes with other columns and units, as a holes.csv",
          kHelp,
          {{"--mapping"}, {"--save-mapping"}, {"--out"}},
          run};
}

}  // namespace driftbench::tools
