#include "classroom/report.h"

#include "base/text.h"
#include "classroom/charts.h"
#include "classroom/report_style.h"
#include "classroom/summary_json.h"
#include "classroom/svg.h"
#include "classroom/views.h"
#include "classroom/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace driftbench::classroom {
namespace {

constexpr std::size_t kMaxListed = 40;
constexpr std::size_t kMaxEvents = 200;
constexpr std::size_t kWordsOnly = 100;  ///< a table without columns of numbers

std::string paragraph(std::string_view words, std::string_view style = "") {
  if (words.empty()) {
    return {};
  }
  return fmt::format("<p{}>{}</p>\n",
                     style.empty() ? std::string() : fmt::format(" class=\"{}\"", style),
                     base::html_escaped(words));
}

std::string list_of(const std::vector<std::string>& items) {
  std::string text = "<ul>\n";
  for (std::size_t i = 0; i < std::min(items.size(), kMaxListed); ++i) {
    text += fmt::format("<li>{}</li>\n", base::html_escaped(items[i]));
  }
  if (items.size() > kMaxListed) {
    text += fmt::format("<li>and {} more</li>\n", items.size() - kMaxListed);
  }
  return text + "</ul>\n";
}

/// A chart under its heading with its caption; a sentence where there is nothing to draw.
std::string figure(ViewId id, const Class& whole, const Part& part) {
  const View& shown_view = view(id);
  std::string text = fmt::format("<h3>{}</h3>\n", base::html_escaped(shown_view.heading));
  const std::vector<Picture> pictures = shown_view.draw(whole, part);
  if (pictures.empty()) {
    return text + paragraph(nothing_sentence(shown_view, part), "caption");
  }
  return text + fmt::format("<figure>\n{}</figure>\n", svg_text(pictures)) +
         paragraph(shown_view.caption, "caption");
}

/// A row of a table; columns from `first_number` on are set as numbers.
std::string row(const std::vector<std::string>& cells, bool is_header = false,
                std::size_t first_number = 1) {
  std::string text = "<tr>";
  for (std::size_t i = 0; i < cells.size(); ++i) {
    text += fmt::format("<{0}{1}>{2}</{0}>", is_header ? "th" : "td",
                        i >= first_number ? " class=\"number\"" : "", base::html_escaped(cells[i]));
  }
  return text + "</tr>\n";
}

std::string probability(double p) {
  constexpr double kLeast = 1e-4;
  constexpr int kDecimals = 4;
  return p < kLeast ? "< 0.0001" : "= " + base::fixed(p, kDecimals);
}

std::string legend(const Part& part) {
  Picture picture(620.0, 40.0, "Marks", "Free-hand circle, sleeve diamond, plan dashed ring.");
  double x = 14.0;
  for (std::size_t i = 0; i < stats::kApproachNames.size(); ++i) {
    const auto approach = static_cast<stats::Approach>(i);
    const bool is_there =
        std::any_of(part.entries.begin(), part.entries.end(),
                    [approach](const Entry* entry) { return entry->approach == approach; });
    if (is_there) {
      picture.mark(x, 20.0, 10.0, approach, part.source);
      picture.text(x + 20.0, 26.0, approach_word(approach));
      x += 140.0;
    }
  }
  picture.plan(x, 20.0, 13.0);
  picture.text(x + 22.0, 26.0, "plan");
  picture.estimate_mark(x + 100.0, 20.0, 9.0);
  picture.text(x + 120.0, 26.0, "own estimate");
  return fmt::format("<div class=\"legend\">{}</div>\n", svg_text(picture));
}

std::string groups_table(const Part& part) {
  if (part.statistics.groups.empty()) {
    return {};
  }
  constexpr int kDecimals = 2;
  std::string text = "<table>\n";
  text += row({"Entry, mm", "holes", "learners", "bias, + distal", "bias, + lingual", "spread",
               "half within", "95 % within", "same learner again", "between learners"},
              true);
  for (const stats::GroupStatistics& group : part.statistics.groups) {
    text += row({std::string(approach_word(group.approach)), std::to_string(group.n),
                 std::to_string(group.operators), shown(group.bias.map(&math::Vec2::x), kDecimals),
                 shown(group.bias.map(&math::Vec2::y), kDecimals),
                 shown(group.spread_mm, kDecimals), shown(group.r50_mm, kDecimals),
                 shown(group.r95_mm, kDecimals), shown(group.repeatability_sd, kDecimals),
                 shown(group.between_operator_sd, kDecimals)});
  }
  return text + "</table>\n" +
         paragraph(
             "Half within, 95 % within: radius about the plan. The last two columns are "
             "standard deviations of the entry error. A dash: too few holes or learners; the "
             "reason stands in class-summary.json.",
             "caption");
}

std::string details(const Part& part) {
  const stats::PairedStatistics& paired = part.statistics.paired;
  if (part.is_paired_hidden || !paired.t) {
    return {};
  }
  constexpr int kDecimals = 3;
  return "<h3>Details</h3>\n" +
         paragraph(fmt::format(
             "Free-hand minus sleeve {} mm, 95 % interval {} to {} mm; t = {} with {} degrees of "
             "freedom, p {}; exact signed ranks p {}. Ratio of spreads {}.",
             base::fixed(paired.t->mean, kDecimals), base::fixed(paired.t->interval.low, kDecimals),
             base::fixed(paired.t->interval.high, kDecimals), base::fixed(paired.t->t, 2),
             paired.t->df, probability(paired.t->p),
             paired.rank_p ? probability(*paired.rank_p) : "\xE2\x80\x93",
             shown(paired.spread_ratio, kDecimals)));
}

std::string events_table(const Class& whole, const Part& part) {
  const std::vector<EventRow> events = critical_events(whole, part);
  std::string text = "<h3>Critical events</h3>\n";
  if (events.empty()) {
    return text + paragraph("None in what is shown here.", "caption");
  }
  text += "<table>\n" + row({"learner", "approach", "attempt", "what happened"}, true, kWordsOnly);
  for (std::size_t i = 0; i < std::min(events.size(), kMaxEvents); ++i) {
    const EventRow& event = events[i];
    text += row({event.learner, event.approach, event.attempt, event.what}, false, kWordsOnly);
  }
  text += "</table>\n";
  return text + (events.size() > kMaxEvents
                     ? paragraph(fmt::format("And {} more.", events.size() - kMaxEvents))
                     : "");
}

/// A measure's column as people say it.
std::string_view measure_word(std::string_view measure) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 5> kWords{
      {{"entry_md_mm", "entry, mesio-distal, mm"},
       {"entry_bl_mm", "entry, bucco-lingual, mm"},
       {"depth_mm", "depth, mm"},
       {"tilt_md_deg", "lean, mesio-distal, degrees"},
       {"tilt_bl_deg", "lean, bucco-lingual, degrees"}}};
  for (const auto& [name, words] : kWords) {
    if (name == measure) {
      return words;
    }
  }
  return measure;
}

