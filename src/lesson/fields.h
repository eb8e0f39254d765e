// Tables of number fields: one row gives a struct member its name, unit and range in files.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"

#include <string_view>

namespace driftbench::lesson {

/// One number of a struct as it stands in a file.
template <class T>
struct NumberField {
  std::string_view name;
  double T::*member;
  base::NumberRange range;
  std::string_view unit;
};

/// Whether a field that is not in the file keeps the value that the struct already has.
enum class Missing { kIsError, kKeepsDefault };

/// Reads every field of the table into the struct.
template <class T, class Table>
void read_fields(base::ObjectReader& reader, const Table& table, Missing missing, T& target) {
  for (const NumberField<T>& field : table) {
    target.*field.member =
        missing == Missing::kIsError
            ? reader.required_double(field.name, field.range, field.unit)
            : reader.optional_double(field.name, field.range, field.unit, target.*field.member);
  }
}

/// Writes every field of the table, in the order of the table.
template <class T, class Table>
void write_fields(base::JsonWriter& writer, const Table& table, const T& source) {
  for (const NumberField<T>& field : table) {
    writer.field(field.name, source.*field.member);
  }
}

}  // namespace driftbench::lesson
