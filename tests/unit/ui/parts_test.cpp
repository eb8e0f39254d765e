// Small pure parts: strings, layout of the bench, hints, look-ups, traces.
#include "example.h"

#include "lesson/instruments.h"
#include "ui/bench_layout.h"
#include "ui/hint_words.h"
#include "ui/layout.h"
#include "ui/strings.h"
#include "ui/timeline_traces.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace driftbench::ui {
namespace {

TEST(Strings, EveryTextIsThereAndItsBracesMatch) {
  for (int i = 0; i < static_cast<int>(Str::kCount); ++i) {
    const std::string_view text = tr(static_cast<Str>(i));
    EXPECT_FALSE(text.empty()) << i;
    EXPECT_EQ(std::count(text.begin(), text.end(), '{'), std::count(text.begin(), text.end(), '}'))
        << text;
  }
}

bool overlap(const Rect& a, const Rect& b) {
  return a.width > 0 && b.width > 0 && a.x < b.x + b.width - 0.01F && b.x < a.x + a.width - 0.01F &&
         a.y < b.y + b.height - 0.01F && b.y < a.y + a.height - 0.01F;
}

void expect_apart(const BenchLayout& l, const Rect& page) {
  const std::vector<Rect> all{l.top_bar, l.front, l.seating, l.side,
                              l.section, l.rack,  l.gauge,   l.bottom_line};
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_GE(all[i].x, 0.0F);
    EXPECT_LE(all[i].x + all[i].width, page.width);
    EXPECT_LE(all[i].y + all[i].height, page.height);
    for (std::size_t k = i + 1; k < all.size(); ++k) {
      EXPECT_FALSE(overlap(all[i], all[k])) << i << " and " << k << " at " << page.width;
    }
  }
}

TEST(Rows, PartsGoIntoTheNextRowWhereTheyHaveNoRoom) {
  Rect column{10, 20, 100, 200};
  Rows rows(column, 30, 4, 6);
  const Rect first = rows.next(60);
  const Rect beside = rows.next(36);
  const Rect below = rows.next(37);
  const Rect too_wide = rows.next(150);
  EXPECT_EQ(first, (Rect{10, 20, 60, 30}));
  EXPECT_EQ(beside, (Rect{74, 20, 36, 30}));
  EXPECT_EQ(below, (Rect{10, 56, 37, 30})) << "a row and a gap lower";
  EXPECT_EQ(too_wide, (Rect{10, 92, 100, 30})) << "as wide as the column";
  EXPECT_EQ(column, (Rect{10, 122, 100, 98})) << "the rows are cut off the column";
}

TEST(BenchLayout, NothingOverlapsOrLeavesThePage) {
  for (const Rect& page : {Rect{0, 0, 1440, 900}, Rect{0, 0, 1280, 720}, Rect{0, 0, 1024, 768},
                           Rect{0, 0, 1920, 1080}}) {
    for (const bool section : {false, true}) {
      for (const bool guide : {false, true}) {
        const BenchLayout l = bench_layout(page, {section, guide}, 1.0F);
        expect_apart(l, page);
        EXPECT_GE(l.front.width, 0.6F * page.width) << "the front look has about two thirds";
        EXPECT_GE(l.front.height, 0.5F * page.height);
        EXPECT_GE(l.side.height, 110.0F);
        EXPECT_EQ(l.section.height > 0.0F, section);
        EXPECT_EQ(l.seating.height > 0.0F, guide);
      }
    }
  }
}

// A window of 1440 x 900 at a zoom of 200 % (WCAG 2.2, 1.4.4).
TEST(BenchLayout, ALowPageHasBothLooksSideBySide) {
  for (const Rect& page : {Rect{0, 0, 720, 450}, Rect{0, 0, 960, 540}}) {
    for (const bool guide : {false, true}) {
      const BenchLayout l = bench_layout(page, {true, guide}, 1.0F);
      expect_apart(l, page);
      EXPECT_GE(l.side.width, 200.0F);
      EXPECT_GE(l.side.height, guide ? 140.0F : 300.0F);
      EXPECT_EQ(l.front.height, l.side.height);
      EXPECT_EQ(l.section.height, 0.0F);
    }
  }
}

