// Bias against spread, and targets: each learner's and the class's.
#include "base/text.h"
#include "classroom/axes.h"
#include "classroom/charts.h"
#include "classroom/learner_summary.h"
#include "classroom/words.h"
#include "stats/plane_scatter.h"
#include "stats/series.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <string>

namespace driftbench::classroom {
namespace {

using stats::Approach;

/// A square target: md to the right, bl up, the plan in the middle.
struct Target {
  double x = 0.0;
  double y = 0.0;
  double half = 0.0;      ///< picture units
  double reach_mm = 3.0;  ///< from the plan to the edge

  [[nodiscard]] double px(double md_mm) const { return x + md_mm / reach_mm * half; }

  [[nodiscard]] double py(double bl_mm) const { return y - bl_mm / reach_mm * half; }
};

constexpr double kReach_mm = 3.0;

/// A hole, or at the edge an arrow with its distance.
void draw_hole(Picture& picture, const Target& target, const Entry& entry, double radius,
               std::string_view style) {
  const double md = *entry.measures.entry_md_mm;
  const double bl = *entry.measures.entry_bl_mm;
  const double beyond = std::max(std::abs(md), std::abs(bl)) / target.reach_mm;
  if (beyond <= 1.0) {
    picture.mark(target.px(md), target.py(bl), radius, entry.approach, entry.source, style);
    return;
  }
  constexpr double kArrow = 0.82;
  constexpr double kWords = 0.70;
  picture.arrow(target.px(md / beyond * kArrow), target.py(bl / beyond * kArrow),
                target.px(md / beyond), target.py(bl / beyond), "arrow");
  picture.text(target.px(md / beyond * kWords), target.py(bl / beyond * kWords),
               base::fixed(std::hypot(md, bl), 1), Anchor::kMiddle, "small");
}

void draw_target(Picture& picture, const Target& target, const Part& part) {
  picture.rect(target.x - target.half, target.y - target.half, 2.0 * target.half, 2.0 * target.half,
               "field");
  for (int ring = 1; ring <= static_cast<int>(target.reach_mm); ++ring) {
    picture.circle(target.x, target.y, ring / target.reach_mm * target.half, "ring");
  }
  if (part.tolerance.has_value()) {
    picture.circle(target.x, target.y, part.tolerance->entry_mm / target.reach_mm * target.half,
                   "limit");
  }
}

/// Ellipse of the learners' means, dashed where it rests on few.
void draw_ellipse(Picture& picture, const Target& target, const std::vector<math::Vec2>& means,
                  Approach approach) {
  constexpr std::size_t kMany = 10;
  const base::Result<stats::PlaneScatter> scatter = stats::plane_scatter(means);
  if (!scatter) {
    return;
  }
  const base::Result<stats::Ellipse> ellipse = stats::prediction_ellipse(*scatter, stats::kLevel);
  if (!ellipse) {
    return;
  }
  const double unit = target.half / target.reach_mm;
  picture.ellipse(
      target.px(scatter->mean.x), target.py(scatter->mean.y), ellipse->semi_major_mm * unit,
      ellipse->semi_minor_mm * unit, -ellipse->angle_deg,
      fmt::format("ellipse-{}{}", stats::kApproachNames[static_cast<std::size_t>(approach)],
                  means.size() < kMany ? " dashed" : ""));
}

/// All holes of one learner, and from the plan an arrow to the average of each approach.
void draw_learner(Picture& picture, const Target& target, const Part& part,
                  const std::vector<const LearnerSummary*>& learner) {
  draw_target(picture, target, part);
  picture.plan(target.x, target.y, 12.0);
  for (const LearnerSummary* summary : learner) {
    for (const Entry* entry : summary->entries) {
      if (entry_distance_mm(*entry).has_value()) {
        draw_hole(picture, target, *entry, 6.0, "");
      }
    }
    if (summary->bias) {
      const math::Vec2& bias = *summary->bias;
      const double beyond =
          std::max({1.0, std::abs(bias.x) / kReach_mm, std::abs(bias.y) / kReach_mm});
      picture.arrow(target.x, target.y, target.px(bias.x / beyond), target.py(bias.y / beyond),
                    "arrow");
    }
  }
}

/// What the marks stand for, one below the other.
void key_of_marks(Picture& picture, double x, double y, const Part& part,
                  const std::array<bool, stats::kApproachNames.size()>& is_drawn) {
  constexpr double kLine = 48.0;  // small pictures on the screen have words of a least size
  for (std::size_t i = 0; i < is_drawn.size(); ++i) {
    if (is_drawn[i]) {
      const auto approach = static_cast<Approach>(i);
      picture.mark(x, y, 9.0, approach, part.source);
      picture.text(x + 18.0, y + 5.0, approach_word(approach), Anchor::kStart);
      y += kLine;
    }
  }
}

void name_rings(Picture& picture, const Target& target) {
  for (int ring = 1; ring <= static_cast<int>(target.reach_mm); ++ring) {
    const double y = target.y + ring / target.reach_mm * target.half - 5.0;
    picture.text(target.x + 4.0, y, fmt::format("{}{}", ring, ring == 1 ? " mm" : ""),
                 Anchor::kStart, "faint");
  }
}

/// Names beside marks, those farthest from the middle first; a name without free room between
/// `from` and `to` is left out.
void name_marks(Picture& picture, double from, double to, const std::vector<math::Vec2>& at,
                const std::vector<std::string>& names) {
  constexpr double kMark = 12.0;
  constexpr double kLetter = 12.0;  // more than on paper: on the screen words have a least size
  constexpr double kHigh = 24.0;

  struct Box {
    double left, top, right, bottom;
  };

  const auto meet = [](const Box& a, const Box& b) {
    return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
  };
  std::vector<Box> taken;
  math::Vec2 middle(0.0);
  for (const math::Vec2& p : at) {
    taken.push_back({p.x - kMark, p.y - kMark, p.x + kMark, p.y + kMark});
    middle += p / stats::real(at.size());
  }
  std::vector<std::size_t> order(at.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto away = [&](std::size_t i) {
    return std::hypot(at[i].x - middle.x, at[i].y - middle.y);
  };
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return away(a) > away(b); });
  for (const std::size_t i : order) {
    const double wide = kLetter * stats::real(names[i].size());
    for (const bool is_right : {true, false}) {
      const double left = at[i].x + (is_right ? kMark + 1.0 : -kMark - 1.0 - wide);
      const Box box{left, at[i].y - 0.5 * kHigh, left + wide, at[i].y + 0.5 * kHigh};
      if (box.left < from || box.right > to) {
        continue;
      }
      if (std::none_of(taken.begin(), taken.end(), [&](const Box& b) { return meet(box, b); })) {
        taken.push_back(box);
        picture.text(is_right ? left + 1.0 : left + wide - 1.0, at[i].y + 5.0, names[i],
                     is_right ? Anchor::kStart : Anchor::kEnd, "small");
        break;
      }
    }
  }
}

void name_edges(Picture& picture, const Target& target) {
  constexpr double kGap = 12.0;
  picture.text(target.x, target.y - target.half - kGap, "Lingual", Anchor::kMiddle, "name");
  picture.text(target.x, target.y + target.half + 2.4 * kGap, "Buccal", Anchor::kMiddle, "name");
  picture.text(target.x - target.half - kGap, target.y + 6.0, "Mesial", Anchor::kEnd, "name");
  picture.text(target.x + target.half + kGap, target.y + 6.0, "Distal", Anchor::kStart, "name");
}

}  // namespace

