// Every bad file of tests/corpus/json is refused at the right place; no cut or damaged file does
// harm.
#include "support/random_index.h"
#include "support/read_file.h"

#include "base/json.h"
#include "base/json_reader.h"
#include "base/random.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <set>
#include <string>
#include <string_view>

namespace driftbench::base {
namespace {

// What is wrong with a file: place and words, checked by hand against its bytes.
struct BadFile {
  std::string_view name;
  int line;
  int column;
  std::string_view found;
};

constexpr BadFile kBadFiles[] = {
    {"bad_escape.json", 1, 2, "a text with an escape that does not exist"},
    {"bare_key.json", 1, 2, "'a'"},
    {"bare_point.json", 1, 2, "a number that breaks off"},
    {"binary.json", 1, 1, "the byte 0x00"},
    {"bom_only.json", 1, 1, "the end of the file"},
    {"bom_utf16.json", 1, 4, "the byte 0x00"},
    {"colon_in_array.json", 1, 3, "':'"},
    {"comment.json", 2, 3, "'/'"},
    {"deep_nesting.json", 1, 33, "more than 32 containers inside one another"},
    {"depth_33.json", 1, 33, "more than 32 containers inside one another"},
    {"double_comma.json", 1, 4, "','"},
    {"duplicate_key.json", 4, 3, "the field \"seed\" a second time"},
    {"duplicate_key_escaped.json", 1, 10, "the field \"a\" a second time"},
    {"duplicate_key_inner.json", 2, 9, "the field \"b\" a second time"},
    {"empty.json", 1, 1, "the end of the file"},
    {"hexadecimal.json", 1, 3, "'x10'"},
    {"html.json", 1, 1, "'<'"},
    {"huge_negative_number.json", 2, 2, "a number too large to hold"},
    {"huge_number.json", 2, 15, "a number too large to hold"},
    {"infinity.json", 1, 2, "a number that breaks off"},
    {"invalid_utf8_outside.json", 1, 5, "the byte 0xff"},
    {"invalid_utf8_text.json", 2, 11, "text with bytes that are not UTF-8"},
    {"leading_plus.json", 1, 2, "'+1'"},
    {"leading_zero.json", 1, 3, "'1'"},
    {"lone_surrogate_escape.json", 1, 2, "a text with an escape that does not exist"},
    {"minus.json", 1, 2, "a number that breaks off"},
    {"mismatched_brackets.json", 1, 6, "'}'"},
    {"missing_colon.json", 1, 6, "'1'"},
    {"missing_comma.json", 3, 3, "the text \"b\""},
    {"missing_value.json", 1, 7, "','"},
    {"nan.json", 1, 7, "'NaN'"},
    {"only_spaces.json", 3, 1, "the end of the file"},
    {"only_word.json", 1, 1, "'lesson'"},
    {"overlong_utf8.json", 1, 2, "text with bytes that are not UTF-8"},
    {"raw_line_end_in_text.json", 1, 2, "a control character inside a text"},
    {"single_quotes.json", 1, 2, "'''"},
    {"surrogate_utf8.json", 1, 2, "text with bytes that are not UTF-8"},
    {"trailing_comma_array.json", 1, 8, "']'"},
    {"trailing_comma_object.json", 3, 1, "'}'"},
    {"trailing_junk.json", 2, 1, "'}'"},
    {"truncated_after_colon.json", 1, 13, "the end of the file"},
    {"truncated_escape.json", 1, 2, "a text with an escape that does not exist"},
    {"truncated_key.json", 2, 3, "a text without its closing quote"},
    {"truncated_object.json", 3, 18, "the end of the file"},
    {"truncated_string.json", 2, 11, "a text without its closing quote"},
    {"two_documents.json", 2, 1, "'{'"},
    {"utf16.json", 1, 2, "the byte 0x00"},
    {"wrong_literal.json", 1, 8, "'True'"},
    {"zero_byte.json", 1, 9, "the byte 0x00"},
    {"zero_byte_in_text.json", 1, 9, "the byte 0x00"},
};

TEST(JsonCorpus, EveryBadFileIsRefusedAtItsPlace) {
  for (const BadFile& row : kBadFiles) {
    const std::string name(row.name);
    const tl::expected<JsonValue, Problem> value =
        read_json(support::read_file("tests/corpus/json/" + name));
    ASSERT_FALSE(value.has_value()) << name;
    EXPECT_EQ(value.error().line, row.line) << name;
    EXPECT_EQ(value.error().column, row.column) << name;
    EXPECT_EQ(value.error().found, row.found) << name;
    EXPECT_FALSE(value.error().expected.empty()) << name;
  }
}

TEST(JsonCorpus, EveryFileOfTheFolderHasARow) {
  std::set<std::string> listed;
  for (const BadFile& row : kBadFiles) {
    listed.emplace(row.name);
  }
  std::set<std::string> present;
  const std::string folder = std::string(DRIFTBENCH_SOURCE_DIR) + "/tests/corpus/json";
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    present.insert(entry.path().filename().string());
  }
  EXPECT_EQ(listed, present);
}

// A small document with every kind of token.
constexpr std::string_view kDocument =
    "{\n  \"format\": \"x\\u00e4\xc3\xa4\",\n  \"list\": [1, -2.5e-3, true, null, {\"a\": {}}],\n"
    "  \"seed\": 9007199254740993\n}";

TEST(JsonCorpus, EveryCutOfADocumentIsRefusedInsideIt) {
  ASSERT_TRUE(read_json(kDocument).has_value());
  for (std::size_t length = 0; length < kDocument.size(); ++length) {
    const tl::expected<JsonValue, Problem> value = read_json(kDocument.substr(0, length));
    ASSERT_FALSE(value.has_value()) << length;
    EXPECT_GE(value.error().line, 1);
    EXPECT_LE(value.error().line, 5);
    EXPECT_GE(value.error().column, 1);
    EXPECT_LE(value.error().column, 60);
  }
}

TEST(JsonCorpus, DamagedDocumentsNeverDoHarm) {
  Rng rng(20);
  int refused_count = 0;
  for (int round = 0; round < 20'000; ++round) {
    std::string text(kDocument);
    for (std::size_t changes = 1 + support::random_index(rng, 3); changes > 0; --changes) {
      text[support::random_index(rng, text.size())] =
          static_cast<char>(support::random_index(rng, 256));
    }
    const tl::expected<JsonValue, Problem> value = read_json(text);
    if (!value) {
      ++refused_count;
      EXPECT_GE(value.error().line, 1);
      continue;
    }
    // What is accepted can be read without harm, too.
    ProblemList problems;
    ObjectReader reader(*value, "", problems);
    reader.require_format("x");
    static_cast<void>(reader.required_int("seed", {0, 10}));
    static_cast<void>(reader.required_doubles("list", {0, 9}, {0.0, 1.0}, "mm"));
    reader.finish();
    EXPECT_TRUE(problems.has_errors());
  }
  EXPECT_GT(refused_count, 10'000);
}

}  // namespace
}  // namespace driftbench::base
