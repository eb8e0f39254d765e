// Reads the fields of a JSON object one by one and collects every problem on the way.
#pragma once

#include "base/json.h"
#include "base/problem.h"

#include <cstddef>
#include <cstdint>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace driftbench::base {

/// Allowed numbers, both ends included.
struct NumberRange {
  double min = 0.0;
  double max = 0.0;
};

/// Allowed integers or counts, both ends included.
struct IntRange {
  std::int64_t min = 0;
  std::int64_t max = 0;
};

/// One word of a fixed vocabulary.
template <class E>
struct EnumName {
  std::string_view name;
  E value;
};

/// Reader of one object. Every getter marks its field as known; a field that is missing, of another
/// type or outside its range adds an error at its place and gives a harmless value (the lower end
/// of the range, "", false, the first word), so reading goes on and all problems come at once. The
/// caller looks at `problems.has_errors()` at the end. Call finish() last.
///
/// The value and the list must outlive the reader.
class ObjectReader {
 public:
  ObjectReader(const JsonValue& value, std::string path, ProblemList& problems);

  [[nodiscard]] double required_double(std::string_view key, NumberRange range,
                                       std::string_view unit);
  [[nodiscard]] std::optional<double> optional_double(std::string_view key, NumberRange range,
                                                      std::string_view unit);
  [[nodiscard]] double optional_double(std::string_view key, NumberRange range,
                                       std::string_view unit, double fallback);
  /// The field must be there but may be null (a missing measurement with a reason beside it).
  [[nodiscard]] std::optional<double> nullable_double(std::string_view key, NumberRange range,
                                                      std::string_view unit);

  [[nodiscard]] std::int64_t required_int(std::string_view key, IntRange range,
                                          std::string_view unit = {});
  [[nodiscard]] std::optional<std::int64_t> optional_int(std::string_view key, IntRange range,
                                                         std::string_view unit = {});
  [[nodiscard]] std::int64_t optional_int(std::string_view key, IntRange range,
                                          std::string_view unit, std::int64_t fallback);

  [[nodiscard]] bool required_bool(std::string_view key);
  [[nodiscard]] bool optional_bool(std::string_view key, bool fallback);

  /// Text of 1 ... max_length bytes.
  [[nodiscard]] std::string required_string(std::string_view key, std::size_t max_length);
  /// Text of 0 ... max_length bytes.
  [[nodiscard]] std::optional<std::string> optional_string(std::string_view key,
                                                           std::size_t max_length);

  /// Table: any array of EnumName<E> that is not empty.
  template <class Table>
  [[nodiscard]] auto required_enum(std::string_view key, const Table& table) {
    return read_enum(key, required(key), table).value_or(std::begin(table)->value);
  }

  template <class Table>
  [[nodiscard]] auto optional_enum(std::string_view key, const Table& table) {
    return read_enum(key, find(key), table);
  }

  /// Array of numbers that all lie in the range.
  [[nodiscard]] std::vector<double> required_doubles(std::string_view key, IntRange count,
                                                     NumberRange range, std::string_view unit);
  [[nodiscard]] std::vector<double> optional_doubles(std::string_view key, IntRange count,
                                                     NumberRange range, std::string_view unit);
  [[nodiscard]] std::vector<std::string> required_strings(std::string_view key, IntRange count,
                                                          std::size_t max_length);
  [[nodiscard]] std::vector<std::string> optional_strings(std::string_view key, IntRange count,
                                                          std::size_t max_length);

  /// Array read item by item with `T read(const JsonValue& item, const std::string& item_path,
  /// ProblemList& problems)`. The vector is empty when the field is missing or wrong.
  template <class Read>
  [[nodiscard]] auto required_array(std::string_view key, IntRange count, Read read) {
    return read_items(checked_array(key, required(key), count), path_of(key), read);
  }

  template <class Read>
  [[nodiscard]] auto optional_array(std::string_view key, IntRange count, Read read) {
    return read_items(checked_array(key, find(key), count), path_of(key), read);
  }

