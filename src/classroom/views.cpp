#include "classroom/views.h"

#include "classroom/charts.h"
#include "classroom/words.h"

#include <array>

namespace driftbench::classroom {
namespace {

constexpr std::string_view kNoHoles = "Nothing to draw: no measured holes.";

constexpr std::array<View, static_cast<std::size_t>(ViewId::kCount)> kViews{{
    {"Who did what",
     "A filled mark: at least one attempt inside every tolerance. A hollow mark: none yet, or not "
     "judged.",
     completion_grid, kNoHoles},
    {"Aim or steadiness",
     "High: off on average, look at the aim. Right: scattered, look at the hand. Needs two holes "
     "by an approach.",
     bias_map, "Nobody has two measured holes by one approach."},
    {"Each learner's holes",
     "All on one scale, 3 mm from the plan to each edge, lingual up, distal right. Arrow: from the "
     "plan to the average. Dotted ring: tolerance. Beyond the edge: an arrow with the distance in "
     "mm.",
     small_targets, kNoHoles},
    {"The class",
     "Small: holes. Large: averages of learners. Ellipse: where the average of the next learner "
     "falls with 95 %; none below six learners, dashed below ten. It rests on the learners, never "
     "on all holes together.",
     pooled_target, kNoHoles},
    {"The same learners by both techniques",
     "Left: one line a learner. Right: each learner's difference, above zero = better by sleeve, "
     "with the mean and its interval.",
     paired_lines,
     "No learner has measured holes by both techniques, or too few to show without names.", false},
    {"Attempt by attempt",
     "Thin: learners. Thick: the median, where five or more have that attempt; a median curve is "
     "nobody's curve. Dotted: tolerance.",
     learning_curves, kNoHoles},
    {"What they thought",
     "On the dashed line the estimate was right. Above it: thought worse than it was.",
     estimates_chart, "No estimates, or too few to show without names.", false},
    {"Hole size", "Thick line: the median.", hole_sizes, "No hole diameters.", false},
}};

}  // namespace

const View& view(ViewId id) {
  return kViews[static_cast<std::size_t>(id)];
}

std::string nothing_sentence(const View& view, const Part& part) {
  return view.rests_on_groups && !part.hidden.empty() ? hidden_sentence(part)
                                                      : std::string(view.nothing);
}

std::vector<EventRow> critical_events(const Class& whole, const Part& part) {
  std::vector<EventRow> rows;
  for (const LearnerSummary& summary : part.learners) {
    if (!is_shown(part, summary.approach)) {
      continue;
    }
    for (const Entry* entry : summary.entries) {
      for (const std::string& event : entry->events) {
        rows.push_back(
            {label_of(whole, summary.learner), std::string(approach_word(entry->approach)),
             entry->period.has_value() ? std::to_string(*entry->period) : "\xE2\x80\x93", event});
      }
    }
  }
  return rows;
}

}  // namespace driftbench::classroom
