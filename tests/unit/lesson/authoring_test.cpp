// The Lesson desk's look at a text: the reader's findings, what the text names, and the text as we
// write it.
#include "lesson/authoring.h"

#include "support/edit_text.h"
#include "support/read_file.h"

#include "base/json.h"
#include "base/sha256.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <string>

namespace driftbench::lesson {
namespace {

constexpr const char* kLesson = "lessons/templates/free-hand-drill.lesson.json";
constexpr const char* kJawLesson = "lessons/near-the-canal.lesson.json";

std::vector<std::string> files_in(const std::string& folder, std::string_view ending) {
  std::vector<std::string> files;
  const std::filesystem::path root(DRIFTBENCH_SOURCE_DIR);
  for (const auto& entry : std::filesystem::directory_iterator(root / folder)) {
    if (entry.path().filename().string().ends_with(ending)) {
      files.push_back(folder + "/" + entry.path().filename().string());
    }
  }
  return files;
}

void take_all(Authoring& authoring, const std::string& folder, std::string_view ending) {
  for (const std::string& file : files_in(folder, ending)) {
    const AuthoredText about = authoring.take(support::read_file(file), file);
    EXPECT_TRUE(about.is_good()) << file << ": " << about.problems.front().sentence(file);
  }
}

Authoring with_instruments() {
  Authoring authoring;
  take_all(authoring, "assets/kits", ".kit.json");
  take_all(authoring, "assets/specimens", ".specimen.json");
  return authoring;
}

TEST(Authoring, ShippedLessonsAndTemplatesAreGoodAndOurLayoutStaysByteForByte) {
  Authoring authoring = with_instruments();
  for (const char* folder : {"lessons", "lessons/templates"}) {
    const auto files = files_in(folder, ".lesson.json");
    EXPECT_GE(files.size(), 4U);
    for (const std::string& file : files) {
      const std::string text = support::read_file(file);
      const AuthoredText about = authoring.take(text, file);
      EXPECT_TRUE(about.problems.empty()) << about.problems.front().sentence(file);
      EXPECT_EQ(about.kind, "lesson");
      EXPECT_EQ(about.sha256, base::sha256_hex(about.canonical));
      EXPECT_EQ(authoring.take(about.canonical, file).canonical, about.canonical) << file;
      if (std::string_view(folder) == "lessons/templates") {
        EXPECT_EQ(about.canonical, text) << file;
      }
    }
  }
  take_all(authoring, "lessons", ".set.json");
}

TEST(Authoring, AnotherLayoutIsWrittenInOurs) {
  Authoring authoring = with_instruments();
  const std::string text = support::read_file(kLesson);
  std::string flat;
  for (const char c : text) {
    flat += c == '\n' ? ' ' : c;
  }
  EXPECT_EQ(authoring.take(flat, kLesson).canonical, text);
}

TEST(Authoring, EveryFindingHasItsPlace) {
  Authoring authoring = with_instruments();
  const std::string text =
      support::with(support::read_file(kLesson), "\"minutes\": ", "\"minutes\": 1");
  const AuthoredText about = authoring.take(
      support::with(text, "\"depth_mm\": 10", "\"depth_mm\": 99"), "mine.lesson.json");
  ASSERT_FALSE(about.is_good());
  EXPECT_EQ(about.canonical, "");
  EXPECT_EQ(about.problems.back().path, "blocks[0].plan.depth_mm");
  EXPECT_GT(about.problems.back().line, 1);
  EXPECT_GT(about.problems.back().column, 1);
}

TEST(Authoring, InstrumentsThatTheKitLacksAreFoundAtTheirBlock) {
  Authoring authoring = with_instruments();
  const AuthoredText about = authoring.take(
      support::with(support::read_file(kLesson), "\"twist-20\"", "\"twist-21\""), kLesson);
  ASSERT_EQ(about.problems.size(), 1U);
  EXPECT_EQ(about.problems[0].path, "blocks[0]");
  EXPECT_GT(about.problems[0].line, 1);
  EXPECT_NE(about.problems[0].found.find("twist-21"), std::string::npos);
  EXPECT_NE(about.canonical, "") << "it can be read all the same";
}

TEST(Authoring, AKitOrAPieceOfJawThatIsNotThereIsNamed) {
  Authoring nothing_known;
  const AuthoredText lacks_kit = nothing_known.take(support::read_file(kLesson), kLesson);
  ASSERT_EQ(lacks_kit.problems.size(), 1U);
  EXPECT_EQ(lacks_kit.problems[0].path, "kit");
  Authoring without_jaws;
  take_all(without_jaws, "assets/kits", ".kit.json");
  const AuthoredText lacks_jaw = without_jaws.take(support::read_file(kJawLesson), kJawLesson);
  ASSERT_EQ(lacks_jaw.problems.size(), 2U) << "one for each block";
  EXPECT_EQ(lacks_jaw.problems[1].path, "blocks[1]");
}

TEST(Authoring, APlanThatLeavesTheBoneIsFoundAtItsBlock) {
  Authoring authoring = with_instruments();
  const AuthoredText about = authoring.take(
      support::with(support::read_file(kJawLesson), "\"depth_mm\": 7", "\"depth_mm\": 20"),
      kJawLesson);
  ASSERT_FALSE(about.is_good());
  EXPECT_EQ(about.problems[0].path, "blocks[0]");
}

TEST(Authoring, ASetIsHeldAgainstTheLessonsTakenBefore) {
  const std::string file = "lessons/guided-work.set.json";
  const std::string text = support::read_file(file);
  Authoring authoring = with_instruments();
  const AuthoredText alone = authoring.take(text, file);
  ASSERT_EQ(alone.problems.size(), 5U);
  EXPECT_EQ(alone.problems[4].path, "lessons[4]");
  EXPECT_GT(alone.problems[4].line, alone.problems[0].line);
  take_all(authoring, "lessons", ".lesson.json");
  EXPECT_TRUE(authoring.take(text, file).problems.empty());
  EXPECT_EQ(authoring.take(text, file).canonical, text);
  const AuthoredText pinned =
      authoring.take(support::with(text, "\"drill-length-arithmetic.lesson.json\",",
                                   "\"drill-length-arithmetic.lesson.json\", \"sha256\": \"" +
                                       std::string(64, '0') + "\","),
                     file);
  ASSERT_EQ(pinned.problems.size(), 1U);
  EXPECT_EQ(pinned.problems[0].path, "lessons[0]");
}

TEST(Authoring, OtherTextsAreRefusedWithOneSentence) {
  Authoring authoring;
  for (const char* text : {"", "no JSON", "{}", "{\"format\": 3}", "[1]",
                           "{\"format\": \"driftbench-attempt\", \"version\": 1}"}) {
    const AuthoredText about = authoring.take(text, "x.json");
    EXPECT_EQ(about.problems.size(), 1U) << text;
    EXPECT_FALSE(about.is_good()) << text;
    EXPECT_EQ(about.kind, "") << text;
  }
}

TEST(Authoring, TheAnswerIsJsonWithEveryFinding) {
  Authoring authoring = with_instruments();
  const std::string text = support::read_file(kLesson);
  const auto good = base::read_json(write_authored(authoring.take(text, kLesson)));
  ASSERT_TRUE(good.has_value());
  EXPECT_EQ(good->find("text")->as_string(), text);
  EXPECT_EQ(good->find("id")->as_string(), "free-hand-drill");
  const auto bad = base::read_json(write_authored(authoring.take("{}", "\"quoted\".json")));
  ASSERT_TRUE(bad.has_value());
  EXPECT_TRUE(bad->find("text")->is_null());
  EXPECT_TRUE(bad->find("problems")->items()[0].find("is_error")->as_bool());
}

}  // namespace
}  // namespace driftbench::lesson
