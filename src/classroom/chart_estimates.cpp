// What learners thought against what was measured.
#include "classroom/axes.h"
#include "classroom/charts.h"
#include "classroom/learner_summary.h"
#include "classroom/words.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace driftbench::classroom {
namespace {

struct Judged {
  double estimated = 0.0;
  double measured = 0.0;
  stats::Approach approach = stats::Approach::kFreehand;
};

/// One square: across the measured, up the estimated, the diagonal is a right estimate.
void draw_square(Picture& picture, const Part& part, const Frame& frame,
                 const std::vector<Judged>& judged) {
  draw_frame(picture, frame);
  picture.line(frame.x(frame.x.low), frame.y(frame.y.low), frame.x(frame.x.high),
               frame.y(frame.y.high), "zero");
  for (const Judged& one : judged) {
    const double x = frame.x(one.measured);
    const double y = frame.y(one.estimated);
    picture.estimate_mark(x, y, 10.0);
    picture.mark(x, y, 5.0, one.approach, part.source);
  }
}

}  // namespace

std::vector<Picture> estimates_chart(const Class& whole, const Part& part) {
  std::vector<Judged> distances;
  std::vector<Judged> depths;
  std::set<std::string_view> learners;
  double far = 0.0;
  double deep = 0.0;
  for (const Entry* entry : thinned(part)) {
    if (!entry->estimate.has_value() || !is_shown(part, entry->approach)) {
      continue;
    }
    if (const std::optional<double> measured = entry_distance_mm(*entry)) {
      const double estimated =
          std::hypot(entry->estimate->entry_md_mm, entry->estimate->entry_bl_mm);
      distances.push_back({estimated, *measured, entry->approach});
      far = std::max({far, estimated, *measured});
      learners.insert(entry->learner);
    }
    if (entry->measures.depth_mm.has_value()) {
      const double estimated = entry->estimate->depth_error_mm;
      depths.push_back({estimated, *entry->measures.depth_mm, entry->approach});
      deep = std::max({deep, std::abs(estimated), std::abs(*entry->measures.depth_mm)});
    }
  }
  if (distances.empty() || !whole.shows(learners.size())) {
    return {};
  }
  Picture picture(1000.0, 560.0, "Own estimate against measured",
                  "Hollow squares: estimates. On the diagonal the estimate was right.");
  const double end = axis_end(far, 1.0);
  draw_square(picture, part,
              {{0.0, end, 70.0, 470.0},
               {0.0, end, 470.0, 70.0},
               "measured entry error, mm",
               "estimated entry error, mm"},
              distances);
  const double reach = axis_end(deep, 1.0);
  draw_square(picture, part,
              {{-reach, reach, 570.0, 970.0},
               {-reach, reach, 470.0, 70.0},
               "measured depth error, + deeper, mm",
               "estimated depth error, mm"},
              depths);
  return {picture};
}

}  // namespace driftbench::classroom
