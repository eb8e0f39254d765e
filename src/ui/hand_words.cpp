#include "ui/hand_words.h"

#include "base/text.h"
#include "lesson/instruments.h"
#include "math/angle.h"
#include "ui/strings.h"

#include <cmath>

namespace driftbench::ui {
namespace {

struct Words {
  std::string text;

  void add(const std::string& more, std::string_view between) {
    text += text.empty() ? std::string_view() : between;
    text += more;
  }
};

// Both parts of a pair that are not nothing, in whole steps; empty when both are.
std::string pair_words(math::Vec2 value, double step, int decimals, Str part) {
  Words words;
  for (int i = 0; i < 2; ++i) {
    const double steps = std::round(value[i] / step);
    if (steps == 0.0) {
      continue;
    }
    const Str side = i == 0 ? (steps > 0.0 ? Str::kToTheRight : Str::kToTheLeft)
                            : (steps > 0.0 ? Str::kToTheFar : Str::kToTheNear);
    words.add(say(part, base::fixed(std::abs(steps) * step, decimals), tr(side)), ", ");
  }
  return words.text;
}

}  // namespace

std::string lean_words(double lean_x_rad, double lean_y_rad) {
  const auto degrees = [](double rad) { return math::to_degrees(math::Radians(rad)).value; };
  const std::string lean =
      pair_words({degrees(lean_x_rad), degrees(lean_y_rad)}, 1.0, 0, Str::kHandDegrees);
  return lean.empty() ? std::string(tr(Str::kHandUpright)) : say(Str::kHandLeans, lean);
}

std::string hand_words(const session::SessionView& view, const specimen::Kit& kit) {
  const specimen::Drill* drill = lesson::item_at(kit.drills, view.drill_index);
  if (drill == nullptr) {
    return {};
  }
  constexpr double kSeen_mm = 0.25;
  const math::Vec3& tip = view.pose.tip_mm;
  const std::string place = pair_words({tip.x, tip.y}, kSeen_mm, 2, Str::kHandMillimetres);
  Words words;
  words.add(say(Str::kHandTip, place.empty() ? tr(Str::kHandMiddle) : std::string_view(place)), "");
  words.add(lean_words(view.pose.axis_out_unit.x, view.pose.axis_out_unit.y), "; ");
  double past_mm = 0.0;
  for (const double line_mm : drill->depth_lines_mm) {
    if (line_mm <= view.shoulder_depth_mm + 0.05) {
      past_mm = std::max(past_mm, line_mm);
    }
  }
  if (past_mm > 0.0) {
    words.add(say(Str::kHandPast, base::fixed(past_mm, 0)), "; ");
  }
  return words.text;
}

}  // namespace driftbench::ui
