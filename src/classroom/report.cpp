#include "classroom/report.h"

#include "base/text.h"
#include "classroom/charts.h"
#include "classroom/report_style.h"
#include "classroom/summary_json.h"
#include "classroom/svg.h"
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
                     escaped(words));
}

std::string list_of(const std::vector<std::string>& items) {
  std::string text = "<ul>\n";
  for (std::size_t i = 0; i < std::min(items.size(), kMaxListed); ++i) {
    text += fmt::format("<li>{}</li>\n", escaped(items[i]));
  }
  if (items.size() > kMaxListed) {
    text += fmt::format("<li>and {} more</li>\n", items.size() - kMaxListed);
  }
  return text + "</ul>\n";
}

/// A chart under its heading with its caption; a sentence where there is nothing to draw.
std::string figure(std::string_view heading, const std::string& chart, std::string_view caption,
                   std::string_view nothing) {
  std::string text = fmt::format("<h3>{}</h3>\n", escaped(heading));
  if (chart.empty()) {
    return text + paragraph(nothing, "caption");
  }
  return text + fmt::format("<figure>\n{}</figure>\n", chart) + paragraph(caption, "caption");
}

/// A row of a table; columns from `first_number` on are set as numbers.
std::string row(const std::vector<std::string>& cells, bool is_header = false,
                std::size_t first_number = 1) {
  std::string text = "<tr>";
  for (std::size_t i = 0; i < cells.size(); ++i) {
    text += fmt::format("<{0}{1}>{2}</{0}>", is_header ? "th" : "td",
                        i >= first_number ? " class=\"number\"" : "", escaped(cells[i]));
  }
  return text + "</tr>\n";
}

std::string probability(double p) {
  constexpr double kLeast = 1e-4;
  constexpr int kDecimals = 4;
  return p < kLeast ? "< 0.0001" : "= " + base::fixed(p, kDecimals);
}

std::string legend(const Part& part) {
  Svg svg(620.0, 40.0, "Marks", "Free-hand circle, sleeve diamond, plan dashed ring.");
  double x = 14.0;
  for (std::size_t i = 0; i < stats::kApproachNames.size(); ++i) {
    const auto approach = static_cast<stats::Approach>(i);
    const bool is_there =
        std::any_of(part.entries.begin(), part.entries.end(),
                    [approach](const Entry* entry) { return entry->approach == approach; });
    if (is_there) {
      svg.mark(x, 20.0, 10.0, approach, part.source);
      svg.text(x + 20.0, 26.0, approach_word(approach));
      x += 140.0;
    }
  }
  svg.plan(x, 20.0, 13.0);
  svg.text(x + 22.0, 26.0, "plan");
  svg.estimate_mark(x + 100.0, 20.0, 9.0);
  svg.text(x + 120.0, 26.0, "own estimate");
  return fmt::format("<div class=\"legend\">{}</div>\n", svg.take());
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
  std::string rows;
  std::size_t count = 0;
  for (const LearnerSummary& summary : part.learners) {
    if (!is_shown(part, summary.approach)) {
      continue;
    }
    for (const Entry* entry : summary.entries) {
      for (const std::string& event : entry->events) {
        if (++count > kMaxEvents) {
          continue;
        }
        rows += row(
            {label_of(whole, summary.learner), std::string(approach_word(entry->approach)),
             entry->period.has_value() ? std::to_string(*entry->period) : "\xE2\x80\x93", event},
            false, kWordsOnly);
      }
    }
  }
  std::string text = "<h3>Critical events</h3>\n";
  if (rows.empty()) {
    return text + paragraph("None in what is shown here.", "caption");
  }
  return text + "<table>\n" +
         row({"learner", "approach", "attempt", "what happened"}, true, kWordsOnly) + rows +
         "</table>\n" +
         (count > kMaxEvents ? paragraph(fmt::format("And {} more.", count - kMaxEvents)) : "");
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

std::string part_html(const Class& whole, const Part& part) {
  const std::string too_few =
      part.hidden.empty() ? "Nothing to draw: no measured holes." : hidden_sentence(part);
  std::string text = fmt::format("<h2>{}</h2>\n", source_word(part.source));
  text += paragraph(result_sentence(part), "answer");
  text += paragraph(order_sentence(part), part.order == TechniqueOrder::kBoth ? "" : "order");
  text += paragraph(fmt::format("{}, {}. {}", counted(part.learner_count, "learner"),
                                counted(part.entries.size(), "attempt"), hidden_sentence(part)));
  text += legend(part) + groups_table(part);
  text += figure("Who did what", completion_grid(whole, part),
                 "A filled mark: at least one attempt inside every tolerance. A white mark: none "
                 "yet, or not judged.",
                 too_few);
  text += figure("Aim or steadiness", bias_map(whole, part),
                 "High: off on average, look at the aim. Right: scattered, look at the hand. Needs "
                 "two holes by an approach.",
                 part.hidden.empty() ? "Nobody has two measured holes by one approach." : too_few);
  text +=
      figure("Each learner's holes", small_targets(whole, part),
             "All on one scale, 3 mm from the plan to each edge, lingual up, distal right. Arrow: "
             "from the plan to the average. Dotted ring: tolerance. Beyond the edge: an arrow "
             "with the distance in mm.",
             too_few);
  text +=
      figure("The class", pooled_target(whole, part),
             "Small: holes. Large: averages of learners. Ellipse: where the average of the next "
             "learner falls with 95 %; none below six learners, dashed below ten. It rests on the "
             "learners, never on all holes together.",
             too_few);
  text +=
      figure("The same learners by both techniques", paired_lines(whole, part),
             "Left: one line a learner. Right: each learner's difference, above zero = better by "
             "sleeve, with the mean and its interval.",
             "No learner has measured holes by both techniques, or too few to show without names.");
  text += details(part);
  text +=
      figure("Attempt by attempt", learning_curves(whole, part),
             "Thin: learners. Thick: the median, where five or more have that attempt; a median "
             "curve is nobody's curve. Dotted: tolerance.",
             too_few);
  text += figure("What they thought", estimates_chart(whole, part),
                 "On the dashed line the estimate was right. Above it: thought worse than it was.",
                 "No estimates, or too few to show without names.");
  text += estimates_table(part) + events_table(whole, part);
  text +=
      figure("Hole size", hole_sizes(whole, part), "Thick line: the median.", "No hole diameters.");
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
      escaped(lesson), kReportStyle);
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
