#include "classroom/outputs.h"

#include "classroom/methods.h"
#include "classroom/report.h"
#include "classroom/summary_json.h"
#include "classroom/tables.h"

namespace driftbench::classroom {

const std::array<Output, 6> kOutputs{{
    {"report.html", report_html},
    {"holes.csv", holes_csv},
    {"learners.csv", learners_csv},
    {"codebook.md", [](const Class&) { return codebook_md(); }},
    {"methods.md", methods_md},
    {kSummaryFile, summary_json},
}};

}  // namespace driftbench::classroom
