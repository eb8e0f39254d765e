// The guide's findings in the briefing, and the sheet to print.
#include "example.h"
#include "page.h"
#include "support/jaw_sites.h"

#include "ui/guide_words.h"
#include "ui/site_sheet.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace driftbench::ui_test {
namespace {

ui::Model briefing(Example& example) {
  ui::Model model = example.model(ui::Screen::kBriefing, example.sleeve);
  model.room = lesson::guide_room(example.sleeve);
  return model;
}

/// The same guide over a molar site of a jaw.
void put_in_jaw(Example& example) {
  example.sleeve.specimen = support::molar_site(36);
  example.sleeve.site_name = "36";
}

std::string words_of(const Example& example, ui::Str name) {
  const auto room = lesson::guide_room(example.sleeve).value_or(lesson::GuideRoom{});
  for (const ui::GuideLine& line : ui::guide_lines(example.sleeve, room)) {
    if (line.name == name) {
      return line.words;
    }
  }
  return {};
}

bool is_trouble(const Example& example, ui::Str name) {
  const auto room = lesson::guide_room(example.sleeve).value_or(lesson::GuideRoom{});
  const auto lines = ui::guide_lines(example.sleeve, room);
  return std::any_of(lines.begin(), lines.end(), [&](const ui::GuideLine& line) {
    return line.name == name && line.is_trouble;
  });
}

TEST(GuidePanel, SaysWhatIsCheckedAndSavesTheSheet) {
  Example example = make_example();
  put_in_jaw(example);
  const ui::Model model = briefing(example);
  Page page(1440, 1600);
  static_cast<void>(page.frame(model));
  static_cast<void>(page.frame(model));
  EXPECT_NE(page.find("Support and room").label, "");
  EXPECT_NE(page.find(words_of(example, ui::Str::kRoomMouth)).label, "");
  EXPECT_EQ(of_kind<ui::SaveSiteSheet>(page.click(model, "Save the sheet to print")).size(), 1U);
}

TEST(GuidePanel, IsNotThereWithoutAGuide) {
  Example example = make_example();
  Page page(1440, 1600);
  const ui::Model model = example.model(ui::Screen::kBriefing, example.freehand);
  static_cast<void>(page.frame(model));
  static_cast<void>(page.frame(model));
  EXPECT_EQ(page.find("Save the sheet to print").label, "");
}

TEST(GuideWords, EverySupportHasItsOwnCheck) {
  Example example = make_example();
  put_in_jaw(example);
  const auto words = [&](specimen::SupportKind kind, int pins) {
    example.sleeve.guide->support = specimen::GuideSupport{kind, pins, false};
    return words_of(example, ui::Str::kRoomSupport);
  };
  EXPECT_NE(words_of(example, ui::Str::kRoomSupport).find("Four feet"), std::string::npos);
  EXPECT_NE(words(specimen::SupportKind::kTeeth, 0).find("three spread teeth"), std::string::npos);
  EXPECT_NE(words(specimen::SupportKind::kMucosa, 3).find("Pins planned: 3."), std::string::npos);
  EXPECT_NE(words(specimen::SupportKind::kBone, 0).find("raised flap"), std::string::npos);
}

TEST(GuideWords, NumbersAreThoseOfTheRoom) {
  Example example = make_example();
  put_in_jaw(example);
  const lesson::GuideRoom room = *lesson::guide_room(example.sleeve);
  EXPECT_EQ(words_of(example, ui::Str::kRoomLengths), "The kit has every length.");
  EXPECT_FALSE(is_trouble(example, ui::Str::kRoomMouth));
  example.sleeve.guide->mouth_opening_mm = room.mouth->needed_between_incisors_mm() - 5.0;
  EXPECT_NE(words_of(example, ui::Str::kRoomMouth).find(": 5.0 mm short."), std::string::npos);
  EXPECT_TRUE(is_trouble(example, ui::Str::kRoomMouth));
  example.sleeve.guide->mouth_opening_mm = room.mouth->needed_between_incisors_mm() + 2.0;
  EXPECT_NE(words_of(example, ui::Str::kRoomMouth).find(": 2.0 mm to spare."), std::string::npos);
  example.sleeve.guide->gap_mm = 3.8;
  EXPECT_NE(words_of(example, ui::Str::kRoomLengths).find("the nearest goes 0.3 mm too shallow."),
            std::string::npos);
  EXPECT_TRUE(is_trouble(example, ui::Str::kRoomLengths));
}

TEST(SiteSheet, IsAWholePageWithThePlanAndTheSums) {
  Example example = make_example();
  put_in_jaw(example);
  ui::Model model = briefing(example);
  model.sketch = specimen::sketch_of(*specimen::jaw_in(example.sleeve.specimen), {});
  const std::string html = ui::site_sheet_html(model);
  for (const char* part :
       {"<!DOCTYPE html>", "10.0 + 3.5 + 4.5 + 1.5", "= ________", "(FDI)", "offset 8.0 mm",
        "Measure it", "<svg", "Read and confirmed", "Not clinical advice", "</html>"}) {
    EXPECT_NE(html.find(part), std::string::npos) << part;
  }
  EXPECT_NE(html.find("To compare, once added up: 19.5"), std::string::npos);
  // Nothing comes from outside.
  for (const char* part : {"http:", "https:", "src=", "href=", "<script"}) {
    EXPECT_EQ(html.find(part), std::string::npos) << part;
  }
  EXPECT_EQ(ui::site_sheet_name(model), "site-sheet-36.html");
}

TEST(SiteSheet, TextsOfAFileCannotBecomeMarkup) {
  Example example = make_example();
  ui::Model model = briefing(example);
  lesson::Lesson lesson = example.lesson;
  lesson.title = {{"en", "A <b> & \"c\""}};
  model.lesson = &lesson;
  const std::string html = ui::site_sheet_html(model);
  EXPECT_NE(html.find("A &lt;b&gt; &amp; &quot;c&quot;"), std::string::npos);
  EXPECT_EQ(html.find("<b>"), std::string::npos);
}

}  // namespace
}  // namespace driftbench::ui_test
