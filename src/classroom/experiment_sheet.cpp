// The allocation as a page to print.
#include "base/text.h"
#include "classroom/experiment.h"
#include "classroom/report_style.h"
#include "classroom/words.h"

#include <fmt/format.h>

namespace driftbench::classroom {
namespace {

constexpr std::string_view kSheetStyle = R"(
.slips { display: grid; grid-template-columns: 1fr 1fr; gap: 0; margin-top: 24px; }
.slip { border: 1px dashed #1b1b1f; padding: 14px 18px; break-inside: avoid; }
.slip b { font-size: 26px; }
.slip p { margin: 4px 0; }
)";

std::string title_of(const ExperimentDesign& design) {
  return design.title.empty() ? "Free-hand against sleeve" : design.title;
}

std::string item_list(const std::vector<std::string>& sentences) {
  std::string text = "<ul>\n";
  for (const std::string& sentence : sentences) {
    text += fmt::format("<li>{}</li>\n", base::html_escaped(sentence));
  }
  return text + "</ul>\n";
}

std::string place_name(const Experiment& experiment, std::size_t i) {
  return experiment.design.kind == ExperimentKind::kOneOperator ? std::string("The one operator")
                                                                : fmt::format("Place {}", i + 1);
}

std::string row_of(const Experiment& experiment, std::size_t i) {
  const ExperimentPlace& place = experiment.places[i];
  return fmt::format("<tr><td>{}</td><td>{}</td><td>{}</td></tr>\n",
                     base::html_escaped(place_name(experiment, i)),
                     place.code.empty() ? "____________________" : base::html_escaped(place.code),
                     base::html_escaped(order_words(place)));
}

std::string slip_of(const Experiment& experiment, std::size_t i) {
  const ExperimentPlace& place = experiment.places[i];
  return fmt::format("<div class=\"slip\"><b>{}</b><p>{}</p><p>Your code name: {}</p></div>\n",
                     base::html_escaped(place_name(experiment, i)),
                     base::html_escaped(order_words(place)),
                     place.code.empty() ? "____________________" : base::html_escaped(place.code));
}

}  // namespace

std::string experiment_sheet_html(const Experiment& experiment) {
  const ExperimentDesign& design = experiment.design;
  const std::string title = base::html_escaped(title_of(design));
  std::string text = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'\">\n<title>{0}</title>\n<style>{1}{2}</style>\n</head>\n<body>\n"
      "<h1>{0}</h1>\n",
      title, kReportStyle, kSheetStyle);
  text += fmt::format(
      "<p>Drawn with the seed {} in runs of 2 or 4 of random length. F: free-hand, S: by sleeve. "
      "Whoever hands out the slips should not choose who gets which.</p>\n",
      design.seed);
  text += "<h2>The plan</h2>\n" + item_list(plan_sentences(design));
  text +=
      "<h2>Who goes in which order</h2>\n<table>\n<tr><th>place</th><th>code name</th>"
      "<th>order</th></tr>\n";
  for (std::size_t i = 0; i < experiment.places.size(); ++i) {
    text += row_of(experiment, i);
  }
  text += "</table>\n<h2>What this cannot say</h2>\n" + item_list(plan_limits(design));
  if (design.kind == ExperimentKind::kClass) {
    text += "<h2>Slips to cut and hand out</h2>\n<div class=\"slips\">\n";
    for (std::size_t i = 0; i < experiment.places.size(); ++i) {
      text += slip_of(experiment, i);
    }
    text += "</div>\n";
  }
  return text + "</body>\n</html>\n";
}

}  // namespace driftbench::classroom
