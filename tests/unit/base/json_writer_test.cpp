// Layout, escaping and the way out and back.
#include "base/json_writer.h"

#include "support/contract_guard.h"
#include "support/random_index.h"

#include "base/json.h"
#include "base/random.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <optional>
#include <string>

namespace driftbench::base {
namespace {

TEST(JsonWriter, PrettyLayoutIsFixed) {
  JsonWriter writer;
  writer.begin_object();
  writer.field("name", "block").field("seed", 7).field("depth_mm", -0.0);
  writer.key("empty").begin_array().end_array();
  writer.key("trace").begin_array();
  for (int step = 0; step < 2; ++step) {
    writer.begin_array(JsonLayout::kCompact).value(step).value(0.5).null().end_array();
  }
  writer.end_array();
  writer.key("inner").begin_object().field("ok", true).end_object();
  writer.end_object();
  EXPECT_EQ(writer.take(),
            "{\n"
            "  \"name\": \"block\",\n"
            "  \"seed\": 7,\n"
            "  \"depth_mm\": 0,\n"
            "  \"empty\": [],\n"
            "  \"trace\": [\n"
            "    [0, 0.5, null],\n"
            "    [1, 0.5, null]\n"
            "  ],\n"
            "  \"inner\": {\n"
            "    \"ok\": true\n"
            "  }\n"
            "}\n");
}

TEST(JsonWriter, CompactDocumentHasNoSpaces) {
  JsonWriter writer(JsonLayout::kCompact);
  writer.begin_object().key("a").begin_array().value(1).value(2).end_array().field("b", "x");
  writer.end_object();
  EXPECT_EQ(writer.take(), R"({"a":[1,2],"b":"x"})");
}

TEST(JsonWriter, AbsentValueIsNull) {
  JsonWriter writer(JsonLayout::kCompact);
  writer.begin_array().value(std::optional<double>()).value(std::optional<double>(2.5)).end_array();
  EXPECT_EQ(writer.take(), "[null,2.5]");
}

TEST(JsonWriter, IntegersKeepAllDigits) {
  JsonWriter writer(JsonLayout::kCompact);
  writer.begin_array().value(INT64_MIN).value(INT64_MAX).value(std::uint8_t{200}).end_array();
  EXPECT_EQ(writer.take(), "[-9223372036854775808,9223372036854775807,200]");
}

TEST(JsonWriter, TextIsEscaped) {
  EXPECT_EQ(json_quoted("a\"b\\c\n\t\x01"), R"("a\"b\\c\n\t\u0001")");
  EXPECT_EQ(json_quoted("\xc3\xa4"), "\"\xc3\xa4\"");
  EXPECT_EQ(json_quoted("\xff"), "\"\xef\xbf\xbd\"");
}

TEST(JsonWriter, AnyTextReadsBack) {
  Rng rng(8);
  for (int round = 0; round < 300; ++round) {
    std::string text;
    for (std::size_t k = support::random_index(rng, 30); k > 0; --k) {
      text.push_back(static_cast<char>(1 + support::random_index(rng, 127)));
    }
    const tl::expected<JsonValue, Problem> value = read_json(json_quoted(text));
    ASSERT_TRUE(value.has_value()) << json_quoted(text);
    EXPECT_EQ(value->as_string(), text);
  }
}

TEST(JsonWriter, WrongNestingBreaksTheContract) {
  const support::ContractGuard guard;
  JsonWriter writer;
  writer.begin_object();
  EXPECT_THROW(writer.value(1), support::BrokenContract);                   // no key
  EXPECT_THROW(writer.end_array(), support::BrokenContract);                // other bracket
  EXPECT_THROW(static_cast<void>(writer.take()), support::BrokenContract);  // still open
}

TEST(JsonWriter, WriterCanBeUsedAgainAfterTake) {
  JsonWriter writer(JsonLayout::kCompact);
  writer.value(1);
  EXPECT_EQ(writer.take(), "1");
  writer.begin_array().end_array();
  EXPECT_EQ(writer.take(), "[]");
}

}  // namespace
}  // namespace driftbench::base
