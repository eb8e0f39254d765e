#include "ui/jaw_findings.h"

#include "base/text.h"
#include "drilling/params.h"
#include "specimen/tooth_number.h"
#include "ui/strings.h"
#include "ui/study_words.h"
#include "ui/words.h"

#include <algorithm>

namespace driftbench::ui {
namespace {

using specimen::Structure;

bool is_plate(Structure structure) {
  return structure == Structure::kFacialPlate || structure == Structure::kLingualPlate ||
         structure == Structure::kBase;
}

std::string event_words(const scoring::JawEvent& event, int site_fdi) {
  const std::string at_s = base::fixed(static_cast<double>(event.step) * drilling::kStep_s, 1);
  if (event.is_going_on) {
    return say(Str::kWentOn, at_s);
  }
  return say(is_plate(event.structure) ? Str::kPerforated : Str::kTouched, at_s,
             structure_words(event.structure, site_fdi));
}

/// What its margin lacks, negative where there is more. The canal speaks for its wall.
double lack_mm(const scoring::ClearanceMeasure& one) {
  constexpr double kNever_mm = -1e3;
  return one.structure == Structure::kCanalWall ? kNever_mm : one.keep_mm - one.achieved_mm;
}

}  // namespace

bool is_jaw_event(const scoring::Reason& reason) {
  return reason.measure.rfind("touched:", 0) == 0 || reason.measure == "went-on";
}

std::vector<std::string> jaw_findings(const lesson::AttemptSetup& setup,
                                      const scoring::Results& results) {
  const specimen::JawSite* site = specimen::jaw_in(setup.specimen);
  if (site == nullptr || !results.jaw) {
    return {};
  }
  const int fdi = site->jaw.site_fdi;
  const scoring::JawMeasures& jaw = *results.jaw;
  std::vector<std::string> lines;
  bool is_lingual = false;
  for (const scoring::JawEvent& event : jaw.events) {
    lines.push_back(event_words(event, fdi));
    is_lingual = is_lingual || event.structure == Structure::kLingualPlate;
  }
  if (!jaw.events.empty()) {
    lines.emplace_back(
        tr(is_lingual && !specimen::is_upper(fdi) ? Str::kAirwayDanger : Str::kNoFeelToTrust));
  }
  const auto nearest =
      std::max_element(jaw.clearances.begin(), jaw.clearances.end(),
                       [](const auto& a, const auto& b) { return lack_mm(a) < lack_mm(b); });
  if (nearest != jaw.clearances.end() && jaw.events.empty()) {
    lines.push_back(say(Str::kClearanceLeft, structure_words(nearest->structure, fdi),
                        amount(nearest->achieved_mm, 1), amount(nearest->planned_mm, 1),
                        amount(nearest->keep_mm, 1)));
  }
  if (jaw.next) {
    lines.push_back(say(Str::kNextTouch, base::fixed(jaw.next->error_factor, 1),
                        structure_words(jaw.next->structure, fdi)));
  }
  return lines;
}

}  // namespace driftbench::ui