TEST(BenchLayout, OnAPhoneHeldUprightRackAndWindowsTakeTurns) {
  const Rect page{0, 0, 390, 844};
  ASSERT_TRUE(has_bench_room(page, 1.0F));
  EXPECT_FALSE(has_bench_room({0, 0, 844, 390}, 1.0F));
  for (const bool guide : {false, true}) {
    for (const bool rack : {false, true}) {
      const BenchLayout l = bench_layout(page, {true, guide, true, false, rack}, 1.0F);
      expect_apart(l, page);
      EXPECT_TRUE(l.is_upright);
      EXPECT_EQ(l.rack.height > 0.0F, rack || !guide);
      EXPECT_EQ(l.seating.height > 0.0F, guide && !rack);
      EXPECT_GE(l.front.height, 170.0F);
      EXPECT_GE(l.lean.height, 44.0F);
    }
  }
}

TEST(HintLine, SaysTheNextStepWithItsKey) {
  session::SessionView view;
  view.hint = session::Hint::kTakeDrill;
  HintLine line = hint_line(view);
  EXPECT_EQ(line.now, "Your hand is empty.");
  EXPECT_EQ(line.key, "1–6");
  view.drill_index = 1;
  view.hint = session::Hint::kStartMotor;
  line = hint_line(view);
  EXPECT_EQ(line.key, "Space");
  EXPECT_NE(line.now.find("moves the tip"), std::string::npos);
  view.load.in_contact = true;
  view.is_out = false;
  EXPECT_NE(hint_line(view).now.find("leans"), std::string::npos);
  EXPECT_NE(hint_line(view, {.is_pressing = true}).now.find("press"), std::string::npos);
}

TEST(HintLine, TellsAFingerNothingOfKeysAndButtons) {
  session::SessionView view;
  view.drill_index = 1;
  view.is_out = true;
  for (int i = 0; i <= static_cast<int>(session::Hint::kReleaseImplant); ++i) {
    view.hint = static_cast<session::Hint>(i);
    for (const bool pressing : {false, true}) {
      const HintLine line = hint_line(view, {Steering::kTouch, pressing});
      EXPECT_TRUE(line.key.empty()) << line.next;
      for (const std::string_view word : {"button", "heel", "Shift", " X "}) {
        EXPECT_EQ((line.now + " " + line.next).find(word), std::string::npos) << line.next;
      }
    }
  }
}

TEST(HintLine, AsksForTheLengthOfAGuidedDrillBeforeAnythingElse) {
  session::SessionView view;
  view.hint = session::Hint::kTakeDrill;
  EXPECT_EQ(hint_line(view, {.is_choosing_length = true}).next,
            "Choose its length below the rack.");
  EXPECT_NE(hint_line(view).next, hint_line(view, {.is_choosing_length = true}).next);
}

TEST(HintLine, NothingHasToBeHeldStepByStep) {
  session::SessionView view;
  view.drill_index = 1;
  view.is_out = true;
  for (int i = 0; i <= static_cast<int>(session::Hint::kReleaseImplant); ++i) {
    view.hint = static_cast<session::Hint>(i);
    for (const Steering steering : {Steering::kSteps, Steering::kStepsLean}) {
      const HintLine line = hint_line(view, {steering});
      for (const std::string_view word : {"left button", "right button", "hold", "Hold X"}) {
        EXPECT_EQ((line.now + " " + line.next).find(word), std::string::npos) << line.next;
      }
    }
  }
  EXPECT_NE(hint_line(view, {Steering::kSteps}).now, hint_line(view, {Steering::kStepsLean}).now);
}

TEST(HintLine, EveryHintHasASentenceWithoutFigures) {
  session::SessionView view;
  for (int i = 0; i <= static_cast<int>(session::Hint::kReleaseImplant); ++i) {
    view.hint = static_cast<session::Hint>(i);
    const std::string next = hint_line(view).next;
    EXPECT_FALSE(next.empty());
    EXPECT_TRUE(std::none_of(next.begin(), next.end(), [](char c) { return c >= '0' && c <= '9'; }))
        << next;
  }
}

TEST(ProbeWords, NameTheMissingWall) {
  session::SessionView view;
  EXPECT_EQ(probe_words(view), "");
  view.probe = session::ProbeReading{9.6, {true, true, true, true}};
  EXPECT_EQ(probe_words(view), "Probe: floor nearest the 10 mm line, four walls sounded.");
  view.probe = session::ProbeReading{8.2, {false, true, true, false}};
  EXPECT_EQ(probe_words(view), "Probe: floor nearest the 8 mm line, no wall found: Right, Near.");
}

