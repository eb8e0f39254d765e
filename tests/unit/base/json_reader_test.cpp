// Every kind of wrong field is reported at its place with what was found and expected.
#include "base/json_reader.h"

#include <gtest/gtest.h>

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::base {
namespace {

enum class Approach { kFreehand, kSleeve };

constexpr std::array<EnumName<Approach>, 2> kApproaches = {
    {{"freehand", Approach::kFreehand}, {"sleeve", Approach::kSleeve}}};

// A document, its reader and the findings.
struct Reading {
  explicit Reading(std::string_view text)
      : value(read_json(text).value_or(JsonValue{})), reader(value, "", problems) {}

  std::string only_sentence() const {
    EXPECT_EQ(problems.items().size(), 1U);
    return problems.empty() ? "" : problems.items().front().sentence("f");
  }

  JsonValue value;
  ProblemList problems;
  ObjectReader reader;
};

TEST(ObjectReader, GoodFieldsGiveValuesAndNoProblem) {
  Reading r(
      R"({"d": 2.5, "i": 3, "b": true, "s": "text", "e": "sleeve", "n": null, "l": [1, 2.5]})");
  EXPECT_EQ(r.reader.required_double("d", {0.0, 5.0}, "mm"), 2.5);
  EXPECT_EQ(r.reader.required_int("i", {0, 5}), 3);
  EXPECT_TRUE(r.reader.required_bool("b"));
  EXPECT_EQ(r.reader.required_string("s", 10), "text");
  EXPECT_EQ(r.reader.required_enum("e", kApproaches), Approach::kSleeve);
  EXPECT_FALSE(r.reader.nullable_double("n", {0.0, 1.0}, "mm").has_value());
  EXPECT_EQ(r.reader.required_doubles("l", {1, 3}, {0.0, 9.0}, "mm"),
            (std::vector<double>{1.0, 2.5}));
  r.reader.finish();
  EXPECT_TRUE(r.problems.empty());
}

TEST(ObjectReader, NumberOutOfRangeNamesValueRangeAndUnit) {
  Reading r("{\n  \"bore_mm\": 38\n}");
  EXPECT_EQ(r.reader.required_double("bore_mm", {1.0, 6.5}, "mm"), 1.0);
  EXPECT_EQ(r.only_sentence(), "f:2:14: bore_mm: found 38 mm, expected 1 to 6.5 mm");
  EXPECT_TRUE(r.problems.has_errors());
}

TEST(ObjectReader, RangeEndsAreAllowed) {
  Reading r(R"({"a": 1, "b": 6.5})");
  EXPECT_EQ(r.reader.required_double("a", {1.0, 6.5}, "mm"), 1.0);
  EXPECT_EQ(r.reader.required_double("b", {1.0, 6.5}, "mm"), 6.5);
  EXPECT_TRUE(r.problems.empty());
}

TEST(ObjectReader, WrongTypesAreNamed) {
  Reading r(R"({"d": "2.5", "i": 2.5, "b": 1, "s": 4, "l": {}})");
  static_cast<void>(r.reader.required_double("d", {0.0, 5.0}, "mm"));
  static_cast<void>(r.reader.required_int("i", {0, 5}));
  static_cast<void>(r.reader.required_bool("b"));
  static_cast<void>(r.reader.required_string("s", 5));
  static_cast<void>(r.reader.required_doubles("l", {0, 5}, {0.0, 1.0}, ""));
  ASSERT_EQ(r.problems.error_count(), 5U);
  EXPECT_EQ(r.problems.items()[0].sentence("f"),
            "f:1:7: d: found the text \"2.5\", expected a number, 0 to 5 mm");
  EXPECT_EQ(r.problems.items()[1].found, "the number 2.5");
  EXPECT_EQ(r.problems.items()[2].expected, "true or false");
  EXPECT_EQ(r.problems.items()[3].expected, "a text");
  EXPECT_EQ(r.problems.items()[4].expected, "an array of 0 to 5");
}

TEST(ObjectReader, WholeNumbersMayBeWrittenWithFractionOrExponent) {
  Reading r(R"({"a": 3.0, "b": 2e3, "c": 1e300})");
  EXPECT_EQ(r.reader.required_int("a", {0, 10}), 3);
  EXPECT_EQ(r.reader.required_int("b", {0, 5000}), 2000);
  EXPECT_TRUE(r.problems.empty());
  EXPECT_EQ(r.reader.required_int("c", {1, 10}), 1);
  EXPECT_EQ(r.problems.error_count(), 1U);
}

TEST(ObjectReader, MissingFieldIsReportedAtItsObject) {
  Reading r("{\n  \"plan\": {\"x\": 1}}");
  ObjectReader plan = r.reader.required_object("plan");
  static_cast<void>(plan.required_double("y", {0.0, 1.0}, "mm"));
  EXPECT_EQ(r.only_sentence(), "f:2:11: plan: found no field \"y\", expected that field");
}

TEST(ObjectReader, OptionalFieldsMayBeMissingButNotWrong) {
  Reading r(R"({"wrong": "x"})");
  EXPECT_EQ(r.reader.optional_double("gone", {0.0, 1.0}, "mm", 0.25), 0.25);
  EXPECT_EQ(r.reader.optional_int("gone", {0, 9}, "", 4), 4);
  EXPECT_TRUE(r.reader.optional_bool("gone", true));
  EXPECT_FALSE(r.reader.optional_string("gone", 5).has_value());
  EXPECT_FALSE(r.reader.optional_enum("gone", kApproaches).has_value());
  EXPECT_FALSE(r.reader.optional_object("gone").has_value());
  EXPECT_TRUE(r.problems.empty());
  EXPECT_EQ(r.reader.optional_double("wrong", {0.0, 1.0}, "mm", 0.25), 0.25);
  EXPECT_TRUE(r.problems.has_errors());
}

TEST(ObjectReader, UnknownWordListsTheVocabulary) {
  Reading r(R"({"approach": "guided"})");
  EXPECT_EQ(r.reader.required_enum("approach", kApproaches), Approach::kFreehand);
  EXPECT_EQ(r.only_sentence(),
            "f:1:14: approach: found the text \"guided\", expected one of freehand, sleeve");
  EXPECT_EQ(name_of(kApproaches, Approach::kSleeve), "sleeve");
}

TEST(ObjectReader, ArrayItemsHaveIndexedPaths) {
  Reading r(R"({"blocks": [{"offset_mm": 1}, {"offset_mm": 99}]})");
  const std::vector<double> offsets = r.reader.required_array(
      "blocks", {1, 4}, [](const JsonValue& item, const std::string& path, ProblemList& problems) {
        ObjectReader block(item, path, problems);
        const double offset_mm = block.required_double("offset_mm", {-8.0, 8.0}, "mm");
        block.finish();
        return offset_mm;
      });
  EXPECT_EQ(offsets.size(), 2U);
  EXPECT_EQ(r.only_sentence(), "f:1:45: blocks[1].offset_mm: found 99 mm, expected -8 to 8 mm");
}

TEST(ObjectReader, ArrayCountIsChecked) {
  Reading r(R"({"a": [1, 2, 3]})");
  EXPECT_TRUE(r.reader.required_doubles("a", {1, 2}, {0.0, 9.0}, "").empty());
  EXPECT_EQ(r.only_sentence(), "f:1:7: a: found an array of 3, expected an array of 1 to 2");
}

TEST(ObjectReader, TextLengthIsChecked) {
  Reading r(R"({"a": "abcdef", "b": ""})");
  static_cast<void>(r.reader.required_string("a", 5));
  static_cast<void>(r.reader.required_string("b", 5));
  EXPECT_EQ(r.problems.error_count(), 2U);
  EXPECT_EQ(r.reader.optional_string("b", 5), "");
}

TEST(ObjectReader, UnknownFieldIsAWarningAtItsName) {
  Reading r("{\n  \"seed\": 1,\n  \"sead\": 2\n}");
  static_cast<void>(r.reader.required_int("seed", {0, 9}));
  r.reader.finish();
  EXPECT_EQ(r.only_sentence(), "f:3:3: sead: found a field \"sead\", expected one of seed");
  EXPECT_EQ(r.problems.items()[0].severity, Problem::Severity::kWarning);
  EXPECT_FALSE(r.problems.has_errors());
}

TEST(ObjectReader, NotAnObjectIsOneErrorOnly) {
  Reading r("[1]");
  static_cast<void>(r.reader.required_int("seed", {0, 9}));
  r.reader.finish();
  EXPECT_EQ(r.only_sentence(), "f:1:1: found an array of 1, expected an object");
}

TEST(ObjectReader, MissingObjectIsOneErrorOnly) {
  Reading r("{}");
  ObjectReader plan = r.reader.required_object("plan");
  static_cast<void>(plan.required_int("a", {0, 9}));
  static_cast<void>(plan.required_object("b").required_bool("c"));
  plan.finish();
  EXPECT_EQ(r.only_sentence(), "f:1:1: found no field \"plan\", expected that field");
}

TEST(ObjectReader, FormatAndVersionAreChecked) {
  Reading good(R"({"format": "driftbench-kit", "version": 1})");
  good.reader.require_format("driftbench-kit");
  EXPECT_EQ(good.reader.require_version(1), 1);
  EXPECT_TRUE(good.problems.empty());

  Reading bad(R"({"format": "other", "version": 2})");
  bad.reader.require_format("driftbench-kit");
  bad.reader.require_version(1);
  EXPECT_EQ(bad.problems.error_count(), 2U);
  EXPECT_EQ(bad.problems.items()[1].sentence("f"),
            "f:1:32: version: found the number 2, expected version 1, the one this program knows");
}

TEST(ObjectReader, OwnFindingsStandAtTheField) {
  Reading r("{\n  \"a\": 1}");
  r.reader.add_error("a", "a drill wider than its sleeve", "a narrower one");
  r.reader.add_warning("b", "nothing", "something");
  EXPECT_EQ(r.problems.items()[0].line, 2);
  EXPECT_EQ(r.problems.items()[0].column, 8);
  EXPECT_EQ(r.problems.items()[1].line, 1);
  EXPECT_EQ(r.problems.error_count(), 1U);
}

TEST(ProblemList, KeepsALimitedNumberButCountsAll) {
  ProblemList list;
  for (std::size_t i = 0; i < ProblemList::kMaxKept; ++i) {
    list.add({1, 1, "", "x", "y", Problem::Severity::kWarning});
  }
  list.add({2, 1, "p", "x", "y", Problem::Severity::kError});
  EXPECT_EQ(list.items().size(), ProblemList::kMaxKept);
  EXPECT_EQ(list.dropped_count(), 1U);
  EXPECT_TRUE(list.has_errors()) << "an error beyond the limit still counts";
  EXPECT_NE(list.first_error("f"), "");
}

}  // namespace
}  // namespace driftbench::base
