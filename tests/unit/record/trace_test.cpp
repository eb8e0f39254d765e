// The trace's operations and the checks on reading.
#include "record/trace.h"

#include "support/edit_text.h"
#include "support/sample_attempt.h"

#include "record/attempt.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace driftbench::record {
namespace {

TEST(Trace, EveryOpHasItsNumberOfArguments) {
  const int expected[] = {5, 1, 1, 1, 2, 1, 3, 1, 1, 0, 0, 1, 0, 1, 1};
  for (int op = 1; op <= 15; ++op) {
    EXPECT_EQ(argument_count(static_cast<Op>(op)), expected[op - 1]) << op;
  }
  EXPECT_EQ(argument_count(static_cast<Op>(0)), -1);
  EXPECT_EQ(argument_count(static_cast<Op>(16)), -1);
}

std::string error_after(const std::string& to) {
  const std::string text =
      support::with(write_attempt(support::sample_attempt()), "[250, 2, 1200]", to);
  return read_attempt(text, "t").first_error();
}

TEST(Trace, RefusesWhatCannotBeACommand) {
  EXPECT_EQ(error_after("[250, 2, 1200]"), "");
  EXPECT_NE(error_after("[250, 99, 1200]").find("an op, an integer from 1 to 15"),
            std::string::npos);
  EXPECT_NE(error_after("[250, 2]").find("3 numbers"), std::string::npos);
  EXPECT_NE(error_after("[250, 2, 1200, 0]").find("3 numbers"), std::string::npos);
  EXPECT_NE(error_after("[250, 2, 1200.5]").find("an integer"), std::string::npos);
  EXPECT_NE(error_after("[250, 2, 2147483648]").find("2147483647"), std::string::npos);
  EXPECT_NE(error_after("[-1, 2, 1200]").find("a step"), std::string::npos);
  EXPECT_NE(error_after("[1500, 2, 1200]").find("step 900 after step 1500"), std::string::npos);
  EXPECT_NE(error_after("{}").find("an array of step, op and arguments"), std::string::npos);
}

TEST(Trace, ErrorsKnowTheirLine) {
  const std::string text = write_attempt(support::sample_attempt());
  const auto lines =
      std::count(text.begin(), text.begin() + static_cast<long>(text.find("[250, 2, 1200]")), '\n');
  const auto outcome = read_attempt(support::with(text, "[250, 2, 1200]", "[250, 99, 1200]"), "t");
  ASSERT_FALSE(outcome.problems.empty());
  EXPECT_EQ(outcome.problems[0].line, static_cast<int>(lines) + 1);
  EXPECT_EQ(outcome.problems[0].path, "trace[2][1]");
}

}  // namespace
}  // namespace driftbench::record