TEST(Guided, PilotGuidesOnlyTheFirstDrill) {
  const ui_test::Example example = ui_test::make_example();
  const std::int32_t first = drill_index_of(example.sleeve, "twist-20");
  const std::int32_t second = drill_index_of(example.sleeve, "twist-27");
  ASSERT_GE(first, 0);
  EXPECT_TRUE(is_guided(example.sleeve, first));
  EXPECT_TRUE(is_guided(example.sleeve, second));
  EXPECT_FALSE(is_guided(example.freehand, first));
  lesson::AttemptSetup pilot = example.sleeve;
  pilot.approach = specimen::Approach::kPilot;
  EXPECT_TRUE(is_guided(pilot, first));
  EXPECT_FALSE(is_guided(pilot, second));
  EXPECT_EQ(drill_index_of(example.sleeve, "no such drill"), -1);
  EXPECT_DOUBLE_EQ(last_drill_mm(example.sleeve), 4.0);
}

TEST(Guided, EveryPlannedDrillHasItsKey) {
  const ui_test::Example example = ui_test::make_example();
  for (const std::string& id : example.sleeve.plan.drill_ids) {
    const std::int32_t drill = drill_index_of(example.sleeve, id);
    const std::int32_t key = key_index_of(example.sleeve, drill);
    ASSERT_GE(key, 0) << id;
    EXPECT_EQ(example.sleeve.kit.keys[static_cast<std::size_t>(key)].drill_id, id);
  }
  EXPECT_EQ(key_index_of(example.sleeve, -1), -1);
}

TEST(Traces, DepthIsThatOfTheFullDiameter) {
  const ui_test::Example example = ui_test::make_example();
  drilling::LoadSample sample;
  sample.drill_index = drill_index_of(example.freehand, "twist-20");
  sample.pose.tip_mm = {0.0, 0.0, -5.6};
  EXPECT_NEAR(trace_value(TraceKind::kDepth, sample, example.freehand), 5.0, 1e-12);
  sample.side_force_n = {3.0, 4.0, 0.0};
  EXPECT_NEAR(trace_value(TraceKind::kSide, sample, example.freehand), 5.0, 1e-12);
}

TEST(Traces, ColumnsKeepEveryPeak) {
  const ui_test::Example example = ui_test::make_example();
  std::vector<drilling::LoadSample> samples(1000);
  for (std::size_t i = 0; i < samples.size(); ++i) {
    samples[i].step = static_cast<std::int64_t>(i) * 10;
    samples[i].press_n = i == 437 ? 30.0 : 1.0;
  }
  const auto columns = trace_columns(TraceKind::kPress, samples, example.freehand, 9990, 50);
  double highest = 0.0;
  for (const TraceColumn& column : columns) {
    EXPECT_TRUE(column.filled);
    highest = std::max(highest, column.high);
  }
  EXPECT_DOUBLE_EQ(highest, 30.0);
  EXPECT_DOUBLE_EQ(columns[21].high, 30.0);
}

TEST(Traces, StretchesFollowTheDrillInHand) {
  std::vector<drilling::LoadSample> samples(6);
  const std::array<std::int32_t, 6> drills{-1, 1, 1, 2, 2, 1};
  for (std::size_t i = 0; i < samples.size(); ++i) {
    samples[i].step = static_cast<std::int64_t>(i) * 10;
    samples[i].drill_index = drills[i];
  }
  const auto stretches = drill_stretches(samples);
  ASSERT_EQ(stretches.size(), 3U);
  EXPECT_EQ(stretches[0].drill_index, 1);
  EXPECT_EQ(stretches[0].to_step, 20);
  EXPECT_EQ(stretches[2].from_step, 50);
}

TEST(Traces, TicksAreFewAndRound) {
  for (const double total : {0.5, 3.0, 9.4, 21.0, 65.0, 130.0, 900.0}) {
    const double tick = tick_seconds(total);
    EXPECT_LE(total / tick, 10.0) << total;
    EXPECT_GE(total / tick, 2.0) << total;
  }
}

}  // namespace
}  // namespace driftbench::ui
