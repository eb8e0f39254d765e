// Sets of lessons: one of two shipped lessons, and what the reader makes of others.
#include "lesson/lesson_set.h"

#include "support/edit_text.h"
#include "support/read_file.h"

#include "base/sha256.h"

#include <gtest/gtest.h>

#include <set>

namespace driftbench::lesson {
namespace {

constexpr const char* kSetPath = "tests/support/two-lessons.set.json";

std::string shipped_text() {
  return support::read_file(kSetPath);
}

LessonSet shipped_set() {
  return read_set(shipped_text(), kSetPath).value.value_or(LessonSet{});
}

Lesson lesson_of(const std::string& file) {
  return read_lesson(support::read_file("lessons/" + file), file).value.value_or(Lesson{});
}

TEST(LessonSet, ShippedFileReadsWithoutAnyFindingAndIsWrittenBackByteForByte) {
  const auto outcome = read_set(shipped_text(), kSetPath);
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  EXPECT_TRUE(outcome.problems.empty());
  EXPECT_EQ(outcome.value->sha256, base::sha256_hex(shipped_text()));
  EXPECT_EQ(write_set(*outcome.value), shipped_text());
  ASSERT_EQ(outcome.value->lessons.size(), 2U);
  EXPECT_EQ(outcome.value->lessons[0].opens, Opens::kAlways);
  EXPECT_EQ(outcome.value->lessons[1].after_days, 1);
}

TEST(LessonSet, ShippedEntriesFitTheLessonsBesideThem) {
  for (const SetEntry& entry : shipped_set().lessons) {
    EXPECT_TRUE(misfits(entry, lesson_of(lesson_file(entry))).empty()) << entry.lesson_id;
  }
}

TEST(LessonSet, WhatIsLeftOutHasItsDefault) {
  std::string text = support::with(shipped_text(), "  \"class_code\": \"bench-2026\",\n", "");
  text = support::with(text, "  \"seed\": 2026,\n", "");
  text = support::with(text, ", \"block\": \"by-hand\", \"attempts\": 4", "");
  text = support::with(text, "      \"opens\": \"after-finished\",\n      \"after_days\": 1\n",
                       "      \"note\": 1\n");
  const auto outcome = read_set(text, kSetPath);
  ASSERT_TRUE(outcome.value.has_value()) << outcome.first_error();
  ASSERT_EQ(outcome.problems.size(), 1U) << "the unknown field is a warning";
  const LessonSet& set = *outcome.value;
  EXPECT_EQ(set.class_code, "");
  EXPECT_FALSE(set.seed.has_value());
  EXPECT_EQ(set.lessons[0].retention, (Retention{7, "", 4}));
  EXPECT_EQ(set.lessons[1], (SetEntry{"seat-the-implant", "", Opens::kAfterFinished, 0, {}}));
  const auto again = read_set(write_set(set), "again");
  ASSERT_TRUE(again.value.has_value()) << again.first_error();
  EXPECT_EQ(again.value->lessons, set.lessons);
  EXPECT_EQ(again.value->seed, set.seed);
}

TEST(LessonSet, SaysWhatDoesNotFitALesson) {
  const Lesson lesson = lesson_of("find-the-centre.lesson.json");
  SetEntry entry = shipped_set().lessons.at(0);
  entry.sha256 = lesson.sha256;
  EXPECT_TRUE(misfits(entry, lesson).empty());
  entry.sha256 = base::sha256_hex("another revision");
  entry.retention = Retention{7, "no-such-block", 4};
  EXPECT_EQ(misfits(entry, lesson).size(), 2U);
  entry.lesson_id = "another";
  EXPECT_EQ(misfits(entry, lesson).size(), 3U);
}

TEST(LessonSet, OneSeedGivesTheWholeClassTheSameChallenges) {
  LessonSet set = shipped_set();
  Lesson lesson;
  lesson.seed = 5;
  std::set<std::uint64_t> seeds;
  for (int i = 0; i < 100; ++i) {
    lesson.id = "lesson-" + std::to_string(i);
    const std::uint64_t seed = seed_in_set(set, lesson);
    EXPECT_EQ(seed, seed_in_set(set, lesson));
    EXPECT_LE(seed, kMaxSeed);
    seeds.insert(seed);
  }
  EXPECT_EQ(seeds.size(), 100U) << "every lesson its own";
  const std::uint64_t before = seed_in_set(set, lesson);
  set.lessons.erase(set.lessons.begin());
  EXPECT_EQ(seed_in_set(set, lesson), before) << "other lessons do not matter";
  set.seed = *set.seed + 1;
  EXPECT_NE(seed_in_set(set, lesson), before);
  set.seed.reset();
  EXPECT_EQ(seed_in_set(set, lesson), lesson.seed);
}

// Cut at any byte, a set never reads and never ends the program.
TEST(LessonSet, EveryTruncationIsRefused) {
  const std::string text = shipped_text();
  for (std::size_t length = 0; length <= text.rfind('}'); ++length) {
    ASSERT_FALSE(read_set(text.substr(0, length), "cut").value.has_value()) << length;
  }
}

}  // namespace
}  // namespace driftbench::lesson
