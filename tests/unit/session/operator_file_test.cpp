// Operator files: each bad one gives its sentence, with the place and what was expected.
#include "support/corpus.h"

#include "session/operator_profile.h"

#include <gtest/gtest.h>

namespace driftbench::session {
namespace {

TEST(OperatorFile, EveryBadFileGivesItsSentence) {
  const auto cases = support::corpus("operator");
  EXPECT_GE(cases.size(), 6U);
  for (const support::CorpusCase& bad : cases) {
    const auto outcome =
        read_operator(support::read_file("tests/corpus/operator/" + bad.file), bad.file);
    EXPECT_FALSE(outcome.value.has_value()) << bad.file;
    EXPECT_EQ(outcome.first_error(), bad.sentence);
  }
}

}  // namespace
}  // namespace driftbench::session
