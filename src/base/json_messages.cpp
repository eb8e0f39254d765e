// Wording of JSON syntax errors.
#include "base/json_messages.h"

#include "base/utf8.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace driftbench::base {
namespace {

constexpr std::size_t kMaxShown_bytes = 40;

bool is_word_character(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
         c == '+' || c == '.' || c == '_';
}

std::string quoted_prefix(std::string_view rest) {
  const std::size_t end = rest.find_first_of("\"\r\n", 1);
  const std::size_t length = end == std::string_view::npos ? rest.size() : end;
  return fmt::format("the text {}\"",
                     to_valid_utf8(utf8_prefix(rest.substr(0, length), kMaxShown_bytes)));
}

// Words for the token at the start of the rest of the text.
std::string token_words(std::string_view rest) {
  if (rest.empty()) {
    return "the end of the file";
  }
  if (rest.front() == '"') {
    return quoted_prefix(rest);
  }
  std::size_t length = 0;
  while (length < std::min(rest.size(), kMaxShown_bytes) && is_word_character(rest[length])) {
    ++length;
  }
  if (length > 0) {
    return fmt::format("'{}'", rest.substr(0, length));
  }
  const auto byte = static_cast<unsigned char>(rest.front());
  const std::size_t character_bytes = utf8_character_bytes(rest);
  if (byte < 0x20 || byte == 0x7f || character_bytes == 0) {
    return fmt::format("the byte 0x{:02x}", byte);
  }
  return fmt::format("'{}'", rest.substr(0, character_bytes));
}

std::string expectation_words(JsonExpectation expectation) {
  switch (expectation) {
    case JsonExpectation::kValue:
      return "a value (object, array, text in double quotes, number, true, false or null)";
    case JsonExpectation::kFieldName:
      return "a field name in double quotes";
    case JsonExpectation::kColon:
      return "':' after the field name";
    case JsonExpectation::kObjectContinuation:
      return "',' or '}'";
    case JsonExpectation::kArrayContinuation:
      return "',' or ']'";
    case JsonExpectation::kEnd:
      return "the end of the file";
  }
  return {};
}

// A mistake inside a token, known by a part of the parser's message.
struct LexicalMistake {
  std::string_view part;
  std::string_view found;
  std::string_view expected;
};

// The first row that fits counts.
constexpr std::array<LexicalMistake, 6> kLexicalMistakes = {{
    {"ill-formed UTF-8", "text with bytes that are not UTF-8", "UTF-8 text"},
    {"missing closing quote", "a text without its closing quote", "a closing '\"'"},
    {"invalid string: control character", "a control character inside a text",
     "an escape such as \\n or \\t"},
    {"invalid string", "a text with an escape that does not exist",
     "one of \\\" \\\\ \\/ \\b \\f \\n \\r \\t \\uXXXX, with surrogates in pairs"},
    {"invalid number", "a number that breaks off", "a digit after the sign, point or exponent"},
    {"number overflow", "a number too large to hold", "a number between -1.79e308 and 1.79e308"},
}};

}  // namespace

JsonMistake describe_mistake(std::string_view rest, JsonExpectation expectation,
                             std::string_view parser_message) {
  // The message goes on with a piece of the file, which must not be taken for the parser's words.
  constexpr std::string_view kOverflow = "number overflow";
  std::string_view own_words = parser_message.substr(0, parser_message.find("; last read"));
  const std::size_t overflow = own_words.find(kOverflow);
  own_words =
      overflow == std::string_view::npos ? own_words : own_words.substr(overflow, kOverflow.size());
  for (const LexicalMistake& row : kLexicalMistakes) {
    if (own_words.find(row.part) != std::string_view::npos) {
      return {std::string(row.found), std::string(row.expected)};
    }
  }
  return {token_words(rest), expectation_words(expectation)};
}

}  // namespace driftbench::base
