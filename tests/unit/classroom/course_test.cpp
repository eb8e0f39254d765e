// What a learner hands in and takes away: turn-in codes, one's own result in the class band, the
// record of taking part.
#include "support/class_rig.h"

#include "base/json.h"
#include "base/random.h"
#include "classroom/class_bands.h"
#include "classroom/compile.h"
#include "classroom/course_requests.h"
#include "classroom/film.h"
#include "classroom/participation.h"
#include "classroom/summary_json.h"
#include "classroom/turn_in.h"
#include "stats/distributions.h"

#include <gtest/gtest.h>

#include <cmath>

namespace driftbench::classroom {
namespace {

using support::attempt_text;

std::vector<Entry> entries_of(const std::vector<std::string>& attempts) {
  Collector collector;
  for (std::size_t i = 0; i < attempts.size(); ++i) {
    collector.add(attempts[i], fmt::format("{}.attempt.json", i));
  }
  return collector.finish().entries;
}

std::vector<Entry> three() {
  return entries_of({attempt_text(1, "amber-heron", 0), attempt_text(2, "amber-heron", 1),
                     attempt_text(3, "amber-heron", 0)});
}

TEST(TurnIn, ComesBackToTheLastBit) {
  std::vector<Entry> sent = three();
  sent[1].estimate = scoring::SelfEstimate{0.1, -0.2, 0.3, 1.5, -2.5, 2};
  sent[1].events = {"went 1.20 mm past the planned depth, 0.50 mm allowed"};
  sent[2].measures.depth_mm.reset();
  const std::string code = write_turn_in(sent).value();
  const std::vector<Entry> read = read_turn_in(code, "a.turn-in.txt").value();
  ASSERT_EQ(read.size(), sent.size());
  for (std::size_t i = 0; i < sent.size(); ++i) {
    EXPECT_EQ(read[i].measures, sent[i].measures);
    EXPECT_EQ(read[i].attempt_id, sent[i].attempt_id);
    EXPECT_EQ(read[i].learner, "amber-heron");
    EXPECT_EQ(read[i].approach, sent[i].approach);
    EXPECT_EQ(read[i].period, sent[i].period);
    EXPECT_EQ(read[i].lesson_sha256, sent[i].lesson_sha256);
    EXPECT_EQ(read[i].device, sent[i].device);
    EXPECT_EQ(read[i].inside, sent[i].inside);
    EXPECT_EQ(read[i].events, sent[i].events);
    EXPECT_EQ(read[i].standing, Standing::kTableRow);
    EXPECT_FALSE(read[i].is_record());
  }
  EXPECT_EQ(read[1].estimate->tilt_bl_deg, -2.5);
  EXPECT_EQ(read[1].estimate->confidence, 2);
  EXPECT_FALSE(read[0].estimate.has_value() != sent[0].estimate.has_value());
}

TEST(TurnIn, IsShortAndSaysWhatItHolds) {
  const std::string code = write_turn_in(three()).value();
  EXPECT_EQ(
      code.rfind("Driftbench turn-in of amber-heron: 3 attempts, numbers only, no movement.\n", 0),
      0U);
  EXPECT_LT(code.size(), 1500U);  // about 300 letters an attempt, most of them the first
}

TEST(TurnIn, SurvivesAMail) {
  const std::string code = write_turn_in(three()).value();
  const std::size_t at = code.find('\n') + 1;
  std::string mail = "Dear teacher,\r\n> ";
  for (std::size_t i = at; i + 1 < code.size(); i += 60) {
    mail += code.substr(i, std::min<std::size_t>(60, code.size() - 1 - i)) + "\r\n> ";
  }
  mail += "\r\nBest wishes";
  const auto read = read_turn_in(mail, "mail");
  ASSERT_TRUE(read.has_value()) << read.error().message;
  EXPECT_EQ(read->size(), 3U);
}

TEST(TurnIn, EveryDamagedLetterIsNoticed) {
  const std::string code = write_turn_in(three()).value();
  const std::size_t first = code.find("DRIFTBENCH-1.") + 13;
  for (std::size_t i = first; i + 1 < code.size(); ++i) {
    std::string spoiled = code;
    spoiled[i] = spoiled[i] == 'A' ? 'B' : 'A';
    const auto read = read_turn_in(spoiled, "x");
    // The last letter before the point holds bits that are not used.
    const bool is_slack = read.has_value() && code[i + 1] == '.';
    EXPECT_TRUE(!read.has_value() || is_slack) << i;
  }
  EXPECT_FALSE(read_turn_in(code.substr(0, code.size() / 2), "x").has_value());
  EXPECT_FALSE(read_turn_in("hello", "x").has_value());
  EXPECT_EQ(read_turn_in("DRIFTBENCH-2.AAAA", "x").error().code, base::ErrorCode::kUnsupported);
}

TEST(TurnIn, HostilePayloadsAreRefusedWithoutHarm) {
  // Random bytes with a check sum that fits would need the sum; so spoil the packed part through
  // the reader itself.
  base::Rng rng(5);
  int refused = 0;
  for (int round = 0; round < 300; ++round) {
    std::string letters;
    const auto length = static_cast<std::size_t>(rng.below(400));
    for (std::size_t i = 0; i < length; ++i) {
      letters.push_back("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdef0123456789-_"[rng.below(44)]);
    }
    refused += read_turn_in("DRIFTBENCH-1." + letters + ".000000000000", "x").has_value() ? 0 : 1;
  }
  EXPECT_EQ(refused, 300);
}

TEST(TurnIn, AFileAndACodeOfTheSameAttemptAreOne) {
  const std::vector<Entry> sent = three();
  Collector collector;
  collector.add(attempt_text(1, "amber-heron", 0), "1.attempt.json");
  collector.add(write_turn_in(sent).value(), "pasted.turn-in.txt");
  const Roster roster = collector.finish();
  EXPECT_EQ(roster.entries.size(), 3U);
  EXPECT_TRUE(roster.refused.items.empty()) << roster.refused.items.front();
  std::vector<Entry> better = sent;
  better[0].measures.entry_md_mm = 0.0;
  Collector other;
  other.add(attempt_text(1, "amber-heron", 0), "1.attempt.json");
  other.add(write_turn_in(better).value(), "pasted.turn-in.txt");
  EXPECT_EQ(other.finish().refused.items.size(), 1U);
}

TEST(TurnIn, ACodeOfAnotherLessonIsNotMixedIn) {
  std::vector<Entry> others = three();
  for (Entry& entry : others) {
    entry.attempt_id += "x";
    entry.lesson_id = "another-lesson";
    entry.lesson_sha256 = std::string(64, 'b');
  }
  others.pop_back();
  Collector collector;
  collector.add(write_turn_in(three()).value(), "a.turn-in.txt");
  collector.add(write_turn_in(others).value(), "b.turn-in.txt");
  const Roster roster = collector.finish();
  ASSERT_EQ(roster.entries.size(), 5U);
  EXPECT_EQ(std::count_if(roster.entries.begin(), roster.entries.end(),
                          [](const Entry& entry) { return entry.is_other_lesson; }),
            2);
}

const std::string kHeader = "operator,approach,entry_md_mm,entry_bl_mm,depth_mm,period,source\n";

std::string class_summary(int learners, std::optional<Names> names = std::nullopt) {
  std::string rows = kHeader;
  for (int i = 0; i < learners; ++i) {
    for (int k = 0; k < 3; ++k) {
      rows +=
          fmt::format("c{},freehand,{},{},0.1,{},simulated\n", i, 0.5 + 0.1 * i, 0.2 * k, k + 1);
      rows += fmt::format("c{},sleeve,{},{},0.1,{},simulated\n", i, 0.1 * i, 0.1 * k, k + 4);
    }
  }
  Collector collector;
  collector.add(rows, "holes.csv");
  return summary_json(compile(collector.finish(), std::move(names)));
}

TEST(ClassSummary, SmallGroupsAreHiddenAlsoWhenNamesWereGiven) {
  const auto summary = base::read_json(class_summary(4, Names{{"c0", "Ada"}})).value();
  const base::JsonValue& part = summary.find("sources")->items().at(0);
  EXPECT_TRUE(part.find("groups")->items().empty());
  EXPECT_TRUE(part.find("paired")->is_null());
  EXPECT_TRUE(part.find("estimates")->items().empty());
  EXPECT_FALSE(summary.find("with_names")->as_bool());
  EXPECT_EQ(class_summary(7, Names{{"c0", "Ada"}}), class_summary(7));
}

TEST(ClassBands, AreThoseOfTheSummary) {
  const auto read = read_class_bands(class_summary(9), "class-summary.json");
  ASSERT_TRUE(read.value.has_value()) << read.first_error();
  EXPECT_EQ(read.value->learners, 9U);
  ASSERT_EQ(read.value->bands.size(), 2U);
  ASSERT_TRUE(read.value->bands[0].bias_mm.has_value());
  // Nine learners at 0.5, 0.6 ... 1.3 mm md and 0.2 mm bl: the quartiles are the third and the
  // seventh.
  EXPECT_NEAR(read.value->bands[0].bias_mm->low, std::hypot(0.7, 0.2), 1e-12);
  EXPECT_NEAR(read.value->bands[0].bias_mm->high, std::hypot(1.1, 0.2), 1e-12);
  const auto few = read_class_bands(class_summary(4), "class-summary.json");
  EXPECT_TRUE(few.value->bands.empty() || !few.value->bands[0].bias_mm.has_value());
  EXPECT_FALSE(read_class_bands("{}", "x").value.has_value());
  EXPECT_FALSE(read_class_bands("[1", "x").value.has_value());
}

std::vector<Entry> own_holes(int count) {
  std::vector<Entry> own;
  for (int i = 0; i < count; ++i) {
    Entry entry;
    entry.approach = stats::Approach::kFreehand;
    entry.measures.entry_md_mm = 0.4 + (i % 2 == 0 ? 0.3 : -0.3);
    entry.measures.entry_bl_mm = i % 4 < 2 ? 0.3 : -0.3;
    own.push_back(entry);
  }
  return own;
}

TEST(OwnInClass, SpreadHasTheIntervalOfItsDegreesOfFreedom) {
  // Chi-squared with 18 degrees of freedom: 8.231 and 31.526 at 2.5 and 97.5 % (NIST/SEMATECH
  // e-Handbook, 1.3.6.7.4), so 10 holes in two directions know a spread to x 0.756 ... x 1.479.
  EXPECT_NEAR(stats::chi_squared_quantile(0.025, 18.0), 8.231, 5e-4);
  EXPECT_NEAR(stats::chi_squared_quantile(0.975, 18.0), 31.526, 5e-4);
  const auto bands = read_class_bands(class_summary(9), "x").value.value();
  const std::vector<Entry> own = own_holes(10);
  const OwnInClass row = own_in_class(bands, own).at(0);
  ASSERT_EQ(row.holes, 10U);
  EXPECT_NEAR(row.spread_interval->low / *row.spread_mm, 0.756, 5e-4);
  EXPECT_NEAR(row.spread_interval->high / *row.spread_mm, 1.479, 5e-4);
  EXPECT_NEAR(*row.bias_reach_mm, stats::t_quantile(0.975, 18.0) * *row.spread_mm / std::sqrt(10.0),
              1e-12);
}

TEST(OwnInClass, NobodyIsRanked) {
  const auto bands = read_class_bands(class_summary(9), "x").value.value();
  const std::vector<Entry> own = own_holes(8);
  const std::vector<OwnInClass> rows = own_in_class(bands, own);
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_NE(rows[0].sentences.at(0).find("You are closer than the middle half."), std::string::npos)
      << rows[0].sentences[0];
  EXPECT_NE(rows[1].sentences.at(0).find("No own measured hole by sleeve"), std::string::npos);
  const std::vector<Entry> one = own_holes(1);
  EXPECT_FALSE(own_in_class(bands, one).at(0).spread_mm.has_value());
  EXPECT_EQ(own_in_class_picture(rows).title(), "You and the class");
}

TEST(CourseRequests, HiddenAttemptsStayHiddenInTheComparison) {
  OwnAttempts own;
  own.add(attempt_text(1, "amber-heron", 0), "a");
  own.add("no attempt", "b");
  const auto list = base::read_json(own.answer_list()).value();
  ASSERT_EQ(list.find("attempts")->items().size(), 1U);
  EXPECT_EQ(list.find("unreadable")->as_int64(), 1);
  const std::string id = list.find("attempts")->items()[0].find("id")->as_string();
  const auto holes = [&own](const std::string& hidden) {
    const auto answer = base::read_json(own.answer_compare(class_summary(9), "x", hidden)).value();
    return answer.find("rows")->items().at(0).find("holes")->as_int64();
  };
  EXPECT_EQ(holes("[]"), 1);
  EXPECT_EQ(holes("[\"" + id + "\"]"), 0);
  EXPECT_NE(base::read_json(own.answer_turn_in("[\"" + id + "\"]")).value().find("code"), nullptr);
  EXPECT_NE(base::read_json(own.answer_turn_in("[]")).value().find("error"), nullptr);
}

Participation sample() {
  Participation record;
  record.record_id = "r-1";
  record.name = "Ada <Lamb>";
  record.provider = "Course office";
  record.objectives = {"See where the hole went"};
  record.lessons.push_back({"find-the-centre", "Find the centre", std::string(64, 'a'), "2", 6,
                            372.0, LessonResult::kMet});
  return record;
}

TEST(Participation, IsNoCertificateAndHasNoScript) {
  const std::string page = participation_html(sample());
  EXPECT_NE(page.find("Not a certificate. Credit is decided by the provider."), std::string::npos);
  EXPECT_NE(page.find("Ada &lt;Lamb&gt;"), std::string::npos);
  EXPECT_NE(page.find("criterion met"), std::string::npos);
  EXPECT_NE(page.find("6.2"), std::string::npos);  // 372 s in minutes
  EXPECT_EQ(page.find("<script"), std::string::npos);
  EXPECT_NE(page.find("<td>Hours</td><td><span class=\"line\">"), std::string::npos);
}

TEST(Participation, ReadsBackAsItWasWritten) {
  const std::string text = participation_json(sample());
  const auto read = read_participation(text, "p.json");
  ASSERT_TRUE(read.value.has_value()) << read.first_error();
  EXPECT_EQ(participation_json(*read.value), text);
  EXPECT_NE(base::read_json(answer_participation(text)).value().find("html"), nullptr);
  EXPECT_NE(base::read_json(answer_participation("{}")).value().find("error"), nullptr);
}

TEST(Film, HoldsTheCourseOfTheAttempt) {
  const record::Attempt attempt = support::short_attempt(2);
  Film film = Film::start(record::write_attempt(attempt), "a").value();
  while (film.advance(200)) {
  }
  EXPECT_TRUE(film.is_equal());
  const auto about = base::read_json(film.json()).value();
  EXPECT_EQ(about.find("end_step")->as_int64(), attempt.end_step);
  EXPECT_GT(about.find("contact_step")->as_int64(), 0);
  const auto& poses = about.find("poses")->items();
  ASSERT_GT(poses.size(), 30U);
  EXPECT_LT(poses.back().items()[3].as_double(), poses.front().items()[3].as_double());  // deeper
  const FilmSection section = film.section(true);
  const auto size = static_cast<std::size_t>(film.columns() * film.rows());
  ASSERT_EQ(section.density.size(), size);
  // What was removed was there before, and has a moment; what was not has none.
  std::size_t removed = 0;
  for (std::size_t i = 0; i < size; ++i) {
    EXPECT_LE(section.after[i], section.before[i]);
    removed += section.after[i] < section.before[i] ? 1U : 0U;
    EXPECT_EQ(section.tick[i] == volume::kNeverRemoved, section.after[i] == section.before[i]);
  }
  EXPECT_GT(removed, 100U);
  // Above the platform there is air, below it foam.
  EXPECT_EQ(section.before[0], 0);
  const auto columns = static_cast<std::size_t>(film.columns());
  EXPECT_EQ(section.before[45U * columns + columns / 4U], 255);
}

TEST(Film, RecordsOfAnotherEngineAreNotShown) {
  record::Attempt attempt = support::short_attempt(2);
  attempt.engine += 1;
  EXPECT_EQ(Film::start(record::write_attempt(attempt), "a").error().code,
            base::ErrorCode::kUnsupported);
  EXPECT_FALSE(Film::start("no", "a").has_value());
}

}  // namespace
}  // namespace driftbench::classroom
