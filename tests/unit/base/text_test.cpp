// Numbers survive the way to text and back; UTF-8 is judged by RFC 3629.
#include "base/text.h"

#include "support/contract_guard.h"
#include "support/random_index.h"

#include "base/random.h"
#include "base/utf8.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <cstring>
#include <limits>
#include <string>
#include <string_view>

namespace driftbench::base {
namespace {

TEST(Number, IsTheShortestTextThatReadsBack) {
  EXPECT_EQ(number(0.1), "0.1");
  EXPECT_EQ(number(1.0), "1");
  EXPECT_EQ(number(-2.5), "-2.5");
  EXPECT_EQ(number(1.0 / 3.0), "0.3333333333333333");
  EXPECT_EQ(number(5e-324), "5e-324");
}

TEST(Number, ZeroHasNoSign) {
  EXPECT_EQ(number(-0.0), "0");
}

TEST(Number, RoundTripsForAnyBitPattern) {
  Rng rng(1);
  for (int i = 0; i < 20'000; ++i) {
    const std::uint64_t bits = rng.next();
    double value = 0.0;
    std::memcpy(&value, &bits, sizeof value);
    if (std::isfinite(value) && value != 0.0) {
      EXPECT_EQ(parse_number(number(value)), value);
    }
  }
}

TEST(Number, NotANumberBreaksTheContract) {
  const support::ContractGuard guard;
  EXPECT_THROW(static_cast<void>(number(std::nan(""))), support::BrokenContract);
  EXPECT_THROW(static_cast<void>(number(std::numeric_limits<double>::infinity())),
               support::BrokenContract);
}

TEST(Fixed, RoundsAndDropsTheSignOfZero) {
  EXPECT_EQ(fixed(1.23456, 3), "1.235");
  EXPECT_EQ(fixed(-1.5, 1), "-1.5");
  EXPECT_EQ(fixed(-0.0004, 3), "0.000");
  EXPECT_EQ(fixed(-0.0, 0), "0");
  EXPECT_EQ(fixed(12.0, 0), "12");
}

TEST(ParseNumber, TakesDecimalNumbers) {
  EXPECT_EQ(parse_number("3"), 3.0);
  EXPECT_EQ(parse_number("-0.25"), -0.25);
  EXPECT_EQ(parse_number("+4."), 4.0);
  EXPECT_EQ(parse_number(".5"), 0.5);
  EXPECT_EQ(parse_number("1e-3"), 0.001);
  EXPECT_EQ(parse_number("2E+2"), 200.0);
}

TEST(ParseNumber, RefusesEverythingElse) {
  for (const std::string_view text : {"", " ", "1 ", " 1", "1,5", "1.2.3", "0x10", "inf", "nan",
                                      "1e", "1e+", "-", ".", "e5", "1e999", "--1", "1mm"}) {
    EXPECT_FALSE(parse_number(text).has_value()) << '"' << text << '"';
  }
  EXPECT_FALSE(parse_number(std::string_view("1\0", 2)).has_value());
}

TEST(ParseInteger, TakesWhatFits) {
  EXPECT_EQ(parse_integer("9007199254740991"), 9007199254740991);
  EXPECT_EQ(parse_integer("-12"), -12);
  for (const std::string_view text : {"", "1.0", "+1", " 1", "9223372036854775808", "1e3"}) {
    EXPECT_FALSE(parse_integer(text).has_value()) << '"' << text << '"';
  }
}

TEST(Trim, RemovesOnlyTheEnds) {
  EXPECT_EQ(trim(" \t a b \r\n"), "a b");
  EXPECT_EQ(trim(" \n"), "");
}

TEST(Join, PutsSeparatorsBetween) {
  EXPECT_EQ(join({"a", "b", "c"}, ", "), "a, b, c");
  EXPECT_EQ(join({}, ", "), "");
}

// Source: RFC 3629, section 4 (byte ranges) and section 10 (overlong forms).
TEST(Utf8, IsJudgedByTheByteRanges) {
  EXPECT_TRUE(is_utf8("Bohrer \xc3\xb8 2,0 \xe2\x82\xac \xf0\x9f\xa6\xb7"));
  EXPECT_TRUE(is_utf8(""));
  EXPECT_TRUE(is_utf8("\xf4\x8f\xbf\xbf"));   // U+10FFFF
  EXPECT_FALSE(is_utf8("\xf4\x90\x80\x80"));  // above it
  EXPECT_FALSE(is_utf8("\xc0\x80"));          // overlong
  EXPECT_FALSE(is_utf8("\xe0\x9f\xbf"));      // overlong
  EXPECT_FALSE(is_utf8("\xf0\x8f\xbf\xbf"));  // overlong
  EXPECT_FALSE(is_utf8("\xed\xa0\x80"));      // surrogate
  EXPECT_FALSE(is_utf8("\xe2\x82"));          // cut
  EXPECT_FALSE(is_utf8("\x80"));              // tail alone
  EXPECT_FALSE(is_utf8("\xff"));
}

TEST(Utf8, RepairGivesValidTextAndKeepsValidText) {
  EXPECT_EQ(to_valid_utf8("a\xc3\xa4z"), "a\xc3\xa4z");
  EXPECT_EQ(to_valid_utf8("a\xff"), "a\xef\xbf\xbd");
  Rng rng(2);
  for (int i = 0; i < 500; ++i) {
    std::string bytes;
    for (int k = 0; k < 20; ++k) {
      bytes.push_back(static_cast<char>(support::random_index(rng, 256)));
    }
    const std::string repaired = to_valid_utf8(bytes);
    EXPECT_TRUE(is_utf8(repaired));
    EXPECT_EQ(to_valid_utf8(repaired), repaired);
  }
}

TEST(Utf8, PrefixNeverCutsACharacter) {
  EXPECT_EQ(utf8_prefix("ab\xe2\x82\xac", 5), "ab\xe2\x82\xac");
  EXPECT_EQ(utf8_prefix("ab\xe2\x82\xac", 4), "ab");
  EXPECT_EQ(utf8_prefix("ab\xe2\x82\xac", 2), "ab");
}

}  // namespace
}  // namespace driftbench::base
