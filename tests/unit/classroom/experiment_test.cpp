// Planned experiments: balanced draws, files that cannot be edited unseen, and what a class made of
// the plan.
#include "classroom/experiment.h"

#include "support/corpus.h"

#include "base/json.h"
#include "classroom/compile.h"
#include "classroom/course_requests.h"
#include "classroom/report.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>

namespace driftbench::classroom {
namespace {

using stats::Approach;

ExperimentDesign design_of(std::size_t units, std::size_t holes, OrderScheme scheme,
                           std::uint64_t seed = 7) {
  ExperimentDesign design;
  design.units = units;
  design.holes_each = holes;
  design.scheme = scheme;
  design.seed = seed;
  return design;
}

std::size_t freehand_first(const Experiment& experiment) {
  return static_cast<std::size_t>(std::count_if(
      experiment.places.begin(), experiment.places.end(),
      [](const ExperimentPlace& place) { return place.order.front() == Approach::kFreehand; }));
}

TEST(Allocation, BothOrdersAreAsFrequentAsTheNumberAllows) {
  for (std::uint64_t seed = 0; seed < 60; ++seed) {
    for (const std::size_t units : {2U, 3U, 7U, 12U, 14U, 25U}) {
      for (const OrderScheme scheme : {OrderScheme::kSwitchOnce, OrderScheme::kMixed}) {
        const Experiment drawn = allocate(design_of(units, 3, scheme, seed)).value();
        ASSERT_EQ(drawn.places.size(), units);
        const auto first = static_cast<int>(freehand_first(drawn));
        EXPECT_LE(std::abs(2 * first - static_cast<int>(units)), 1) << units << " seed " << seed;
      }
    }
  }
}

TEST(Allocation, EveryoneDrillsAsOftenByEitherTechnique) {
  for (const std::size_t holes : {1U, 2U, 5U, 8U}) {
    for (const OrderScheme scheme : {OrderScheme::kSwitchOnce, OrderScheme::kMixed}) {
      const Experiment drawn = allocate(design_of(9, holes, scheme)).value();
      for (const ExperimentPlace& place : drawn.places) {
        EXPECT_EQ(place.order.size(), 2 * holes);
        EXPECT_EQ(std::count(place.order.begin(), place.order.end(), Approach::kSleeve),
                  static_cast<std::ptrdiff_t>(holes));
      }
    }
  }
  ExperimentDesign one = design_of(28, 1, OrderScheme::kSwitchOnce);
  one.kind = ExperimentKind::kOneOperator;
  const Experiment pairs = allocate(one).value();
  ASSERT_EQ(pairs.places.size(), 1U);
  for (std::size_t i = 0; i < pairs.places[0].order.size(); i += 2) {
    EXPECT_NE(pairs.places[0].order[i], pairs.places[0].order[i + 1]) << "pair " << i / 2;
  }
}

TEST(Allocation, MixedOrdersNeverLetOneTechniqueRunAhead) {
  const Experiment drawn = allocate(design_of(20, 10, OrderScheme::kMixed)).value();
  for (const ExperimentPlace& place : drawn.places) {
    int ahead = 0;
    for (const Approach one : place.order) {
      ahead += one == Approach::kFreehand ? 1 : -1;
      EXPECT_LE(std::abs(ahead), 1);
    }
  }
}

TEST(Allocation, TheSeedDecidesAndNothingElse) {
  const auto orders = [](std::uint64_t seed) {
    return allocate(design_of(16, 3, OrderScheme::kMixed, seed)).value().places;
  };
  EXPECT_EQ(orders(5), orders(5));
  EXPECT_NE(orders(5), orders(6));
  ExperimentDesign other = design_of(16, 3, OrderScheme::kMixed, 5);
  other.difference_mm = 0.9;
  other.title = "Another name";
  EXPECT_EQ(allocate(other).value().places, orders(5));
}

TEST(Allocation, FirstPlacesAreDrawnEvenly) {
  // Of 2,000 seeds about half begin free-hand: binomial, 5 standard deviations are 112.
  int first = 0;
  for (std::uint64_t seed = 0; seed < 2000; ++seed) {
    const Experiment drawn = allocate(design_of(6, 1, OrderScheme::kSwitchOnce, seed)).value();
    first += drawn.places.front().order.front() == Approach::kFreehand ? 1 : 0;
  }
  EXPECT_NEAR(first, 1000, 112);
}

TEST(Allocation, LimitsAreStated) {
  EXPECT_FALSE(allocate(design_of(1, 3, OrderScheme::kMixed)).has_value());
  EXPECT_FALSE(allocate(design_of(kMaxPlaces + 1, 3, OrderScheme::kMixed)).has_value());
  EXPECT_NE(allocate(design_of(6, 0, OrderScheme::kMixed)).error().message.find("found 0 holes"),
            std::string::npos);
}

TEST(ExperimentSize, GrowsWithSpreadAndShrinksWithHoles) {
  ExperimentDesign design;
  std::size_t before = 1000;
  for (const std::size_t holes : {1U, 2U, 4U, 8U, 16U}) {
    design.holes_each = holes;
    const std::size_t needed = experiment_size(design).needed.value().exact;
    EXPECT_LE(needed, before);
    before = needed;
  }
  // More holes never get below what the differences between people ask for.
  design.holes_each = kMaxHolesEach;
  ExperimentDesign no_holes = design;
  no_holes.sd_freehand_mm = no_holes.sd_sleeve_mm = 1e-3;
  EXPECT_GE(experiment_size(design).needed->exact, experiment_size(no_holes).needed->exact);
}

TEST(ExperimentSize, TheDetectableDifferenceHasThePowerAsked) {
  for (const std::size_t units : {2U, 5U, 12U, 40U}) {
    ExperimentDesign design;
    design.units = units;
    const ExperimentSize size = experiment_size(design);
    EXPECT_NEAR(stats::paired_power(units, size.detectable_mm.value(), size.sd_difference_mm, 0.05),
                0.80, 1e-6)
        << units;  // the bisection ends below 1e-12 mm; power changes by less than 3 per mm here
  }
}

TEST(ExperimentFile, ReadsBackAsItWasWritten) {
  Experiment experiment = allocate(design_of(5, 2, OrderScheme::kMixed, 123456789)).value();
  experiment.design.title = "Monday \"A\"";
  experiment.places[2].code = "amber-heron";
  const std::string text = write_experiment(experiment);
  const auto read = read_experiment(text, "a.experiment.json");
  ASSERT_TRUE(read.value.has_value()) << read.first_error();
  EXPECT_TRUE(read.problems.empty());
  EXPECT_EQ(read.value->design, experiment.design);
  EXPECT_EQ(read.value->places, experiment.places);
  EXPECT_EQ(write_experiment(*read.value), text);
}

TEST(ExperimentFile, EveryBadFileGivesItsSentence) {
  const auto cases = support::corpus("experiment");
  EXPECT_GE(cases.size(), 14U);
  for (const support::CorpusCase& bad : cases) {
    const auto read =
        read_experiment(support::read_file("tests/corpus/experiment/" + bad.file), bad.file);
    EXPECT_EQ(read.first_error(), bad.sentence);
    EXPECT_FALSE(read.value.has_value());
  }
}

std::string changed(std::string text, std::string_view from, std::string_view to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

TEST(ExperimentFile, AnOrderThatWasNotDrawnIsRefused) {
  const std::string text =
      write_experiment(allocate(design_of(4, 1, OrderScheme::kSwitchOnce)).value());
  const auto error = [](const std::string& spoiled) {
    return read_experiment(spoiled, "a.experiment.json").first_error();
  };
  EXPECT_NE(error(changed(text, "[\"freehand\", \"sleeve\"]", "[\"sleeve\", \"freehand\"]"))
                .find("expected the order that the seed 7 gives"),
            std::string::npos);
  EXPECT_NE(error(changed(text, "\"seed\": 7", "\"seed\": 8")), "");
  EXPECT_NE(error(changed(text, "\"units\": 4", "\"units\": 6")).find("found 4 places"),
            std::string::npos);
  std::string twice = changed(text, "\"code\": null", "\"code\": \"x\"");
  twice = changed(twice, "\"code\": null", "\"code\": \"x\"");
  EXPECT_NE(error(twice).find("the code \"x\" at the places 1 and 2"), std::string::npos);
}

/// A class as the plan says, one difference per learner: free-hand 1 mm off, sleeve 0.3 mm.
std::string rows_of(const Experiment& experiment) {
  std::string rows = "operator,approach,entry_md_mm,entry_bl_mm,depth_mm,period,source\n";
  int number = 0;
  for (const ExperimentPlace& place : experiment.places) {
    int period = 0;
    ++number;
    for (const Approach one : place.order) {
      rows += fmt::format("{},{},{},0,0.1,{},simulated\n", place.code,
                          stats::kApproachNames[static_cast<std::size_t>(one)],
                          (one == Approach::kFreehand ? 1.0 : 0.3) + 0.01 * number, ++period);
    }
  }
  return rows;
}

Experiment named(const ExperimentDesign& design) {
  Experiment experiment = allocate(design).value();
  for (std::size_t i = 0; i < experiment.places.size(); ++i) {
    experiment.places[i].code = fmt::format("code-{}", i + 1);
  }
  return experiment;
}

Class compiled(const Experiment& experiment, const std::string& rows,
               std::optional<Names> names = Names()) {
  Collector collector;
  collector.add(write_experiment(experiment), "plan.experiment.json");
  collector.add(rows, "holes.csv");
  return compile(collector.finish(), std::move(names));
}

TEST(ExperimentOutcome, AClassThatFollowedIsSaidToHaveFollowed) {
  const Experiment experiment = named(design_of(8, 3, OrderScheme::kSwitchOnce));
  const Class whole = compiled(experiment, rows_of(experiment));
  const ExperimentOutcome& outcome = whole.parts.at(0).experiment.value();
  EXPECT_TRUE(outcome.is_followed);
  EXPECT_EQ(outcome.count(Following::kFollowed), 8U);
  EXPECT_NE(outcome.followed.find("8 of 8 planned people followed"), std::string::npos);
  EXPECT_EQ(whole.parts[0].order, TechniqueOrder::kBoth);
  const std::string page = report_html(whole);
  EXPECT_NE(page.find("The planned experiment"), std::string::npos);
  EXPECT_NE(page.find("Drawn with the seed 7"), std::string::npos);
}

TEST(ExperimentOutcome, WhoWentAnotherWayIsCounted) {
  const Experiment experiment = named(design_of(8, 3, OrderScheme::kSwitchOnce));
  Experiment done = experiment;
  std::reverse(done.places[0].order.begin(), done.places[0].order.end());
  done.places[1].order.pop_back();
  done.places[2].order.clear();
  done.places.push_back({"somebody-else", {Approach::kFreehand, Approach::kSleeve}});
  const Class whole = compiled(experiment, rows_of(done));
  const ExperimentOutcome& outcome = whole.parts.at(0).experiment.value();
  EXPECT_FALSE(outcome.is_followed);
  EXPECT_EQ(outcome.places[0].following, Following::kOtherOrder);
  EXPECT_EQ(outcome.places[0].first_other, 1U);
  EXPECT_EQ(outcome.places[1].following, Following::kIncomplete);
  EXPECT_EQ(following_words(outcome.places[1]), "5 of 6 holes, in the drawn order");
  EXPECT_EQ(outcome.places[2].following, Following::kNotThere);
  EXPECT_EQ(outcome.not_allocated, 1U);
  EXPECT_NE(outcome.limits.front().find("drawn order was not followed"), std::string::npos);
}

TEST(ExperimentOutcome, WithoutCodeNamesNothingIsClaimed) {
  const Experiment experiment = allocate(design_of(6, 2, OrderScheme::kSwitchOnce)).value();
  const Class whole =
      compiled(experiment, rows_of(named(design_of(6, 2, OrderScheme::kSwitchOnce))));
  const ExperimentOutcome& outcome = whole.parts.at(0).experiment.value();
  EXPECT_FALSE(outcome.is_followed);
  EXPECT_EQ(outcome.count(Following::kNoCode), 6U);
  EXPECT_NE(outcome.followed.find("no code names yet"), std::string::npos);
}

TEST(ExperimentOutcome, EveryoneFreehandFirstIsSaidFirst) {
  const Experiment experiment = named(design_of(6, 2, OrderScheme::kSwitchOnce));
  Experiment done = experiment;
  for (ExperimentPlace& place : done.places) {
    place.order = {Approach::kFreehand, Approach::kFreehand, Approach::kSleeve, Approach::kSleeve};
  }
  const Class whole = compiled(experiment, rows_of(done));
  EXPECT_EQ(whole.parts.at(0).experiment->limits.front(),
            "Everyone went free-hand first: practice and technique cannot be separated.");
}

TEST(ExperimentOutcome, MixedOrdersThatWereFollowedAreNotHeldAgainstTheClass) {
  ExperimentDesign one = design_of(12, 1, OrderScheme::kMixed);
  one.kind = ExperimentKind::kOneOperator;
  const Experiment experiment = allocate(one).value();
  Experiment done = experiment;
  done.places[0].code = "amber-heron";
  std::string rows = rows_of(done);
  // The differences must scatter: one hole lies elsewhere.
  rows = changed(rows, ",1.01,0,", ",1.41,0,");
  const Class whole = compiled(experiment, rows);
  const Part& part = whole.parts.at(0);
  EXPECT_EQ(part.order, TechniqueOrder::kMixed);
  ASSERT_FALSE(part.experiment->results.empty());
  EXPECT_EQ(part.experiment->results[0].rfind("In 12 pairs of sites of one person", 0), 0U)
      << part.experiment->results[0];
  EXPECT_NE(part.experiment->results[0].find("95 % interval"), std::string::npos);
  EXPECT_NE(part.experiment->limits[0].find("this one person"), std::string::npos);
}

TEST(ExperimentOutcome, SmallGroupsStayHiddenWithoutNames) {
  const Experiment experiment = named(design_of(4, 2, OrderScheme::kSwitchOnce));
  const Class whole = compiled(experiment, rows_of(experiment), std::nullopt);
  const std::string page = report_html(whole);
  EXPECT_EQ(page.find("code-1"), std::string::npos);
  EXPECT_NE(page.find("only together with names"), std::string::npos);
}

TEST(ExperimentOutcome, ASecondPlanIsRefused) {
  Collector collector;
  collector.add(write_experiment(allocate(design_of(4, 2, OrderScheme::kMixed)).value()),
                "a.experiment.json");
  collector.add(write_experiment(allocate(design_of(6, 2, OrderScheme::kMixed)).value()),
                "b.experiment.json");
  const Roster roster = collector.finish();
  EXPECT_EQ(roster.experiment->places.size(), 4U);
  ASSERT_EQ(roster.refused.items.size(), 1U);
  EXPECT_EQ(roster.refused.items[0].rfind("b.experiment.json: found a second", 0), 0U);
}

TEST(CourseRequests, APlanAnswersWithItsFileAndNamesTheFieldThatIsWrong) {
  const std::string good = R"({"title": "T", "kind": "class", "units": 12, "holes_each": 5,
    "scheme": "switch-once", "difference_mm": 0.5, "sd_effect_mm": 0.4, "sd_freehand_mm": 0.8,
    "sd_sleeve_mm": 0.4, "power": 0.8, "seed": 7, "codes": ["a", "", "b"]})";
  const auto answer = base::read_json(answer_plan(good)).value();
  ASSERT_EQ(answer.find("error"), nullptr);
  EXPECT_EQ(answer.find("needed")->as_int64(), 13);
  const auto read = read_experiment(answer.find("file")->as_string(), "x");
  ASSERT_TRUE(read.value.has_value()) << read.first_error();
  EXPECT_EQ(read.value->places[2].code, "b");
  EXPECT_EQ(answer.find("orders")->items().size(), 12U);
  const auto wrong =
      base::read_json(answer_plan(changed(good, "\"units\": 12", "\"units\": 1"))).value();
  EXPECT_EQ(wrong.find("field")->as_string(), "units");
  EXPECT_EQ(wrong.find("error")->as_string(), "found 1, expected 2 to 500");
  const auto twice = base::read_json(answer_plan(changed(good, "\"b\"", "\"a\""))).value();
  EXPECT_EQ(twice.find("field")->as_string(), "codes");
  const auto back =
      base::read_json(answer_read_experiment(answer.find("file")->as_string(), "x")).value();
  EXPECT_EQ(back.find("holes_each")->as_int64(), 5);
  EXPECT_NE(experiment_sheet_of(answer.find("file")->as_string()).find("Place 12"),
            std::string::npos);
}

}  // namespace
}  // namespace driftbench::classroom