std::vector<Picture> bias_map(const Class& whole, const Part& part) {
  std::vector<const LearnerSummary*> shown;
  double largest = 0.0;
  for (const LearnerSummary& summary : part.learners) {
    if (is_shown(part, summary.approach) && summary.bias_mm && summary.spread_mm) {
      shown.push_back(&summary);
      largest = std::max({largest, *summary.bias_mm, *summary.spread_mm});
    }
  }
  if (shown.empty()) {
    return {};
  }
  const double end = axis_end(1.05 * largest, 1.0);
  Picture picture(
      900.0, 620.0, "Bias against spread",
      "One mark a learner and approach. Across: how scattered; up: how far off on average.");
  const Frame frame{{0.0, end, 80.0, 860.0},
                    {0.0, end, 540.0, 60.0},
                    "Spread: how scattered, mm",
                    "Bias: how far off on average, mm"};
  draw_frame(picture, frame);
  picture.text(frame.x.to, frame.y.to - 12.0, "high: look at the aim", Anchor::kEnd, "faint");
  picture.text(frame.x.to, frame.y.from + 48.0, "right: look at the hand", Anchor::kEnd, "faint");
  const std::size_t step = shown.size() / kMaxMarks + 1;
  for (std::size_t i = 0; i < shown.size(); i += step) {
    const LearnerSummary* summary = shown[i];
    picture.mark(frame.x(*summary->spread_mm), frame.y(*summary->bias_mm), 10.0, summary->approach,
                 part.source);
  }
  if (whole.names.has_value() && shown.size() <= kMaxPictured) {
    std::vector<math::Vec2> at;
    std::vector<std::string> names;
    for (const LearnerSummary* summary : shown) {
      at.emplace_back(frame.x(*summary->spread_mm), frame.y(*summary->bias_mm));
      names.push_back(label_of(whole, summary->learner));
    }
    name_marks(picture, frame.x.from, frame.x.to, at, names);
  }
  std::array<bool, stats::kApproachNames.size()> is_drawn{};
  for (const LearnerSummary* summary : shown) {
    is_drawn[static_cast<std::size_t>(summary->approach)] = true;
  }
  key_of_marks(picture, frame.x.to - 110.0, frame.y.to + 30.0, part, is_drawn);
  return {picture};
}

