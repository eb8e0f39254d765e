// Values, exactness, places and limits of the JSON reader.
#include "base/json.h"

#include "support/contract_guard.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <string>
#include <string_view>

namespace driftbench::base {
namespace {

JsonValue parsed(std::string_view text) {
  Result<JsonValue> value = parse_json(text, "t.json");
  EXPECT_TRUE(value.has_value()) << (value ? "" : value.error().message);
  return value.value_or(JsonValue{});
}

Problem refusal(std::string_view text, const JsonLimits& limits = {}) {
  const tl::expected<JsonValue, Problem> value = read_json(text, limits);
  EXPECT_FALSE(value.has_value()) << text;
  return value ? Problem{} : value.error();
}

TEST(Json, EveryTypeIsRead) {
  const JsonValue value = parsed(
      R"({"n": null, "b": true, "i": -3, "d": 0.5, "s": "\u00e4\n", "a": [1, []], "o": {}})");
  EXPECT_EQ(value.type(), JsonType::kObject);
  EXPECT_TRUE(value.find("n")->is_null());
  EXPECT_TRUE(value.find("b")->as_bool());
  EXPECT_EQ(value.find("i")->as_int64(), -3);
  EXPECT_EQ(value.find("d")->as_double(), 0.5);
  EXPECT_EQ(value.find("s")->as_string(), "\xc3\xa4\n");
  EXPECT_EQ(value.find("a")->items().size(), 2U);
  EXPECT_TRUE(value.find("o")->members().empty());
  EXPECT_EQ(value.find("missing"), nullptr);
}

TEST(Json, ScalarsAreDocumentsToo) {
  EXPECT_EQ(parsed("12").as_int64(), 12);
  EXPECT_EQ(parsed(" \"x\" ").as_string(), "x");
  EXPECT_EQ(parsed("false").as_bool(), false);
}

TEST(Json, MembersKeepFileOrder) {
  const JsonValue value = parsed(R"({"z": 1, "a": 2, "m": 3})");
  std::string order;
  for (const auto& [name, member] : value.members()) {
    order += name;
  }
  EXPECT_EQ(order, "zam");
}

TEST(Json, IntegersAreExact) {
  EXPECT_EQ(parsed("9007199254740993").as_int64(), 9007199254740993);  // 2^53 + 1
  EXPECT_EQ(parsed("9223372036854775807").as_int64(), INT64_MAX);
  EXPECT_EQ(parsed("-9223372036854775808").as_int64(), INT64_MIN);
}

TEST(Json, NumbersBeyondIntegersBecomeDoubles) {
  const JsonValue large = parsed("9223372036854775808");
  EXPECT_EQ(large.type(), JsonType::kNumber);
  EXPECT_EQ(large.as_double(), 9223372036854775808.0);
  EXPECT_EQ(parsed("1.0").type(), JsonType::kNumber);
  EXPECT_EQ(parsed("1e3").as_double(), 1000.0);
  EXPECT_EQ(parsed("7").as_double(), 7.0);
}

TEST(Json, PlacesAreThoseOfTheFirstCharacter) {
  const JsonValue value =
      parsed("{\n  \"a\": 12,\n  \"list\": [1,\n    {\"b\":   true}, \"x\" ,-4 ]\n}");
  EXPECT_EQ(value.line(), 1);
  EXPECT_EQ(value.column(), 1);
  const JsonValue& a = *value.find("a");
  EXPECT_EQ(a.line(), 2);
  EXPECT_EQ(a.column(), 8);
  EXPECT_EQ(a.key_place().line, 2);
  EXPECT_EQ(a.key_place().column, 3);
  const JsonValue& list = *value.find("list");
  EXPECT_EQ(list.column(), 11);
  EXPECT_EQ(list.items()[0].column(), 12);
  EXPECT_EQ(list.items()[1].line(), 4);
  EXPECT_EQ(list.items()[1].column(), 5);
  EXPECT_EQ(list.items()[1].find("b")->column(), 13);
  EXPECT_EQ(list.items()[2].column(), 20);
  EXPECT_EQ(list.items()[3].line(), 4);
  EXPECT_EQ(list.items()[3].column(), 25);
}

TEST(Json, PlaceAfterANumberBeforeALineEndIsRight) {
  const JsonValue value = parsed("[1\n,2\r\n,3]");
  EXPECT_EQ(value.items()[1].line(), 2);
  EXPECT_EQ(value.items()[1].column(), 2);
  EXPECT_EQ(value.items()[2].line(), 3);
}

TEST(Json, ColumnsCountCharacters) {
  const JsonValue value = parsed("[\"\xc3\xa4\xe2\x82\xac\xf0\x9f\xa6\xb7\", 5]");
  EXPECT_EQ(value.items()[1].column(), 9);
}

TEST(Json, ByteOrderMarkIsSkipped) {
  const JsonValue value = parsed("\xef\xbb\xbf{\"a\": 1}");
  EXPECT_EQ(value.column(), 1);
  EXPECT_EQ(value.find("a")->column(), 7);
}

TEST(Json, RepeatedFieldIsRefusedAtItsName) {
  const Problem problem = refusal("{\n  \"a\": 1,\n  \"a\": 2\n}");
  EXPECT_EQ(problem.sentence("t.json"),
            "t.json:3:3: found the field \"a\" a second time, expected every field once");
  EXPECT_EQ(parsed(R"({"a": {"a": 1}, "b": {"a": 1}})").members().size(), 2U);
}

TEST(Json, DepthIsLimited) {
  const auto nested = [](std::size_t depth) {
    return std::string(depth, '[') + std::string(depth, ']');
  };
  EXPECT_TRUE(read_json(nested(32)).has_value());
  const Problem problem = refusal(nested(33));
  EXPECT_EQ(problem.column, 33);
  EXPECT_TRUE(read_json(nested(4), {.max_depth = 4}).has_value());
  EXPECT_FALSE(read_json(nested(5), {.max_depth = 4}).has_value());
}

TEST(Json, SizeIsLimited) {
  EXPECT_TRUE(read_json("[1, 2]", {.max_bytes = 6}).has_value());
  EXPECT_EQ(refusal("[1, 22]", {.max_bytes = 6}).expected, "at most 6");
}

TEST(Json, ErrorTellsPlaceFoundAndExpected) {
  const Result<JsonValue> value = parse_json("{\n  \"a\" 1}", "lessons/x.json");
  ASSERT_FALSE(value.has_value());
  EXPECT_EQ(value.error().code, ErrorCode::kParse);
  EXPECT_EQ(value.error().where, "lessons/x.json:2:7");
  EXPECT_EQ(value.error().message,
            "lessons/x.json:2:7: found '1', expected ':' after the field name");
}

TEST(Json, TextOfTheFileIsNotTakenForTheParsersWords) {
  // The wrong word stands after text that looks like an error message of the parser.
  const Problem problem = refusal(R"(["invalid string: ill-formed UTF-8", oops])");
  EXPECT_EQ(problem.found, "'oops'");
  EXPECT_EQ(problem.column, 38);
}

TEST(Json, WrongTypeBreaksTheContract) {
  const support::ContractGuard guard;
  const JsonValue value = parsed("\"x\"");
  EXPECT_THROW(static_cast<void>(value.as_int64()), support::BrokenContract);
  EXPECT_THROW(static_cast<void>(value.items()), support::BrokenContract);
  EXPECT_EQ(value.find("a"), nullptr);
}

TEST(Json, ManyFieldsAreReadInReasonableTime) {
  std::string text = "{";
  for (int i = 0; i < 50'000; ++i) {
    text += "\"f" + std::to_string(i) + "\":1,";
  }
  text += "\"end\":1}";
  EXPECT_EQ(parsed(text).members().size(), 50'001U);
}

}  // namespace
}  // namespace driftbench::base
