// Words of the study screen: structures, amounts, places.
#pragma once

#include "lesson/case_plan_review.h"
#include "ui/study_model.h"

#include <string>

namespace driftbench::ui {

/// "Nerve canal", "Palatal plate" ..., as they are called at this tooth.
[[nodiscard]] std::string structure_words(specimen::Structure structure, int site_fdi);

/// The common teaching value and where it comes from, one sentence.
[[nodiscard]] std::string margin_source(specimen::Structure structure);

/// "2.3 mm", or "inside by 0.4 mm" for a negative distance.
[[nodiscard]] std::string clearance_amount(double distance_mm);

/// "keeps 2.0 mm" or "0.6 mm short of 2.0 mm".
[[nodiscard]] std::string clearance_verdict(const lesson::PlanClearance& row);

/// "12.4 mm" or "34°".
[[nodiscard]] std::string measured_words(const Measurement& measured);

/// Where the cross-hair is and what is there, in words of the jaw.
[[nodiscard]] std::string cross_words(const StudyView& study, const StudyState& state);

}  // namespace driftbench::ui
