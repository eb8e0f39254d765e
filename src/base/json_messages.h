// Wording of JSON syntax errors; used by the parser only.
#pragma once

#include <string>
#include <string_view>

namespace driftbench::base {

/// What the grammar was about to read when the text went wrong.
enum class JsonExpectation {
  kValue,
  kFieldName,
  kColon,
  kObjectContinuation,
  kArrayContinuation,
  kEnd
};

/// What was found and what was expected, as noun phrases.
struct JsonMistake {
  std::string found;
  std::string expected;
};

/// Words for a wrong token at the start of `rest`, the text from that token on.
///
/// Shape:  parser_message is the parser library's own text; it tells mistakes inside a token (an
/// open
///         quote, a wrong escape, a number too large) from tokens that stand in the wrong place
[[nodiscard]] JsonMistake describe_mistake(std::string_view rest, JsonExpectation expectation,
                                           std::string_view parser_message);

}  // namespace driftbench::base
