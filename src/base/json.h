// A JSON document in memory; every value knows its line and column.
#pragma once

#include "base/problem.h"
#include "base/result.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace driftbench::base {

/// Kinds of value. A number without fraction and exponent that fits 64 bits is an integer.
enum class JsonType { kNull, kBool, kInteger, kNumber, kString, kArray, kObject };

/// A place in a text, both from 1; the column counts characters, not bytes.
struct TextPosition {
  int line = 1;
  int column = 1;
};

/// One value with everything inside it.
class JsonValue {
 public:
  using Items = std::vector<JsonValue>;
  using Members = std::vector<std::pair<std::string, JsonValue>>;
  using Content =
      std::variant<std::monostate, bool, std::int64_t, double, std::string, Items, Members>;

  JsonValue() = default;
  JsonValue(Content content, TextPosition place, TextPosition key_place = {});

  [[nodiscard]] JsonType type() const;

  [[nodiscard]] bool is_null() const { return type() == JsonType::kNull; }

  [[nodiscard]] bool is_object() const { return type() == JsonType::kObject; }

  [[nodiscard]] bool is_array() const { return type() == JsonType::kArray; }

  [[nodiscard]] bool is_string() const { return type() == JsonType::kString; }

  /// Integer or number.
  [[nodiscard]] bool is_number() const;

  /// Place of the first character of the value.
  [[nodiscard]] int line() const { return place_.line; }

  [[nodiscard]] int column() const { return place_.column; }

  /// Place of the name in front of the value; 1:1 for values that are not members.
  [[nodiscard]] TextPosition key_place() const { return key_place_; }

  /// Contract of each: the value is of that type (as_double also takes integers).
  [[nodiscard]] bool as_bool() const;
  [[nodiscard]] std::int64_t as_int64() const;
  [[nodiscard]] double as_double() const;
  [[nodiscard]] const std::string& as_string() const;

  /// Elements in file order. Contract: array.
  [[nodiscard]] const Items& items() const;
  /// Fields in file order; names are unique. Contract: object.
  [[nodiscard]] const Members& members() const;
  /// The field of that name, or nullptr; nullptr too when this is not an object.
  [[nodiscard]] const JsonValue* find(std::string_view key) const;

  /// Short words for messages: "the number 38", "the text \"abc\"", "an array of 3".
  [[nodiscard]] std::string description() const;

 private:
  friend class JsonBuilder;

  Content content_;
  TextPosition place_;
  TextPosition key_place_;
};

/// Sizes above which a document is refused.
struct JsonLimits {
  std::size_t max_bytes = std::size_t{8} << 20U;
  int max_depth = 32;
};

/// Reads a document; the failure is a Problem with line, column, found and expected.
///
/// Refused: repeated names in an object, nesting or size above the limits, anything after the
/// document, ill-formed UTF-8, numbers beyond the range of double. A byte-order mark is skipped.
/// Source: RFC 8259
[[nodiscard]] tl::expected<JsonValue, Problem> read_json(std::string_view text,
                                                         const JsonLimits& limits = {});

/// The same with the failure as an Error: message is "file:line:column: found X, expected Y".
///
/// Errors: kParse, where = "file:line:column"
[[nodiscard]] Result<JsonValue> parse_json(std::string_view text, std::string_view file_name,
                                           const JsonLimits& limits = {});

}  // namespace driftbench::base
