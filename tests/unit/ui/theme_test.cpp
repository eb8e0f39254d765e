#include "ui/theme.h"

#include <gtest/gtest.h>

#include <array>
#include <string>
#include <vector>

namespace driftbench::ui {
namespace {

constexpr std::array kThemes{Theme::kDark, Theme::kLight, Theme::kProjector};

struct Pair {
  std::string name;
  Rgb front;
  Rgb back;
};

// Source of the limits: WCAG 2.2, 1.4.3 (text 4.5:1) and 1.4.11 (marks and controls 3:1).
constexpr double kText = 4.5;
constexpr double kMark = 3.0;

std::vector<Pair> text_pairs(const Palette& c) {
  std::vector<Pair> pairs;
  for (const auto& [name, back] :
       {std::pair{"page", c.page}, std::pair{"surface", c.surface}, std::pair{"raised", c.raised},
        std::pair{"raised hover", c.raised_hover}}) {
    pairs.push_back({std::string("text on ") + name, c.text, back});
    pairs.push_back({std::string("muted on ") + name, c.muted, back});
    pairs.push_back({std::string("danger on ") + name, c.danger, back});
    pairs.push_back({std::string("good on ") + name, c.good, back});
    pairs.push_back({std::string("warn on ") + name, c.warn, back});
  }
  pairs.push_back({"on accent", c.on_accent, c.accent});
  pairs.push_back({"on accent hover", c.on_accent, c.accent_hover});
  pairs.push_back({"tooltip", c.page, c.text});
  pairs.push_back({"accent words", c.accent, c.raised});
  return pairs;
}

std::vector<Pair> mark_pairs(const Palette& c) {
  std::vector<Pair> pairs;
  for (const auto& [name, back] : {std::pair{"page", c.page}, std::pair{"surface", c.surface},
                                   std::pair{"raised", c.raised}}) {
    pairs.push_back({std::string("outline on ") + name, c.outline, back});
    pairs.push_back({std::string("focus on ") + name, c.focus, back});
    pairs.push_back({std::string("accent on ") + name, c.accent, back});
    pairs.push_back({std::string("press on ") + name, c.press, back});
    pairs.push_back({std::string("depth on ") + name, c.depth, back});
    pairs.push_back({std::string("side on ") + name, c.side, back});
    // Marks carry a white and a black ring: one of both always stands out.
    const double ring = std::max(contrast(kWhite, back), contrast(kBlack, back));
    pairs.push_back({std::string("mark ring on ") + name,
                     ring == contrast(kWhite, back) ? kWhite : kBlack, back});
  }
  pairs.push_back({"steel on surface", c.steel, c.surface});
  return pairs;
}

TEST(Theme, ContrastOfBlackOnWhiteIs21) {
  EXPECT_NEAR(contrast(kBlack, kWhite), 21.0, 1e-9);
  EXPECT_NEAR(contrast(kWhite, kWhite), 1.0, 1e-12);
  // #767676 on white is the well-known darkest-allowed grey, 4.54:1.
  EXPECT_NEAR(contrast({0x76, 0x76, 0x76}, kWhite), 4.54, 0.005);
}

TEST(Theme, TextIsReadableInEveryTheme) {
  for (const Theme theme : kThemes) {
    for (const Pair& pair : text_pairs(palette(theme))) {
      EXPECT_GE(contrast(pair.front, pair.back), kText) << pair.name << ", " << code_of(theme);
    }
  }
}

TEST(Theme, MarksAndControlsStandOutInEveryTheme) {
  for (const Theme theme : kThemes) {
    for (const Pair& pair : mark_pairs(palette(theme))) {
      EXPECT_GE(contrast(pair.front, pair.back), kMark) << pair.name << ", " << code_of(theme);
    }
  }
}

// Enhanced contrast of text: WCAG 2.2, 1.4.6 (7:1).
TEST(Theme, TheProjectorIsStarkerAndLarger) {
  for (const Pair& pair : text_pairs(palette(Theme::kProjector))) {
    EXPECT_GE(contrast(pair.front, pair.back), 7.0) << pair.name;
  }
  EXPECT_GT(scale_of(Theme::kProjector), scale_of(Theme::kLight));
}

TEST(Theme, TheNextThemesComeRoundAndKeepTheirCodes) {
  Theme theme = Theme::kDark;
  for (const Theme expected : kThemes) {
    EXPECT_EQ(theme, expected);
    EXPECT_EQ(theme_of(code_of(theme)), expected);
    theme = next_theme(theme);
  }
  EXPECT_EQ(theme, Theme::kDark);
  EXPECT_FALSE(theme_of("bright").has_value());
}

TEST(Theme, TechniqueMarksKeepTheirColours) {
  EXPECT_EQ(kFreehandMark, (Rgb{0xE6, 0x9F, 0x00}));
  EXPECT_EQ(kSleeveMark, (Rgb{0x7B, 0x32, 0x94}));
}

}  // namespace
}  // namespace driftbench::ui
