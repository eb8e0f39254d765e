// The program behind the forms for real blocks: foreign tables into ours, and measures of
// photographs. Core only, no window; the page loads it when the first such form opens.
#include "base/json_writer.h"
#include "classroom/column_mapping.h"
#include "classroom/foreign_table.h"
#include "classroom/mapped_rows.h"
#include "classroom/real_hole.h"

#include <emscripten.h>

#include <algorithm>
#include <string>
#include <string_view>

namespace {

using namespace driftbench;  // NOLINT: this file only forwards

classroom::ForeignTable g_table;
classroom::MappedRows g_rows;
std::string g_answer;

std::string_view dimension_name(classroom::Dimension dimension) {
  switch (dimension) {
    case classroom::Dimension::kLength:
      return "length";
    case classroom::Dimension::kAngle:
      return "angle";
    case classroom::Dimension::kTime:
      return "time";
    case classroom::Dimension::kWhole:
      return "whole";
    case classroom::Dimension::kWord:
      break;
  }
  return "word";
}

void write_vocabulary(base::JsonWriter& out) {
  out.key("targets").begin_array();
  for (const classroom::Target& target : classroom::kTargets) {
    out.begin_object().field("name", target.name);
    out.field("dimension", dimension_name(target.dimension)).field("is_signed", target.is_signed);
    out.end_object();
  }
  out.end_array().key("units").begin_array();
  for (const classroom::Unit& unit : classroom::kUnits) {
    out.begin_object().field("name", unit.name);
    out.field("dimension", dimension_name(unit.dimension)).end_object();
  }
  out.end_array();
}

void write_table(base::JsonWriter& out) {
  out.field("separator", std::string(1, g_table.separator));
  out.field("is_latin1", g_table.is_latin1).field("rows", g_table.rows.size());
  out.key("header").begin_array();
  for (const std::string& name : g_table.header) {
    out.value(name);
  }
  out.end_array().key("preview").begin_array();
  for (std::size_t i = 0; i < std::min(g_table.rows.size(), classroom::kPreview_rows); ++i) {
    out.begin_object().field("line", g_table.rows[i].line).key("cells").begin_array();
    for (const std::string& cell : g_table.rows[i].cells) {
      out.value(cell);
    }
    out.end_array().end_object();
  }
  out.end_array();
}

const char* answer(base::JsonWriter& out) {
  g_answer = out.end_object().take();
  return g_answer.c_str();
}

}  // namespace

extern "C" {

const char* table_open(const char* name, const char* bytes, int size);
const char* table_map(const char* mapping);
const char* table_rows();
const char* hole_measure(const char* request);

/// The table with a first mapping, or {"error": sentence}. Texts are valid until the next call.
EMSCRIPTEN_KEEPALIVE const char* table_open(const char* name, const char* bytes, int size) {
  base::JsonWriter out(base::JsonLayout::kCompact);
  out.begin_object();
  auto table = classroom::read_foreign_table({bytes, static_cast<std::size_t>(size)}, name);
  if (!table) {
    out.field("error", table.error().message);
    return answer(out);
  }
  g_table = std::move(*table);
  write_table(out);
  write_vocabulary(out);
  out.field("mapping", classroom::write_mapping(classroom::guess_mapping(g_table)));
  return answer(out);
}

/// What a mapping (as CSV) makes of the open table.
EMSCRIPTEN_KEEPALIVE const char* table_map(const char* mapping) {
  base::JsonWriter out(base::JsonLayout::kCompact);
  out.begin_object();
  const auto read = classroom::read_mapping(mapping, "mapping");
  if (!read) {
    out.field("error", read.error().message);
    return answer(out);
  }
  g_rows = classroom::map_rows(g_table, *read);
  out.field("good", g_rows.good).field("bad", g_rows.problems.count);
  for (const auto& [name, sentences] :
       {std::pair("missing", &g_rows.missing), std::pair("problems", &g_rows.problems.items),
        std::pair("unknown_words", &g_rows.unknown_words)}) {
    out.key(name).begin_array();
    for (const std::string& sentence : *sentences) {
      out.value(sentence);
    }
    out.end_array();
  }
  return answer(out);
}

/// The good rows as holes.csv.
EMSCRIPTEN_KEEPALIVE const char* table_rows() {
  return g_rows.holes_csv.c_str();
}

/// classroom/real_hole.h
EMSCRIPTEN_KEEPALIVE const char* hole_measure(const char* request) {
  g_answer = classroom::measure_real_hole(request);
  return g_answer.c_str();
}
}

int main() {
  return 0;
}
