// Field access with collected problems.
#include "base/json_reader.h"

#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace driftbench::base {
namespace {

// Integers above 2^53 cannot be told apart when written as numbers with a fraction.
constexpr double kLargestExactInteger = 9007199254740992.0;

std::string with_unit(std::string text, std::string_view unit) {
  return unit.empty() ? text : fmt::format("{} {}", text, unit);
}

std::string range_words(NumberRange range, std::string_view unit) {
  return with_unit(fmt::format("{} to {}", number(range.min), number(range.max)), unit);
}

std::string range_words(IntRange range, std::string_view unit) {
  return with_unit(fmt::format("{} to {}", range.min, range.max), unit);
}

// The number as the file has it, or any other value by its description.
std::string value_words(const JsonValue& value, std::string_view unit) {
  if (value.type() == JsonType::kInteger) {
    return with_unit(fmt::format("{}", value.as_int64()), unit);
  }
  if (value.type() == JsonType::kNumber) {
    return with_unit(number(value.as_double()), unit);
  }
  return value.description();
}

}  // namespace

ObjectReader::ObjectReader(const JsonValue& value, std::string path, ProblemList& problems)
    : ObjectReader(&value, std::move(path), problems) {
  if (!value.is_object()) {
    add(value, path_, value.description(), "an object");
    value_ = nullptr;
  }
}

ObjectReader::ObjectReader(const JsonValue* value, std::string path, ProblemList& problems)
    : value_(value), path_(std::move(path)), problems_(&problems) {}

double ObjectReader::required_double(std::string_view key, NumberRange range,
                                     std::string_view unit) {
  const JsonValue* value = required(key);
  if (value == nullptr) {
    return range.min;
  }
  return read_double(*value, path_of(key), range, unit).value_or(range.min);
}

std::optional<double> ObjectReader::optional_double(std::string_view key, NumberRange range,
                                                    std::string_view unit) {
  const JsonValue* value = find(key);
  if (value == nullptr) {
    return std::nullopt;
  }
  return read_double(*value, path_of(key), range, unit);
}

double ObjectReader::optional_double(std::string_view key, NumberRange range, std::string_view unit,
                                     double fallback) {
  return optional_double(key, range, unit).value_or(fallback);
}

std::optional<double> ObjectReader::nullable_double(std::string_view key, NumberRange range,
                                                    std::string_view unit) {
  const JsonValue* value = required(key);
  if (value == nullptr || value->is_null()) {
    return std::nullopt;
  }
  return read_double(*value, path_of(key), range, unit);
}

std::int64_t ObjectReader::required_int(std::string_view key, IntRange range,
                                        std::string_view unit) {
  const JsonValue* value = required(key);
  if (value == nullptr) {
    return range.min;
  }
  return read_int(*value, path_of(key), range, unit).value_or(range.min);
}

std::optional<std::int64_t> ObjectReader::optional_int(std::string_view key, IntRange range,
                                                       std::string_view unit) {
  const JsonValue* value = find(key);
  if (value == nullptr) {
    return std::nullopt;
  }
  return read_int(*value, path_of(key), range, unit);
}

std::int64_t ObjectReader::optional_int(std::string_view key, IntRange range, std::string_view unit,
                                        std::int64_t fallback) {
  return optional_int(key, range, unit).value_or(fallback);
}

bool ObjectReader::required_bool(std::string_view key) {
  const JsonValue* value = required(key);
  if (value == nullptr) {
    return false;
  }
  if (value->type() != JsonType::kBool) {
    add(*value, path_of(key), value->description(), "true or false");
    return false;
  }
  return value->as_bool();
}

bool ObjectReader::optional_bool(std::string_view key, bool fallback) {
  return find(key) == nullptr ? fallback : required_bool(key);
}

std::string ObjectReader::required_string(std::string_view key, std::size_t max_length) {
  const JsonValue* value = required(key);
  if (value == nullptr) {
    return {};
  }
  const IntRange length{1, static_cast<std::int64_t>(max_length)};
  return read_string(*value, path_of(key), length).value_or("");
}

