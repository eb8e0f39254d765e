// Published values of FNV-1a and SHA-256, and the laws that state hashes rely on.
#include "base/hash64.h"
#include "base/sha256.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::base {
namespace {

std::uint64_t fnv(std::string_view text) {
  const std::vector<std::uint8_t> bytes(text.begin(), text.end());
  return fnv1a64(bytes);
}

template <class T>
std::uint64_t hash_of(T number) {
  Hash64 hash;
  hash.add(number);
  return hash.value();
}

// Source: test vectors of the FNV authors' reference code (draft-eastlake-fnv, appendix C).
TEST(Hash64, MeetsPublishedValues) {
  EXPECT_EQ(fnv(""), 0xcbf29ce484222325U);
  EXPECT_EQ(fnv("a"), 0xaf63dc4c8601ec8cU);
  EXPECT_EQ(fnv("foobar"), 0x85944171f73967e8U);
}

TEST(Hash64, NumbersEnterLowestByteFirst) {
  const std::vector<std::uint8_t> bytes = {0x08, 0x07, 0x06, 0x05, 0x04, 0x03, 0x02, 0x01};
  EXPECT_EQ(hash_of(std::uint64_t{0x0102030405060708}), fnv1a64(bytes));
}

TEST(Hash64, DoubleEntersAsItsBitPattern) {
  EXPECT_EQ(hash_of(1.0), hash_of(std::uint64_t{0x3ff0000000000000}));  // IEEE 754 binary64
}

TEST(Hash64, ZeroHasNoSign) {
  EXPECT_EQ(hash_of(-0.0), hash_of(0.0));
}

TEST(Hash64, WidthOfAnIntegerDoesNotMatter) {
  EXPECT_EQ(hash_of(-5), hash_of(std::int64_t{-5}));
  EXPECT_EQ(hash_of(static_cast<std::uint8_t>(7)), hash_of(std::uint64_t{7}));
}

TEST(Hash64, OneStepOfADoubleChangesTheHash) {
  EXPECT_NE(hash_of(1.0), hash_of(1.0 + 2.220446049250313e-16));
}

TEST(Hash64, OrderMatters) {
  Hash64 first;
  first.add(1);
  first.add(2);
  Hash64 second;
  second.add(2);
  second.add(1);
  EXPECT_NE(first.value(), second.value());
}

TEST(Hash64, HexHasSixteenDigits) {
  EXPECT_EQ(to_hex16(0), "0000000000000000");
  EXPECT_EQ(to_hex16(0xcbf29ce484222325U), "cbf29ce484222325");
}

// Source: FIPS 180-4 example values (NIST, SHA-256 examples: one block, two blocks, long message).
TEST(Sha256, MeetsPublishedValues) {
  EXPECT_EQ(sha256_hex(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256_hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(sha256_hex(std::string(1'000'000, 'a')),
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST(Sha256, EveryLengthAroundABlockEndDiffers) {
  // 55, 56, 63, 64 bytes are where the padding changes its number of blocks.
  std::set<std::string> seen;
  for (std::size_t length = 0; length <= 130; ++length) {
    EXPECT_TRUE(seen.insert(sha256_hex(std::string(length, 'x'))).second) << length;
  }
}

TEST(Sha256, BytesAboveAsciiAndZeroCount) {
  EXPECT_NE(sha256_hex(std::string("\0", 1)), sha256_hex(""));
  EXPECT_NE(sha256_hex("\xff"), sha256_hex("\x7f"));
}

}  // namespace
}  // namespace driftbench::base
