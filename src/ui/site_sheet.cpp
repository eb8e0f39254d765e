#include "ui/site_sheet.h"

#include "base/text.h"
#include "lesson/instruments.h"
#include "ui/guide_words.h"
#include "ui/language.h"
#include "ui/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace driftbench::ui {
namespace {

constexpr std::string_view kStyle = R"(
:root{color-scheme:light}
body{font:16px/1.45 "Inter","Open Sans",system-ui,sans-serif;color:#1b1b1f;background:#fff;max-width:760px;margin:0 auto;padding:24px}
h1{font-size:26px;margin:0 0 4px}h2{font-size:18px;margin:20px 0 4px;border-top:2px solid #1b1b1f;padding-top:8px}
p{margin:6px 0}table{border-collapse:collapse;width:100%}
th,td{text-align:left;padding:4px 12px 4px 0;border-bottom:1px solid #c9c9d0;vertical-align:top}
th{font-weight:400;color:#3c3c44;width:24%}.sums th{width:auto}.box{white-space:nowrap}
.trouble{font-weight:700;border-left:5px solid #b00020;padding-left:8px}
svg{display:block;width:300px;max-width:100%;margin:8px auto}.small{font-size:13px;color:#3c3c44}
@media print{@page{margin:12mm}body{font-size:10.5pt;padding:0;max-width:none}h1{font-size:17pt}h2{font-size:12.5pt}svg{width:62mm}
tr,svg{break-inside:avoid}h2{break-after:avoid}*{-webkit-print-color-adjust:exact;print-color-adjust:exact}}
)";

std::string mm(double value) {
  return figure(value, 1);
}

std::string heading(Str name) {
  return "<h2>" + base::html_escaped(tr(name)) + "</h2>\n";
}

std::string row(std::string_view name, std::string_view words, bool is_trouble = false) {
  return fmt::format("<tr><th>{}</th><td{}>{}</td></tr>\n", base::html_escaped(name),
                     is_trouble ? " class=\"trouble\"" : "", base::html_escaped(words));
}

/// Colour of a tissue on paper; empty where it is open.
std::string_view ink_of(specimen::Tissue tissue) {
  using specimen::Tissue;
  switch (tissue) {
    case Tissue::kCortical:
    case Tissue::kCanalWall:
      return "#b9ab8b";
    case Tissue::kCancellous:
      return "#e6dcc3";
    case Tissue::kNerve:
      return "#e3b62f";
    case Tissue::kEnamel:
    case Tissue::kDentine:
      return "#d7d7d7";
    case Tissue::kTitanium:
      return "#7f8892";
    case Tissue::kGum:
    case Tissue::kMembrane:
    case Tissue::kLigament:
    case Tissue::kPulp:
      return "#dba5a2";
    default:
      return {};
  }
}

std::string rectangle(double x, double y, double width, double height, std::string_view look) {
  return fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" {}/>\n", base::fixed(x, 2),
                     base::fixed(y, 2), base::fixed(width, 2), base::fixed(height, 2), look);
}

/// Section through the planned axis with hole and sleeve, to scale; y runs downward.
std::string drawing(const specimen::SiteSketch& sketch, const lesson::AttemptSetup& setup) {
  const double cell = sketch.cell_mm;
  const double width = sketch.columns * cell;
  const double height = sketch.rows * cell;
  std::string svg = fmt::format("<svg viewBox=\"{} {} {} {}\" role=\"img\" aria-label=\"{}\">\n",
                                base::fixed(sketch.left_mm, 2), base::fixed(-sketch.top_mm, 2),
                                base::fixed(width, 2), base::fixed(height, 2),
                                base::html_escaped(tr(Str::kPlanFigure)));
  for (int r = 0; r < sketch.rows; ++r) {
    int begin = 0;
    for (int c = 1; c <= sketch.columns; ++c) {
      if (c < sketch.columns && sketch.at(r, c) == sketch.at(r, begin)) {
        continue;
      }
      if (const std::string_view ink = ink_of(sketch.at(r, begin)); !ink.empty()) {
        svg += rectangle(sketch.left_mm + begin * cell, r * cell - sketch.top_mm,
                         (c - begin) * cell, 1.05 * cell, fmt::format("fill=\"{}\"", ink));
      }
      begin = c;
    }
  }
  constexpr std::string_view kDashed =
      "fill=\"none\" stroke=\"#000\" stroke-width=\".2\" stroke-dasharray=\".8 .5\"";
  const double hole_mm = lesson::last_drill_mm(setup);
  svg += rectangle(-0.5 * hole_mm, 0.0, hole_mm, setup.plan.depth_mm, kDashed);
  const specimen::Sleeve& sleeve = *lesson::sleeve_of(setup);
  const double wall_mm = 0.5 * (sleeve.outer_diameter_mm - sleeve.bore_mm);
  for (const double left_mm : {-0.5 * sleeve.outer_diameter_mm, 0.5 * sleeve.bore_mm}) {
    svg += rectangle(left_mm, -setup.guide->gap_mm - sleeve.height_mm, wall_mm, sleeve.height_mm,
                     "fill=\"#5f7180\"");
  }
  return svg + "</svg>\n";
}

std::string sums(const lesson::AttemptSetup& setup, const lesson::GuideRoom& room) {
  std::string out = "<table class=\"sums\">\n<tr>";
  for (const Str head : {Str::kSheetDrill, Str::kSheetSpeed, Str::kSheetParts, Str::kSheetLength}) {
    out += "<th>" + base::html_escaped(tr(head)) + "</th>";
  }
  out += "</tr>\n";
  for (const lesson::GuidedLength& length : room.lengths) {
    out += "<tr>";
    for (const std::string& cell : sum_words(setup, length)) {
      out += "<td>" + base::html_escaped(cell) + "</td>";
    }
    out += "<td class=\"box\">= ________</td></tr>\n";
  }
  return out + "</table>\n";
}

/// The results of the sums, small, for whoever has done them.
std::string lengths_of(const lesson::GuideRoom& room) {
  std::vector<std::string> lengths;
  for (const lesson::GuidedLength& length : room.lengths) {
    lengths.push_back(mm(length.sum_mm()));
  }
  return base::join(lengths, "; ");
}

}  // namespace

std::string site_sheet_html(const Model& model) {
  const lesson::AttemptSetup& setup = *model.setup;
  const lesson::GuideRoom& room = *model.room;
  const specimen::Sleeve& sleeve = *lesson::sleeve_of(setup);
  const std::string lesson = model.lesson != nullptr ? in_language(model.lesson->title) : "";
  const std::string title =
      base::html_escaped(std::string(tr(Str::kSheetTitle)) + (lesson.empty() ? "" : ": " + lesson));
  std::string out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'\">\n<title>{}</title>\n<style>{}</style>\n</head>\n<body>\n<h1>{}</h1>\n",
      language(), title, kStyle, title);
  out += "<p>" + base::html_escaped(approach_words(setup.approach, setup.implant_through_guide)) +
         "</p>\n";
  if (model.sketch.has_value()) {
    out += drawing(*model.sketch, setup);
  }
  out += heading(Str::kPlanTitle) + "<table>\n";
  out += row(tr(specimen::jaw_in(setup.specimen) != nullptr ? Str::kFigureJaw : Str::kFigureBlock),
             specimen_words(setup.specimen));
  out += row(tr(Str::kFigureDepth), say(Str::kDepthToShoulder, mm(setup.plan.depth_mm)));
  if (const specimen::Implant* implant = implant_of(setup)) {
    out += row(tr(Str::kFigureImplant),
               say(Str::kImplantSize, mm(implant->diameter_mm), mm(implant->length_mm)));
  }
  out += "</table>\n" + heading(Str::kRoomLengths);
  out += "<p>" +
         base::html_escaped(say(Str::kSheetOffset, mm(setup.guide->gap_mm), mm(sleeve.height_mm),
                                mm(setup.guide->gap_mm + sleeve.height_mm))) +
         ' ' + base::html_escaped(tr(Str::kSheetNote)) + "</p>\n" + sums(setup, room);
  out += heading(Str::kRoomTitle) + "<table>\n";
  for (const GuideLine& line : guide_lines(setup, room)) {
    out += row(tr(line.name), line.words, line.is_trouble);
  }
  out += "</table>\n" + heading(Str::kSheetBefore) + "<p>";
  for (const Str step : {Str::kStepGuide, Str::kStepKey, Str::kStepStop, Str::kStepCheck}) {
    out += "&#9744; " + base::html_escaped(tr(step)) + "<br>\n";
  }
  out += "</p>\n<p>" + base::html_escaped(tr(Str::kSheetSigned)) + "</p>\n<p class=\"small\">" +
         base::html_escaped(tr(Str::kCaution)) + "</p>\n<p class=\"small\">" +
         base::html_escaped(say(Str::kSheetCompare, lengths_of(room))) + "</p>\n";
  return out + "</body>\n</html>\n";
}

std::string site_sheet_name(const Model& model) {
  return "site-sheet-" + model.setup->site_name + ".html";
}

}  // namespace driftbench::ui
