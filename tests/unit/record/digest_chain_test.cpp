// Every inconsistent edit of an attempt file is caught, and only the edited part is named.
#include "support/edit_text.h"
#include "support/sample_attempt.h"

#include "base/sha256.h"
#include "record/attempt.h"

#include <gtest/gtest.h>

namespace driftbench::record {
namespace {

using Broken = std::vector<std::string>;

Broken broken_after(const std::string& from, const std::string& to) {
  const std::string text = write_attempt(support::sample_attempt());
  const std::string edited = support::with(text, from, to);
  EXPECT_NE(edited, text) << "the edit changed nothing: " << from;
  const auto outcome = read_attempt(edited, "edited");
  EXPECT_TRUE(outcome.value.has_value()) << outcome.first_error();
  return outcome.value.has_value() ? check_chain(*outcome.value).broken : Broken{"unreadable"};
}

TEST(DigestChain, HoldsForAnUntouchedFile) {
  const auto outcome = read_attempt(write_attempt(support::sample_attempt()), "x");
  ASSERT_TRUE(outcome.value.has_value());
  EXPECT_EQ(check_chain(*outcome.value).broken, Broken{});
  EXPECT_EQ(outcome.value->stated, digest_chain(support::sample_attempt()));
}

TEST(DigestChain, NamesThePartThatWasEdited) {
  EXPECT_EQ(broken_after("[250, 2, 1200]", "[250, 2, 1201]"), Broken{"trace"});
  EXPECT_EQ(broken_after("[250, 2, 1200]", "[251, 2, 1200]"), Broken{"trace"});
  EXPECT_EQ(broken_after("fedcba9876543210", "fedcba9876543211"), Broken{"trace"});
  EXPECT_EQ(broken_after("\"end_step\": 2346", "\"end_step\": 2347"), Broken{"trace"});
  EXPECT_EQ(broken_after("\"confidence\": 2", "\"confidence\": 1"), Broken{"estimate"});
  EXPECT_EQ(broken_after("\"depth_error_mm\": 0.4", "\"depth_error_mm\": 0.3"), Broken{"results"});
  EXPECT_EQ(broken_after("\"inside_tolerance\": false", "\"inside_tolerance\": true"),
            Broken{"results"});
  EXPECT_EQ(broken_after("calm otter", "calm adder"), Broken{"setup"});
  EXPECT_EQ(broken_after("\"first\": \"D1\"", "\"first\": \"D2\""), Broken{"setup"});
}

TEST(DigestChain, AnEditedDigestBreaksItsLinkAndTheNext) {
  const DigestChain chain = digest_chain(support::sample_attempt());
  const std::string other = base::sha256_hex("other");
  EXPECT_EQ(broken_after(chain.trace, other), (Broken{"trace", "estimate"}));
}

// Every digit of the trace, raised by one: the file no longer reads, or the chain names the trace.
TEST(DigestChain, EveryChangedByteOfATraceIsDetected) {
  const std::string text = write_attempt(support::sample_attempt());
  const std::size_t begin = text.find("\"trace\": [");
  const std::size_t end = text.find("\"end_step\"");
  ASSERT_NE(begin, std::string::npos);
  int changed = 0;
  for (std::size_t i = begin; i < end; ++i) {
    if (text[i] < '0' || text[i] > '8') {
      continue;
    }
    std::string edited = text;
    ++edited[i];
    ++changed;
    const auto outcome = read_attempt(edited, "edited");
    if (outcome.value.has_value()) {
      EXPECT_EQ(check_chain(*outcome.value).broken, Broken{"trace"}) << edited.substr(i, 20);
    } else {
      EXPECT_FALSE(outcome.first_error().empty());
    }
  }
  EXPECT_GT(changed, 40);
}

// The chain ties results to the trace: results of one attempt cannot be put under another's trace.
TEST(DigestChain, LaterLinksDependOnEarlierOnes) {
  Attempt other = support::sample_attempt();
  other.trace[2].command.arguments[0] = 1000;
  const DigestChain a = digest_chain(support::sample_attempt());
  const DigestChain b = digest_chain(other);
  EXPECT_EQ(a.setup, b.setup);
  EXPECT_NE(a.trace, b.trace);
  EXPECT_NE(a.estimate, b.estimate);
  EXPECT_NE(a.results, b.results);
}

}  // namespace
}  // namespace driftbench::record
