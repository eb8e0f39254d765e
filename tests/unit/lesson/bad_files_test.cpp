// Every bad file gives exactly the sentence that stands beside it in the corpus.
#include "support/corpus.h"
#include "support/read_file.h"

#include "lesson/lesson.h"
#include "lesson/lesson_set.h"
#include "lesson/specimen_case.h"
#include "record/attempt.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace driftbench {
namespace {

template <class Read>
void expect_sentences(const std::string& kind, std::size_t least, Read read) {
  const std::vector<support::CorpusCase> cases = support::corpus(kind);
  EXPECT_GE(cases.size(), least);
  for (const support::CorpusCase& bad : cases) {
    const std::string text = support::read_file("tests/corpus/" + kind + "/" + bad.file);
    const auto outcome = read(text, bad.file);
    EXPECT_FALSE(outcome.value.has_value()) << bad.file;
    EXPECT_EQ(outcome.first_error(), bad.sentence);
    EXPECT_EQ(outcome.first_error().find('\n'), std::string::npos) << bad.file;
  }
}

TEST(BadFiles, LessonsSayWhereAndWhatWasExpected) {
  expect_sentences("lesson", 48, lesson::read_lesson);
}

TEST(BadFiles, SetsSayWhereAndWhatWasExpected) {
  expect_sentences("set", 22, lesson::read_set);
}

TEST(BadFiles, KitsSayWhereAndWhatWasExpected) {
  expect_sentences("kit", 11, lesson::read_kit);
}

TEST(BadFiles, SpecimensSayWhereAndWhatWasExpected) {
  expect_sentences("specimen", 28, lesson::read_specimen);
}

TEST(BadFiles, AttemptsSayWhereAndWhatWasExpected) {
  expect_sentences("attempt", 14, record::read_attempt);
}

TEST(BadFiles, LargerThanTheLimitIsRefused) {
  const std::string huge((std::size_t{1} << 20U) + 1, ' ');
  EXPECT_FALSE(lesson::read_lesson(huge, "huge.lesson.json").value.has_value());
  EXPECT_FALSE(lesson::read_kit(huge, "huge.kit.json").value.has_value());
  const std::string sentence = lesson::read_lesson(huge, "huge.lesson.json").first_error();
  EXPECT_NE(sentence.find("1048577"), std::string::npos) << sentence;
}

// Cut at any byte, a lesson never reads and never ends the program.
TEST(BadFiles, EveryTruncationOfALessonIsRefused) {
  const std::string text = support::read_file("lessons/find-the-centre.lesson.json");
  const std::size_t last_brace = text.rfind('}');
  ASSERT_NE(last_brace, std::string::npos);
  for (std::size_t length = 0; length <= last_brace; length += 7) {
    const auto outcome = lesson::read_lesson(text.substr(0, length), "cut");
    ASSERT_FALSE(outcome.value.has_value()) << length;
    ASSERT_EQ(outcome.problems.size(), 1U) << length;
    const auto lines = std::count(text.begin(), text.begin() + static_cast<long>(length), '\n');
    EXPECT_LE(outcome.problems[0].line, static_cast<int>(lines) + 1) << length;
  }
}

}  // namespace
}  // namespace driftbench