std::optional<std::string> ObjectReader::optional_string(std::string_view key,
                                                         std::size_t max_length) {
  const JsonValue* value = find(key);
  if (value == nullptr) {
    return std::nullopt;
  }
  return read_string(*value, path_of(key), {0, static_cast<std::int64_t>(max_length)});
}

std::vector<double> ObjectReader::required_doubles(std::string_view key, IntRange count,
                                                   NumberRange range, std::string_view unit) {
  return read_doubles(checked_array(key, required(key), count), path_of(key), range, unit);
}

std::vector<double> ObjectReader::optional_doubles(std::string_view key, IntRange count,
                                                   NumberRange range, std::string_view unit) {
  return read_doubles(checked_array(key, find(key), count), path_of(key), range, unit);
}

std::vector<std::string> ObjectReader::required_strings(std::string_view key, IntRange count,
                                                        std::size_t max_length) {
  return read_strings(checked_array(key, required(key), count), path_of(key), max_length);
}

std::vector<std::string> ObjectReader::optional_strings(std::string_view key, IntRange count,
                                                        std::size_t max_length) {
  return read_strings(checked_array(key, find(key), count), path_of(key), max_length);
}

ObjectReader ObjectReader::required_object(std::string_view key) {
  const JsonValue* value = required(key);
  if (value == nullptr) {
    return {value, path_of(key), *problems_};
  }
  return {*value, path_of(key), *problems_};
}

std::optional<ObjectReader> ObjectReader::optional_object(std::string_view key) {
  const JsonValue* value = find(key);
  if (value == nullptr) {
    return std::nullopt;
  }
  return ObjectReader(*value, path_of(key), *problems_);
}

void ObjectReader::require_format(std::string_view name) {
  const JsonValue* value = required("format");
  if (value != nullptr && !(value->is_string() && value->as_string() == name)) {
    add(*value, path_of("format"), value->description(), fmt::format("the text \"{}\"", name));
  }
}

std::int64_t ObjectReader::require_version(std::int64_t supported) {
  const JsonValue* value = required("version");
  if (value == nullptr) {
    return supported;
  }
  if (value->type() != JsonType::kInteger || value->as_int64() != supported) {
    add(*value, path_of("version"), value->description(),
        fmt::format("version {}, the one this program knows", supported));
    return supported;
  }
  return value->as_int64();
}

const JsonValue* ObjectReader::find(std::string_view key) {
  if (std::find(known_.begin(), known_.end(), key) == known_.end()) {
    known_.emplace_back(key);
  }
  return value_ == nullptr ? nullptr : value_->find(key);
}

const JsonValue* ObjectReader::required(std::string_view key) {
  const JsonValue* value = find(key);
  if (value == nullptr && value_ != nullptr) {
    add(*value_, path_, fmt::format("no field \"{}\"", key), "that field");
  }
  return value;
}

void ObjectReader::add_error(std::string_view key, std::string found, std::string expected) {
  add_at(key, Problem::Severity::kError, std::move(found), std::move(expected));
}

void ObjectReader::add_warning(std::string_view key, std::string found, std::string expected) {
  add_at(key, Problem::Severity::kWarning, std::move(found), std::move(expected));
}

std::string ObjectReader::path_of(std::string_view key) const {
  return path_.empty() ? std::string(key) : fmt::format("{}.{}", path_, key);
}

void ObjectReader::finish() {
  if (value_ == nullptr) {
    return;
  }
  for (const auto& [name, value] : value_->members()) {
    if (std::find(known_.begin(), known_.end(), name) == known_.end()) {
      const TextPosition place = value.key_place();
      problems_->add({place.line, place.column, path_of(name), fmt::format("a field \"{}\"", name),
                      fmt::format("one of {}", join(known_, ", ")), Problem::Severity::kWarning});
    }
  }
}

