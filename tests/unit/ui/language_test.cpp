// The language of the screen: texts by name, the phrase book, decimal signs, and wrong files.
#include "ui/language.h"

#include "base/json_writer.h"
#include "ui/strings.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace driftbench::ui {
namespace {

const std::vector<std::string>& names() {
  static const std::vector<std::string> kNames{
#define DRIFTBENCH_STRING(name, english) #name,
#include "ui/strings_en.inc"
#undef DRIFTBENCH_STRING
  };
  return kNames;
}

std::uint32_t hash_of_all() {
  std::string all;
  for (const std::string& name : names()) {
    all += name + "\n";
  }
  return hash_of_names(all);
}

// A language file as src/languages.mjs makes it, with one own text and a few phrases.
std::string texts(std::uint32_t hash, const std::string& own_finish) {
  base::JsonWriter out(base::JsonLayout::kCompact);
  out.begin_object().field("format", "driftbench-texts").field("version", 1);
  out.field("language", "xx").field("decimal", ",");
  out.key("names").begin_object().field("ui", static_cast<std::int64_t>(hash)).end_object();
  out.key("ui").begin_array();
  for (const std::string& name : names()) {
    out.value(name == "kFinish"    ? std::string_view(own_finish)
              : name == "kTooDeep" ? std::string_view("zu tief: {0} mm")
                                   : std::string_view());
  }
  out.end_array().key("phrases").begin_object();
  out.field("{}: found {}, expected {}", "{}: gefunden: {}, erwartet: {}");
  out.field("The {} is {} mm long.", "{1} mm lang: {0}.");
  out.field("{} to {}", "{} bis {}").field("drill", "Bohrer").field("All is well.", "Alles gut.");
  out.end_object().end_object();
  return out.take();
}

class Languages : public ::testing::Test {
 protected:
  ~Languages() override { set_language({}); }
};

TEST_F(Languages, OwnTextsStandInPlaceOfTheEnglishOnes) {
  ASSERT_TRUE(set_language(texts(hash_of_all(), "Fertig")));
  EXPECT_EQ(language(), "xx");
  EXPECT_EQ(tr(Str::kFinish), "Fertig");
  EXPECT_EQ(say(Str::kTooDeep, "0.4"), "zu tief: 0,4 mm");
}

TEST_F(Languages, AMissingTextIsSaidInEnglish) {
  ASSERT_TRUE(set_language(texts(hash_of_all(), "Fertig")));
  EXPECT_EQ(tr(Str::kMotor), "Motor");
  EXPECT_EQ(say(Str::kTooShallow, "0.4"), "0,4 mm too shallow");
}

TEST_F(Languages, TextsOfOtherNamesAreNotTaken) {
  ASSERT_TRUE(set_language(texts(hash_of_all() + 1, "Fertig")));
  EXPECT_EQ(tr(Str::kFinish), "Finish");
}

TEST_F(Languages, WhatIsNoLanguageFileLeavesEnglish) {
  for (const char* wrong : {"{", "[]", "{\"format\": \"driftbench-lesson\"}", "12"}) {
    set_language(texts(hash_of_all(), "Fertig"));
    EXPECT_FALSE(set_language(wrong)) << wrong;
    EXPECT_EQ(language(), "en") << wrong;
    EXPECT_EQ(tr(Str::kFinish), "Finish") << wrong;
  }
}

TEST_F(Languages, DecimalsAreThoseOfTheLanguage) {
  EXPECT_EQ(figure(-0.5, 1), "-0.5");
  set_language(texts(hash_of_all(), "Fertig"));
  EXPECT_EQ(figure(-0.5, 1), "-0,5");
  EXPECT_EQ(figure(3.0, 0), "3");
  EXPECT_EQ(in_language("x 1.5"), "x 1.5") << "only a text that is a number";
}

TEST_F(Languages, WhatTheCoreSaidIsFoundByItsPattern) {
  EXPECT_EQ(in_language("The drill is 2.5 mm long."), "The drill is 2.5 mm long.");
  set_language(texts(hash_of_all(), "Fertig"));
  EXPECT_EQ(in_language("drill"), "Bohrer");
  EXPECT_EQ(in_language("The drill is 2.5 mm long."), "2,5 mm lang: Bohrer.");
  EXPECT_EQ(in_language("a.json:1:2: b: found 3.5, expected 1 to 2.5"),
            "a.json:1:2: b: gefunden: 3,5, erwartet: 1 bis 2,5");
  EXPECT_EQ(in_language("All is well. The drill is 2 mm long."), "Alles gut. 2 mm lang: Bohrer.");
  EXPECT_EQ(in_language("unknown"), "unknown");
}

TEST_F(Languages, APatternOfFewLettersNeedsNumbers) {
  set_language(texts(hash_of_all(), "Fertig"));
  EXPECT_EQ(in_language("1 to 3"), "1 bis 3");
  EXPECT_EQ(in_language("Listen to your hand"), "Listen to your hand");
}

TEST_F(Languages, ATextOfAFileIsSaidInItsOwnWordsFirst) {
  const lesson::LocalText both{{"en", "drill"}, {"xx", "Bohrwerkzeug"}};
  EXPECT_EQ(in_language(both), "drill");
  set_language(texts(hash_of_all(), "Fertig"));
  EXPECT_EQ(in_language(both), "Bohrwerkzeug");
  EXPECT_EQ(in_language(lesson::LocalText{{"en", "drill"}}), "Bohrer");
  EXPECT_EQ(in_language(lesson::LocalText{{"en", "Own title"}}), "Own title");
}

TEST_F(Languages, AFieldWithoutAValueStaysAsItIs) {
  const std::string wanted = fill_in("{1} {0} {} {7} {", fmt::make_format_args("a", 5));
  EXPECT_EQ(wanted, "5 a a {7} {");
}

TEST_F(Languages, TheSwitchGoesRoundAllOfThem) {
  EXPECT_EQ(next_language().code, kLanguages[1].code);
  EXPECT_TRUE(has_language("de"));
  EXPECT_FALSE(has_language("xx"));
  set_language(texts(hash_of_all(), "Fertig"));
  EXPECT_TRUE(has_language("xx")) << "the one in use is there";
  EXPECT_EQ(next_language().code, "en");
}

}  // namespace
}  // namespace driftbench::ui