std::string estimates_table(const Part& part) {
  if (part.estimates.empty()) {
    return {};
  }
  std::string text = "<table>\n";
  text += row({"estimate minus measured", "approach", "attempts", "mean", "limits of agreement"},
              true, 2);
  for (const EstimateAgreement& estimate : part.estimates) {
    const auto& agreement = estimate.agreement;
    text += row(
        {std::string(measure_word(estimate.measure)), std::string(approach_word(estimate.approach)),
         agreement ? std::to_string(agreement->n) : "\xE2\x80\x93",
         agreement ? base::fixed(agreement->bias, 2) : agreement.error().message,
         agreement ? fmt::format("{} to {}", base::fixed(agreement->limits.low, 2),
                                 base::fixed(agreement->limits.high, 2))
                   : "\xE2\x80\x93"},
        false, 2);
  }
  return text + "</table>\n";
}

/// Who went in which order; small groups stay hidden.
std::string places_table(const Class& whole, const Part& part, const Experiment& planned) {
  if (!whole.shows(part.learner_count)) {
    return {};
  }
  std::string text =
      "<table>\n" + row({"place", "code", "drawn order", "what was done"}, true, kWordsOnly);
  for (std::size_t i = 0; i < std::min(planned.places.size(), kMaxEvents); ++i) {
    const PlaceOutcome& place = part.experiment->places[i];
    text += row({std::to_string(i + 1),
                 place.learner.has_value() ? label_of(whole, *place.learner) : "\xE2\x80\x93",
                 order_words(planned.places[i]), following_words(place)},
                false, kWordsOnly);
  }
  return text + "</table>\n";
}

