#include "ui/explain_words.h"

#include "base/text.h"
#include "drilling/params.h"
#include "ui/strings.h"
#include "ui/words.h"

#include <algorithm>
#include <cmath>

namespace driftbench::ui {

namespace {

using scoring::Moment;
using scoring::MomentKind;

constexpr std::size_t kMostSentences = 3;

std::string seconds(const Moment& moment) {
  return base::fixed(static_cast<double>(moment.step) * drilling::kStep_s, 2);
}

// "the 2.0 mm drill", or "the drill" when the kit does not have that index.
std::string drill_name(const Moment& moment, const lesson::AttemptSetup& setup) {
  const auto index = static_cast<std::size_t>(moment.drill_index);
  if (moment.drill_index < 0 || index >= setup.kit.drills.size()) {
    return std::string(tr(Str::kTheDrill));
  }
  return say(Str::kTheDrillOf, base::fixed(setup.kit.drills[index].diameter_mm, 1));
}

// How much a moment explains; moments with weight 0 are left out. What the tolerance allows past
// the planned depth is no news.
double weight(const Moment& moment, const scoring::Tolerance& tolerance) {
  switch (moment.kind) {
    case MomentKind::kLeftLine:
      return 4.0 + moment.amount_mm;
    case MomentKind::kGuideCarries:
      return 3.0 + 0.3 * moment.force_n;
    case MomentKind::kSideForce:
      return moment.amount_mm < kOnLine_mm ? 0.3 : 2.0 + moment.force_n * (0.2 + moment.amount_mm);
    case MomentKind::kPlunge:
      return 1.5 + 0.05 * moment.speed_mm_per_s;
    case MomentKind::kPastDepth:
      return moment.amount_mm <= tolerance.depth_high_mm ? 0.0 : 1.0 + 2.0 * moment.amount_mm;
    case MomentKind::kSofter:
      return 0.2;
    case MomentKind::kHarder:
      return 0.1;
    case MomentKind::kFirstContact:
      return 0.0;
  }
  return 0.0;
}

constexpr std::int64_t kSoon_steps = 250;

// The same push may be found as a side force, as a line that was left, and as what the sleeve held.
bool is_same_push(const Moment& a, const Moment& b) {
  const auto is_push = [](const Moment& moment) {
    return moment.kind == MomentKind::kSideForce || moment.kind == MomentKind::kLeftLine ||
           moment.kind == MomentKind::kGuideCarries;
  };
  return is_push(a) && is_push(b) && a.drill_index == b.drill_index &&
         std::abs(a.step - b.step) <= kSoon_steps;
}

// Pushed within a quarter of a second after the same drill touched.
bool at_first_contact(const Moment& moment, std::span<const Moment> moments) {
  return std::any_of(moments.begin(), moments.end(), [&moment](const Moment& other) {
    return other.kind == MomentKind::kFirstContact && other.drill_index == moment.drill_index &&
           moment.step >= other.step && moment.step - other.step <= kSoon_steps;
  });
}

std::string push_words(const Moment& moment, std::span<const Moment> moments,
                       const lesson::AttemptSetup& setup, const SiteWords& words) {
  const std::string where = direction_words(words, moment.direction_md, moment.direction_bl);
  const std::string force = base::fixed(moment.force_n, 1);
  std::string sentence =
      at_first_contact(moment, moments)
          ? say(Str::kExplainSideAtContact, seconds(moment), drill_name(moment, setup), force,
                where)
          : say(Str::kExplainSide, seconds(moment), amount(std::max(0.0, moment.depth_mm), 1),
                drill_name(moment, setup), force, where);
  if (moment.amount_mm >= kOnLine_mm) {
    sentence += say(Str::kExplainMoved, base::fixed(moment.amount_mm, 1));
  } else {
    sentence += tr(Str::kExplainHeld);
  }
  return sentence;
}

std::string sentence_of(const Moment& moment, std::span<const Moment> moments,
                        const lesson::AttemptSetup& setup, const SiteWords& words) {
  const std::string where = direction_words(words, moment.direction_md, moment.direction_bl);
  const std::string drill = drill_name(moment, setup);
  const std::string depth = amount(std::max(0.0, moment.depth_mm), 1);
  switch (moment.kind) {
    case MomentKind::kSideForce:
      return push_words(moment, moments, setup, words);
    case MomentKind::kGuideCarries:
      return say(Str::kExplainGuide, seconds(moment), base::fixed(moment.force_n, 1), drill,
                 where) +
             (moment.amount_mm >= kOnLine_mm
                  ? say(Str::kExplainGuideMoved, base::fixed(moment.amount_mm, 1))
                  : std::string(tr(Str::kExplainGuideHeld)));
    case MomentKind::kLeftLine:
      if (moment.force_n > 0.0 && !where.empty()) {
        return push_words(moment, moments, setup, words);
      }
      return where.empty() ? say(Str::kExplainLeftLinePlain, seconds(moment), drill)
                           : say(Str::kExplainLeftLine, seconds(moment), drill, where);
    case MomentKind::kPlunge:
      return say(Str::kExplainPlunge, seconds(moment), depth, drill,
                 base::fixed(moment.speed_mm_per_s, 0));
    case MomentKind::kPastDepth:
      return moment.amount_mm >= kOnLine_mm ? say(Str::kExplainPastDepthBy, seconds(moment), drill,
                                                  base::fixed(moment.amount_mm, 1))
                                            : say(Str::kExplainPastDepth, seconds(moment), drill);
    case MomentKind::kSofter:
      return say(Str::kExplainSofter, seconds(moment), depth, drill);
    case MomentKind::kHarder:
      return say(Str::kExplainHarder, seconds(moment), depth, drill);
    case MomentKind::kFirstContact:
      break;
  }
  return {};
}

// The trace names no cause: what is left is the aim and the hold.
std::string quiet_words(const lesson::AttemptSetup& setup, const scoring::Results& results) {
  if (!results.hole.has_value()) {
    return results.no_hole_reason.empty() ? std::string(tr(Str::kNoHole)) : results.no_hole_reason;
  }
  const double off = results.hole->deviation.entry_lateral_mm;
  if (off <= setup.tolerance.entry_mm) {
    return say(Str::kExplainQuietInside, base::fixed(off, 1));
  }
  return say(Str::kExplainQuietOutside, base::fixed(off, 1));
}

}  // namespace

namespace {

// The weightiest moment of each kind, one for each push, the heaviest first.
std::vector<const Moment*> weightiest(std::span<const Moment> moments,
                                      const scoring::Tolerance& tolerance) {
  std::vector<const Moment*> sorted;
  for (const Moment& moment : moments) {
    if (weight(moment, tolerance) > 0.0) {
      sorted.push_back(&moment);
    }
  }
  std::stable_sort(sorted.begin(), sorted.end(), [&tolerance](const Moment* a, const Moment* b) {
    return weight(*a, tolerance) > weight(*b, tolerance);
  });
  // The first drill that left its line is the cause; the others only followed.
  const auto first_left = std::find_if(moments.begin(), moments.end(), [](const Moment& moment) {
    return moment.kind == MomentKind::kLeftLine;
  });
  std::vector<const Moment*> chosen;
  for (const Moment* moment : sorted) {
    const bool is_follower = moment->kind == MomentKind::kLeftLine && moment != &*first_left;
    const bool is_said = std::any_of(chosen.begin(), chosen.end(), [moment](const Moment* other) {
      return other->kind == moment->kind || is_same_push(*other, *moment);
    });
    if (!is_follower && !is_said) {
      chosen.push_back(moment);
    }
  }
  return chosen;
}

// The last of the drills that left its line after the first one had; null without one.
const Moment* last_follower(std::span<const Moment> moments) {
  const Moment* first = nullptr;
  const Moment* last = nullptr;
  for (const Moment& moment : moments) {
    if (moment.kind != MomentKind::kLeftLine) {
      continue;
    }
    if (first == nullptr) {
      first = &moment;
    } else if (moment.drill_index != first->drill_index) {
      last = &moment;
    }
  }
  return last;
}

}  // namespace

std::vector<Explanation> explain_words(std::span<const Moment> moments,
                                       const lesson::AttemptSetup& setup,
                                       const scoring::Results& results) {
  const SiteWords words = site_words(setup);
  const std::vector<const Moment*> chosen = weightiest(moments, setup.tolerance);
  const Moment* follower = last_follower(moments);
  std::vector<Explanation> sentences;
  for (const Moment* moment : chosen) {
    // What the ground was like is said only where nothing weightier is known.
    if (sentences.size() < kMostSentences &&
        (weight(*moment, setup.tolerance) >= 1.0 || sentences.empty())) {
      sentences.push_back({sentence_of(*moment, moments, setup, words), moment->step});
    }
    if (moment->kind == MomentKind::kLeftLine && follower != nullptr &&
        sentences.size() < kMostSentences) {
      sentences.push_back(
          {say(Str::kExplainFollowed, base::fixed(follower->amount_mm, 1),
               direction_words(words, follower->direction_md, follower->direction_bl)),
           follower->step});
    }
  }
  std::stable_sort(sentences.begin(), sentences.end(),
                   [](const Explanation& a, const Explanation& b) { return a.step < b.step; });
  const bool something_moved = std::any_of(chosen.begin(), chosen.end(), [](const Moment* moment) {
    return moment->kind == MomentKind::kSideForce || moment->kind == MomentKind::kGuideCarries ||
           moment->kind == MomentKind::kLeftLine;
  });
  if (!something_moved && sentences.size() < kMostSentences) {
    sentences.push_back({quiet_words(setup, results), -1});
  }
  return sentences;
}

std::string moment_label(const Moment& moment) {
  switch (moment.kind) {
    case MomentKind::kFirstContact:
      return std::string(tr(Str::kMomentContact));
    case MomentKind::kSideForce:
      return say(Str::kMomentSide, base::fixed(moment.force_n, 1));
    case MomentKind::kHarder:
      return std::string(tr(Str::kMomentHarder));
    case MomentKind::kSofter:
      return std::string(tr(Str::kMomentSofter));
    case MomentKind::kLeftLine:
      return std::string(tr(Str::kMomentLeftLine));
    case MomentKind::kGuideCarries:
      return say(Str::kMomentGuide, base::fixed(moment.force_n, 1));
    case MomentKind::kPlunge:
      return std::string(tr(Str::kMomentPlunge));
    case MomentKind::kPastDepth:
      return std::string(tr(Str::kMomentPastDepth));
  }
  return {};
}

}  // namespace driftbench::ui