std::vector<Picture> small_targets(const Class& whole, const Part& part) {
  std::vector<std::vector<const LearnerSummary*>> learners;
  for (const LearnerSummary& summary : part.learners) {
    if (!is_shown(part, summary.approach)) {
      continue;
    }
    if (learners.empty() || learners.back().front()->learner != summary.learner) {
      learners.emplace_back();
    }
    learners.back().push_back(&summary);
  }
  if (learners.empty()) {
    return {};
  }
  learners.resize(std::min(learners.size(), kMaxPictured));
  constexpr std::size_t kColumns = 4;
  constexpr double kWide = 300.0;
  constexpr double kHigh = 330.0;
  // A picture for each row, so that paper can break between them.
  std::vector<Picture> pictures;
  for (std::size_t first = 0; first < learners.size(); first += kColumns) {
    Picture picture(kWide * kColumns, kHigh, "A target for each learner",
                    "Entry points around the plan, the same scale for all: 3 mm to each edge.");
    for (std::size_t i = first; i < std::min(first + kColumns, learners.size()); ++i) {
      const Target target{kWide * (stats::real(i - first) + 0.5), 180.0, 130.0, kReach_mm};
      picture.text(target.x, target.y - target.half - 12.0,
                   label_of(whole, learners[i].front()->learner), Anchor::kMiddle, "name");
      draw_learner(picture, target, part, learners[i]);
    }
    pictures.push_back(std::move(picture));
  }
  return pictures;
}

std::vector<Picture> pooled_target(const Class&, const Part& part) {
  std::array<std::vector<math::Vec2>, stats::kApproachNames.size()> means;
  for (const LearnerSummary& summary : part.learners) {
    if (is_shown(part, summary.approach) && summary.bias) {
      means[static_cast<std::size_t>(summary.approach)].push_back(*summary.bias);
    }
  }
  if (std::all_of(means.begin(), means.end(), [](const auto& of) { return of.empty(); })) {
    return {};
  }
  const Target target{450.0, 360.0, 300.0, kReach_mm};
  Picture picture(
      900.0, 720.0, "The class on one target",
      "Small faint marks are holes, large marks the means of learners. Rings stand 1 mm apart.");
  draw_target(picture, target, part);
  name_edges(picture, target);
  for (const Entry* entry : thinned(part)) {
    if (is_shown(part, entry->approach) && entry_distance_mm(*entry).has_value()) {
      draw_hole(picture, target, *entry, 4.0, "hole");
    }
  }
  picture.begin_clip(target.x - target.half, target.y - target.half, 2.0 * target.half,
                     2.0 * target.half);
  for (std::size_t i = 0; i < means.size(); ++i) {
    draw_ellipse(picture, target, means[i], static_cast<Approach>(i));
  }
  picture.end_clip();
  std::array<bool, stats::kApproachNames.size()> is_drawn{};
  for (std::size_t i = 0; i < means.size(); ++i) {
    is_drawn[i] = !means[i].empty();
    const std::size_t step = means[i].size() / kMaxMarks + 1;
    for (std::size_t k = 0; k < means[i].size(); k += step) {
      const math::Vec2& mean = means[i][k];
      if (std::max(std::abs(mean.x), std::abs(mean.y)) <= kReach_mm) {
        picture.mark(target.px(mean.x), target.py(mean.y), 10.0, static_cast<Approach>(i),
                     part.source);
      }
    }
  }
  picture.plan(target.x, target.y, 22.0);
  name_rings(picture, target);
  key_of_marks(picture, 30.0, 40.0, part, is_drawn);
  return {picture};
}

}  // namespace driftbench::classroom
