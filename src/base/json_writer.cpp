// Streaming JSON writer.
#include "base/json_writer.h"

#include "base/contract.h"
#include "base/text.h"
#include "base/utf8.h"

#include <fmt/format.h>

#include <utility>

namespace driftbench::base {
namespace {

constexpr std::size_t kIndentWidth = 2;

}  // namespace

std::string json_quoted(std::string_view text) {
  const std::string valid = to_valid_utf8(text);
  std::string quoted = "\"";
  for (const char c : valid) {
    switch (c) {
      case '"':
        quoted += "\\\"";
        break;
      case '\\':
        quoted += "\\\\";
        break;
      case '\n':
        quoted += "\\n";
        break;
      case '\r':
        quoted += "\\r";
        break;
      case '\t':
        quoted += "\\t";
        break;
      default:
        if (static_cast<unsigned char>(c) < 0x20) {
          quoted += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
        } else {
          quoted.push_back(c);
        }
    }
  }
  quoted.push_back('"');
  return quoted;
}

JsonWriter& JsonWriter::begin_object(JsonLayout layout) {
  return begin('{', '}', layout);
}

JsonWriter& JsonWriter::end_object() {
  return end('}');
}

JsonWriter& JsonWriter::begin_array(JsonLayout layout) {
  return begin('[', ']', layout);
}

JsonWriter& JsonWriter::end_array() {
  return end(']');
}

JsonWriter& JsonWriter::key(std::string_view name) {
  DRIFTBENCH_EXPECTS(!levels_.empty() && levels_.back().close == '}' && !has_key_);
  start_entry();
  text_ += json_quoted(name);
  text_ += levels_.back().is_compact && document_layout_ == JsonLayout::kCompact ? ":" : ": ";
  has_key_ = true;
  return *this;
}

JsonWriter& JsonWriter::value(double number_value) {
  before_value();
  text_ += number(number_value);
  return *this;
}

JsonWriter& JsonWriter::value(bool flag) {
  before_value();
  text_ += flag ? "true" : "false";
  return *this;
}

JsonWriter& JsonWriter::value(std::string_view text) {
  before_value();
  text_ += json_quoted(text);
  return *this;
}

JsonWriter& JsonWriter::null() {
  before_value();
  text_ += "null";
  return *this;
}

JsonWriter& JsonWriter::integer(std::int64_t number_value) {
  before_value();
  text_ += fmt::format("{}", number_value);
  return *this;
}

std::string JsonWriter::take() {
  DRIFTBENCH_EXPECTS(levels_.empty() && is_done_);
  if (document_layout_ == JsonLayout::kPretty) {
    text_.push_back('\n');
  }
  is_done_ = false;
  return std::exchange(text_, std::string());
}

JsonWriter& JsonWriter::begin(char open, char close, JsonLayout layout) {
  before_value();
  const bool is_inside_compact =
      levels_.empty() ? document_layout_ == JsonLayout::kCompact : levels_.back().is_compact;
  text_.push_back(open);
  levels_.push_back({close, is_inside_compact || layout == JsonLayout::kCompact, true});
  is_done_ = false;
  return *this;
}

JsonWriter& JsonWriter::end(char close) {
  DRIFTBENCH_EXPECTS(!levels_.empty() && levels_.back().close == close && !has_key_);
  const Level level = levels_.back();
  levels_.pop_back();
  if (!level.is_empty && !level.is_compact) {
    new_line();
  }
  text_.push_back(close);
  is_done_ = levels_.empty();
  return *this;
}

// In an object the entry was started by key(); an array starts it here.
void JsonWriter::before_value() {
  DRIFTBENCH_EXPECTS(!is_done_);
  if (levels_.empty()) {
    is_done_ = true;
    return;
  }
  if (levels_.back().close == '}') {
    DRIFTBENCH_EXPECTS(has_key_);
    has_key_ = false;
    return;
  }
  start_entry();
}

void JsonWriter::start_entry() {
  Level& level = levels_.back();
  if (!level.is_empty) {
    text_.push_back(',');
  }
  if (!level.is_compact) {
    new_line();
  } else if (!level.is_empty && document_layout_ == JsonLayout::kPretty) {
    text_.push_back(' ');
  }
  level.is_empty = false;
}

void JsonWriter::new_line() {
  text_.push_back('\n');
  text_.append(kIndentWidth * levels_.size(), ' ');
}

void write_json(JsonWriter& writer, const JsonValue& value) {
  switch (value.type()) {
    case JsonType::kNull:
      writer.null();
      break;
    case JsonType::kBool:
      writer.value(value.as_bool());
      break;
    case JsonType::kInteger:
      writer.value(value.as_int64());
      break;
    case JsonType::kNumber:
      writer.value(value.as_double());
      break;
    case JsonType::kString:
      writer.value(value.as_string());
      break;
    case JsonType::kArray:
      writer.begin_array();
      for (const JsonValue& item : value.items()) {
        write_json(writer, item);
      }
      writer.end_array();
      break;
    case JsonType::kObject:
      writer.begin_object();
      for (const auto& [name, member] : value.members()) {
        writer.key(name);
        write_json(writer, member);
      }
      writer.end_object();
      break;
  }
}

}  // namespace driftbench::base