/// The planned experiment: what came out, whether the drawn order was followed, what cannot be
/// said.
std::string experiment_html(const Class& whole, const Part& part) {
  if (!part.experiment.has_value() || !whole.roster.experiment.has_value()) {
    return {};
  }
  const Experiment& planned = *whole.roster.experiment;
  const ExperimentOutcome& outcome = *part.experiment;
  const std::string& title = planned.design.title;
  std::string text = fmt::format("<h3>The planned experiment{}</h3>\n",
                                 title.empty() ? "" : ": " + base::html_escaped(title));
  for (const std::string& sentence : outcome.results) {
    text += paragraph(sentence);
  }
  text += paragraph(outcome.followed, outcome.is_followed ? "" : "order");
  text += places_table(whole, part, planned);
  text += paragraph(fmt::format("Drawn with the seed {} in runs of 2 or 4 of random length.",
                                planned.design.seed),
                    "caption");
  text += "<p>The plan:</p>\n" + list_of(plan_sentences(planned.design));
  return text + "<p>What this experiment cannot say:</p>\n" + list_of(outcome.limits);
}

std::string part_html(const Class& whole, const Part& part) {
  std::string text = fmt::format("<h2>{}</h2>\n", source_word(part.source));
  text += paragraph(result_sentence(part), "answer");
  const bool is_fair = part.order == TechniqueOrder::kBoth || part.order == TechniqueOrder::kMixed;
  text += paragraph(order_sentence(part), is_fair ? "" : "order");
  text += paragraph(fmt::format("{}, {}. {}", counted(part.learner_count, "learner"),
                                counted(part.entries.size(), "attempt"), hidden_sentence(part)));
  text += experiment_html(whole, part);
  text += legend(part) + groups_table(part);
  text += figure(ViewId::kGrid, whole, part) + figure(ViewId::kBiasMap, whole, part);
  text += figure(ViewId::kSmallTargets, whole, part) + figure(ViewId::kPooledTarget, whole, part);
  text += figure(ViewId::kPairs, whole, part) + details(part);
  text += figure(ViewId::kCurves, whole, part) + figure(ViewId::kEstimates, whole, part);
  text += estimates_table(part) + events_table(whole, part);
  text += figure(ViewId::kHoleSizes, whole, part);
  return text + "<h3>What this cannot say</h3>\n" + list_of(limits_of(whole, part));
}

std::string collection_html(const Class& whole) {
  const Counts counts = counts_of(whole.roster);
  constexpr std::array<std::string_view, kStandingNames.size()> kWords{
      "from tables, nothing to repeat", "not repeated", "repeated: the same bits",
      "do not match, left out", "recorded by another engine, not repeated"};
  std::string text = "<h2>What was collected</h2>\n<table>\n";
  text += row({"attempts", std::to_string(counts.attempts)});
  for (std::size_t i = 0; i < kWords.size(); ++i) {
    text += row({std::string(kWords[i]), std::to_string(counts.by_standing[i])});
  }
  text += row({"of another lesson, left out", std::to_string(counts.other_lesson)});
  text +=
      row({"files or rows that could not be taken", std::to_string(whole.roster.refused.count)});
  text += row({"files given twice, taken once", std::to_string(whole.roster.notes.count)});
  text += "</table>\n" +
          paragraph(fmt::format("Charts draw about {} marks and {} learners of their own at most, "
                                "evenly chosen; every number rests on all.",
                                kMaxMarks, kMaxPictured),
                    "caption");
  std::vector<std::string> sentences;
  for (const Entry& entry : whole.roster.entries) {
    if (!entry.counts() && !entry.reasons.empty()) {
      sentences.push_back(fmt::format("{}: {}", entry.file, reasons_text(entry)));
    }
  }
  sentences.insert(sentences.end(), whole.roster.refused.items.begin(),
                   whole.roster.refused.items.end());
  if (!sentences.empty()) {
    text += "<h3>Left out, and why</h3>\n" + list_of(sentences);
  }
  return text;
}

}  // namespace

std::string report_html(const Class& whole) {
  const std::string lesson =
      whole.roster.lesson_id.empty() ? std::string() : ": " + whole.roster.lesson_id;
  std::string text = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'\">\n<title>Class report{0}</title>\n<style>{1}</style>\n</head>\n<body>\n"
      "<h1>Class report{0}</h1>\n",
      base::html_escaped(lesson), kReportStyle);
  text += paragraph(
      "Lengths in mm from the plan; + distal, + lingual, + deeper. Learners stand in "
      "random order. Teaching material, not clinical advice.");
  if (whole.parts.empty()) {
    text += paragraph("No attempt counts: nothing to compare.", "answer");
  }
  for (const Part& part : whole.parts) {
    text += part_html(whole, part);
  }
  return text + collection_html(whole) + "</body>\n</html>\n";
}

}  // namespace driftbench::classroom
