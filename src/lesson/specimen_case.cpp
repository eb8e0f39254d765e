#include "lesson/specimen_case.h"

#include "lesson/identifier.h"
#include "lesson/jaw_site_json.h"
#include "lesson/local_text.h"
#include "lesson/read_document.h"

namespace driftbench::lesson {
namespace {

SpecimenCase read_case_fields(base::ObjectReader& reader) {
  SpecimenCase specimen;
  specimen.id = read_identifier(reader, "id");
  specimen.title = read_local_text(reader, "title");
  specimen.story = read_local_text(reader, "story");
  read_site_fields(reader, specimen);
  if (!reader.problems().has_errors()) {
    check_site(reader, specimen);
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
  write_site_fields(writer, specimen);
  writer.end_object();
  return writer.take();
}

}  // namespace driftbench::lesson
