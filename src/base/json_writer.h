// Writes JSON with one fixed layout, so that equal data give equal bytes.
#pragma once

#include "base/json.h"

#include <concepts>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::base {

/// How a container is laid out; everything inside a compact one is compact.
enum class JsonLayout {
  kPretty,   ///< one entry a line, two spaces a level
  kCompact,  ///< on one line
};

/// Streaming writer. Contract: calls nest properly, a key stands before each value of an object.
///
/// Numbers are written shortest-round-trip (base::number), never NaN or infinite; text is escaped,
/// ill-formed UTF-8 becomes U+FFFD. Pretty documents end with a line end.
class JsonWriter {
 public:
  explicit JsonWriter(JsonLayout layout = JsonLayout::kPretty) : document_layout_(layout) {}

  JsonWriter& begin_object(JsonLayout layout = JsonLayout::kPretty);
  JsonWriter& end_object();
  JsonWriter& begin_array(JsonLayout layout = JsonLayout::kPretty);
  JsonWriter& end_array();
  JsonWriter& key(std::string_view name);

  JsonWriter& value(double number);
  JsonWriter& value(bool flag);
  JsonWriter& value(std::string_view text);

  JsonWriter& value(const char* text) { return value(std::string_view(text)); }

  JsonWriter& value(const std::string& text) { return value(std::string_view(text)); }

  /// Any integer that fits 64 bits with sign.
  template <std::integral T>
  JsonWriter& value(T number) {
    return integer(static_cast<std::int64_t>(number));
  }

  /// The value, or null when there is none.
  template <class T>
  JsonWriter& value(const std::optional<T>& maybe) {
    return maybe.has_value() ? value(*maybe) : null();
  }

  JsonWriter& null();

  /// Key and value in one call.
  template <class T>
  JsonWriter& field(std::string_view name, const T& content) {
    return key(name).value(content);
  }

  /// The finished document. Contract: everything that was begun has been ended.
  [[nodiscard]] std::string take();

 private:
  struct Level {
    char close = '}';
    bool is_compact = false;
    bool is_empty = true;
  };

  JsonWriter& integer(std::int64_t number);
  JsonWriter& begin(char open, char close, JsonLayout layout);
  JsonWriter& end(char close);
  void before_value();
  void start_entry();
  void new_line();

  JsonLayout document_layout_;
  std::string text_;
  std::vector<Level> levels_;
  bool has_key_ = false;
  bool is_done_ = false;
};

/// Writes a value that was read, with everything inside it, in its own order.
void write_json(JsonWriter& writer, const JsonValue& value);

/// The text as a JSON string with its quotes.
[[nodiscard]] std::string json_quoted(std::string_view text);

}  // namespace driftbench::base
