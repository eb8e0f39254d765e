// A piece of jaw prepared for one site as JSON: the common part of specimen files and of records.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "specimen/jaw_site.h"

#include <string_view>

namespace driftbench::lesson {

/// Reads anatomy, access, plan and margins from the open object.
void read_site_fields(base::ObjectReader& reader, specimen::JawSite& site);

/// Reports what lies between fields: impossible anatomy, an implant longer than the bone, a margin
/// to what is not there. Some milliseconds.
void check_site(base::ObjectReader& reader, const specimen::JawSite& site);

/// Writes the fields that read_site_fields() reads.
void write_site_fields(base::JsonWriter& writer, const specimen::JawSite& site);

/// The same with id and hash as an object of its own, as in records.
[[nodiscard]] specimen::JawSite read_jaw_site(base::ObjectReader& parent, std::string_view key);
void write_jaw_site(base::JsonWriter& writer, const specimen::JawSite& site);

}  // namespace driftbench::lesson
