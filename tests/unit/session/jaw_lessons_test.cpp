// The shipped jaw lessons through the sleeve; by hand they are tried in tests/lessons. Seeded.
#include "support/read_file.h"

#include "lesson/lesson.h"
#include "lesson/specimen_case.h"
#include "session/virtual_operator.h"

#include <gtest/gtest.h>

#include <string>

namespace driftbench::session {
namespace {

lesson::AttemptSetup setup_of(const std::string& lesson_id, std::size_t block,
                              std::uint64_t attempt) {
  const auto lesson =
      lesson::read_lesson(support::read_file("lessons/" + lesson_id + ".lesson.json"), lesson_id);
  EXPECT_TRUE(lesson.value.has_value()) << lesson.first_error();
  const auto kit =
      lesson::read_kit(support::read_file("assets/kits/" + lesson.value->kit_id + ".kit.json"), "");
  const std::string& id = lesson.value->blocks[block].case_id;
  const auto jaw =
      lesson::read_specimen(support::read_file("assets/specimens/" + id + ".specimen.json"), id);
  const auto setup =
      lesson::resolve(*lesson.value, *kit.value, block, attempt, std::nullopt, &*jaw.value);
  EXPECT_TRUE(setup.has_value()) << (setup ? "" : setup.error().message);
  return setup.value_or(lesson::AttemptSetup{});
}

OperatorProfile profile(const std::string& name) {
  const auto read = read_operator(support::read_file("assets/operators/" + name + ".json"), name);
  return read.value.value_or(OperatorProfile{});
}

scoring::Results practised(const std::string& lesson_id, std::size_t block, std::uint64_t attempt,
                           const OperatorProfile& who) {
  const lesson::AttemptSetup setup = setup_of(lesson_id, block, attempt);
  const auto attempt_made = practise_attempt(setup, who, setup.seed, {0, attempt});
  EXPECT_TRUE(attempt_made.has_value());
  EXPECT_TRUE(attempt_made->results.has_value());
  return attempt_made->results.value_or(scoring::Results{});
}

TEST(JawLessons, AnExpertPassesThroughTheSleeveAndLeavesEverythingUntouched) {
  for (const char* id : {"near-the-canal", "thin-plate"}) {
    const scoring::Results results = practised(id, 1, 2, profile("expert"));
    EXPECT_TRUE(results.inside_tolerance)
        << id << ": "
        << (results.reasons.empty() ? results.no_hole_reason : results.reasons.front().measure);
    ASSERT_TRUE(results.jaw.has_value());
    EXPECT_TRUE(results.jaw->events.empty());
    EXPECT_GE(results.jaw->clearances.size(), 5U);
  }
}

}  // namespace
}  // namespace driftbench::session
