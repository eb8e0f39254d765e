// Access to the values of a JSON document.
#include "base/json.h"

#include "base/contract.h"
#include "base/text.h"
#include "base/utf8.h"

#include <fmt/format.h>

namespace driftbench::base {
namespace {

constexpr std::size_t kMaxShown_bytes = 40;

}  // namespace

JsonValue::JsonValue(Content content, TextPosition place, TextPosition key_place)
    : content_(std::move(content)), place_(place), key_place_(key_place) {}

JsonType JsonValue::type() const {
  return static_cast<JsonType>(content_.index());
}

bool JsonValue::is_number() const {
  return type() == JsonType::kInteger || type() == JsonType::kNumber;
}

bool JsonValue::as_bool() const {
  DRIFTBENCH_EXPECTS(type() == JsonType::kBool);
  return std::get<bool>(content_);
}

std::int64_t JsonValue::as_int64() const {
  DRIFTBENCH_EXPECTS(type() == JsonType::kInteger);
  return std::get<std::int64_t>(content_);
}

double JsonValue::as_double() const {
  DRIFTBENCH_EXPECTS(is_number());
  if (const auto* integer = std::get_if<std::int64_t>(&content_)) {
    return static_cast<double>(*integer);
  }
  return std::get<double>(content_);
}

const std::string& JsonValue::as_string() const {
  DRIFTBENCH_EXPECTS(is_string());
  return std::get<std::string>(content_);
}

const JsonValue::Items& JsonValue::items() const {
  DRIFTBENCH_EXPECTS(is_array());
  return std::get<Items>(content_);
}

const JsonValue::Members& JsonValue::members() const {
  DRIFTBENCH_EXPECTS(is_object());
  return std::get<Members>(content_);
}

const JsonValue* JsonValue::find(std::string_view key) const {
  if (const auto* members = std::get_if<Members>(&content_)) {
    for (const auto& [name, value] : *members) {
      if (name == key) {
        return &value;
      }
    }
  }
  return nullptr;
}

std::string JsonValue::description() const {
  switch (type()) {
    case JsonType::kNull:
      return "null";
    case JsonType::kBool:
      return as_bool() ? "true" : "false";
    case JsonType::kInteger:
      return fmt::format("the number {}", as_int64());
    case JsonType::kNumber:
      return "the number " + number(as_double());
    case JsonType::kString:
      return as_string().size() <= kMaxShown_bytes
                 ? fmt::format("the text \"{}\"", as_string())
                 : fmt::format("the text \"{}...\"", utf8_prefix(as_string(), kMaxShown_bytes));
    case JsonType::kArray:
      return fmt::format("an array of {}", items().size());
    case JsonType::kObject:
      return "an object";
  }
  return {};
}

}  // namespace driftbench::base
