#include "lesson/local_text.h"

#include <cstddef>

namespace driftbench::lesson {
namespace {

constexpr std::size_t kMaxTextBytes = 8000;
constexpr std::int64_t kMaxTexts = 50;

bool is_lower(char c) {
  return c >= 'a' && c <= 'z';
}

bool is_upper(char c) {
  return c >= 'A' && c <= 'Z';
}

/// Two lower-case letters, and perhaps a region of two capitals.
bool is_language_code(std::string_view code) {
  constexpr std::size_t kShort = 2;
  constexpr std::size_t kLong = 5;
  if (code.size() != kShort && code.size() != kLong) {
    return false;
  }
  const bool has_language = is_lower(code[0]) && is_lower(code[1]);
  return has_language &&
         (code.size() == kShort || (code[2] == '-' && is_upper(code[3]) && is_upper(code[4])));
}

LocalText read_languages(base::ObjectReader& reader, const base::JsonValue& value) {
  LocalText text;
  for (const auto& [code, content] : value.members()) {
    if (is_language_code(code)) {
      text[code] = reader.required_string(code, kMaxTextBytes);
    }
  }
  if (!text.contains("en")) {
    text["en"] = reader.required_string("en", kMaxTextBytes);
  }
  reader.finish();
  return text;
}

}  // namespace

const std::string& text_in(const LocalText& text, const std::string& language) {
  static const std::string kEmpty;
  const auto found = text.find(language);
  if (found != text.end()) {
    return found->second;
  }
  const auto english = text.find("en");
  return english != text.end() ? english->second : kEmpty;
}

LocalText read_local_text(base::ObjectReader& parent, std::string_view key) {
  base::ObjectReader reader = parent.required_object(key);
  const base::JsonValue* value = parent.find(key);
  if (value == nullptr || !value->is_object()) {
    return {};
  }
  return read_languages(reader, *value);
}

std::vector<LocalText> read_local_texts(base::ObjectReader& parent, std::string_view key) {
  return parent.required_array(
      key, {0, kMaxTexts},
      [](const base::JsonValue& item, const std::string& path, base::ProblemList& problems) {
        base::ObjectReader reader(item, path, problems);
        return item.is_object() ? read_languages(reader, item) : LocalText{};
      });
}

void write_local_text(base::JsonWriter& writer, const LocalText& text) {
  writer.begin_object();
  for (const auto& [code, content] : text) {
    writer.field(code, content);
  }
  writer.end_object();
}

void write_local_texts(base::JsonWriter& writer, const std::vector<LocalText>& texts) {
  writer.begin_array();
  for (const LocalText& text : texts) {
    write_local_text(writer, text);
  }
  writer.end_array();
}

}  // namespace driftbench::lesson