  /// Reader of a nested object; finish it too. When the field is missing or no object, the error is
  /// added here and the reader given stays silent.
  [[nodiscard]] ObjectReader required_object(std::string_view key);
  [[nodiscard]] std::optional<ObjectReader> optional_object(std::string_view key);

  /// The fixed word in field "format"; anything else is an error.
  void require_format(std::string_view name);
  /// The integer in field "version"; any other than the supported one is an error.
  std::int64_t require_version(std::int64_t supported);

  /// The raw field, marked as known, or nullptr.
  [[nodiscard]] const JsonValue* find(std::string_view key);
  /// The raw field, or nullptr after adding an error.
  [[nodiscard]] const JsonValue* required(std::string_view key);

  /// Adds a finding at the place of a field (of the object, when the field is not there).
  void add_error(std::string_view key, std::string found, std::string expected);
  void add_warning(std::string_view key, std::string found, std::string expected);

  [[nodiscard]] const std::string& path() const { return path_; }

  [[nodiscard]] std::string path_of(std::string_view key) const;

  [[nodiscard]] ProblemList& problems() { return *problems_; }

  /// Adds a warning for every field that no getter asked for.
  void finish();

 private:
  ObjectReader(const JsonValue* value, std::string path, ProblemList& problems);

  void add(const JsonValue& place, std::string path, std::string found, std::string expected);
  void add_at(std::string_view key, Problem::Severity severity, std::string found,
              std::string expected);
  std::optional<double> read_double(const JsonValue& value, const std::string& path,
                                    NumberRange range, std::string_view unit);
  std::optional<std::int64_t> read_int(const JsonValue& value, const std::string& path,
                                       IntRange range, std::string_view unit);
  std::optional<std::string> read_string(const JsonValue& value, const std::string& path,
                                         IntRange length);
  const JsonValue* checked_array(std::string_view key, const JsonValue* value, IntRange count);
  std::vector<double> read_doubles(const JsonValue* array, const std::string& path,
                                   NumberRange range, std::string_view unit);
  std::vector<std::string> read_strings(const JsonValue* array, const std::string& path,
                                        std::size_t max_length);
  void add_unknown_word(const JsonValue& value, std::string_view key,
                        const std::vector<std::string>& words);

  template <class Table>
  auto read_enum(std::string_view key, const JsonValue* value, const Table& table) {
    using E = std::remove_cv_t<std::remove_reference_t<decltype(std::begin(table)->value)>>;
    std::vector<std::string> words;
    for (const auto& entry : table) {
      if (value != nullptr && value->is_string() && value->as_string() == entry.name) {
        return std::optional<E>(entry.value);
      }
      words.emplace_back(entry.name);
    }
    if (value != nullptr) {
      add_unknown_word(*value, key, words);
    }
    return std::optional<E>();
  }

  template <class Read>
  auto read_items(const JsonValue* array, const std::string& path, Read& read) {
    using T = std::decay_t<decltype(read(*array, path, *problems_))>;
    std::vector<T> result;
    if (array == nullptr) {
      return result;
    }
    for (std::size_t i = 0; i < array->items().size(); ++i) {
      const std::string item_path = path + "[" + std::to_string(i) + "]";
      result.push_back(read(array->items()[i], item_path, *problems_));
    }
    return result;
  }

  const JsonValue* value_ = nullptr;  // nullptr: the object is missing, getters stay silent
  std::string path_;
  ProblemList* problems_ = nullptr;
  std::vector<std::string> known_;
};

/// Text of a table entry, for writing; the first word when the value is not in the table.
template <class Table, class E>
[[nodiscard]] std::string_view name_of(const Table& table, E value) {
  for (const auto& entry : table) {
    if (entry.value == value) {
      return entry.name;
    }
  }
  return std::begin(table)->name;
}

}  // namespace driftbench::base