void ObjectReader::add(const JsonValue& place, std::string path, std::string found,
                       std::string expected) {
  problems_->add({place.line(), place.column(), std::move(path), std::move(found),
                  std::move(expected), Problem::Severity::kError});
}

void ObjectReader::add_at(std::string_view key, Problem::Severity severity, std::string found,
                          std::string expected) {
  const JsonValue* place = find(key);
  if (place == nullptr) {
    place = value_;
  }
  problems_->add({place == nullptr ? 0 : place->line(), place == nullptr ? 0 : place->column(),
                  path_of(key), std::move(found), std::move(expected), severity});
}

std::optional<double> ObjectReader::read_double(const JsonValue& value, const std::string& path,
                                                NumberRange range, std::string_view unit) {
  if (!value.is_number()) {
    add(value, path, value.description(), "a number, " + range_words(range, unit));
    return std::nullopt;
  }
  const double result = value.as_double();
  if (!(result >= range.min && result <= range.max)) {
    add(value, path, value_words(value, unit), range_words(range, unit));
    return std::nullopt;
  }
  return result;
}

std::optional<std::int64_t> ObjectReader::read_int(const JsonValue& value, const std::string& path,
                                                   IntRange range, std::string_view unit) {
  std::optional<std::int64_t> result;
  if (value.type() == JsonType::kInteger) {
    result = value.as_int64();
  } else if (value.type() == JsonType::kNumber) {
    // 3.0 and 3e2 are whole numbers too.
    const double written = value.as_double();
    if (std::fabs(written) <= kLargestExactInteger && std::floor(written) == written) {
      result = static_cast<std::int64_t>(written);
    }
  }
  if (!result) {
    add(value, path, value.description(), "a whole number, " + range_words(range, unit));
    return std::nullopt;
  }
  if (*result < range.min || *result > range.max) {
    add(value, path, value_words(value, unit), range_words(range, unit));
    return std::nullopt;
  }
  return result;
}

std::optional<std::string> ObjectReader::read_string(const JsonValue& value,
                                                     const std::string& path, IntRange length) {
  if (!value.is_string()) {
    add(value, path, value.description(), "a text");
    return std::nullopt;
  }
  const auto found = static_cast<std::int64_t>(value.as_string().size());
  if (found < length.min || found > length.max) {
    add(value, path, fmt::format("a text of {} bytes", found), range_words(length, "bytes"));
    return std::nullopt;
  }
  return value.as_string();
}

const JsonValue* ObjectReader::checked_array(std::string_view key, const JsonValue* value,
                                             IntRange count) {
  if (value == nullptr) {
    return nullptr;
  }
  if (!value->is_array()) {
    add(*value, path_of(key), value->description(), "an array of " + range_words(count, ""));
    return nullptr;
  }
  const auto found = static_cast<std::int64_t>(value->items().size());
  if (found < count.min || found > count.max) {
    add(*value, path_of(key), value->description(), "an array of " + range_words(count, ""));
    return nullptr;
  }
  return value;
}

std::vector<double> ObjectReader::read_doubles(const JsonValue* array, const std::string& path,
                                               NumberRange range, std::string_view unit) {
  const auto read = [&](const JsonValue& item, const std::string& item_path, ProblemList&) {
    return read_double(item, item_path, range, unit).value_or(range.min);
  };
  return read_items(array, path, read);
}

std::vector<std::string> ObjectReader::read_strings(const JsonValue* array, const std::string& path,
                                                    std::size_t max_length) {
  const auto read = [&](const JsonValue& item, const std::string& item_path, ProblemList&) {
    const IntRange length{0, static_cast<std::int64_t>(max_length)};
    return read_string(item, item_path, length).value_or("");
  };
  return read_items(array, path, read);
}

void ObjectReader::add_unknown_word(const JsonValue& value, std::string_view key,
                                    const std::vector<std::string>& words) {
  add(value, path_of(key), value.description(), "one of " + join(words, ", "));
}

}  // namespace driftbench::base
