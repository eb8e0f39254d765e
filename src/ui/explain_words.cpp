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

// How much a moment explains; moments with weight 0 are left out.
double weight(const Moment& moment) {
  switch (moment.kind) {
    case MomentKind::kSideForce:
      return 1.0 + moment.force_n * (0.2 + moment.amount_mm);
    case MomentKind::kGuideCarries:
      return 1.0 + 0.3 * moment.force_n;
    case MomentKind::kPastDepth:
      return 1.5 + 2.0 * moment.amount_mm;
    case MomentKind::kPlunge:
      return 1.2 + 0.05 * moment.speed_mm_per_s;
    case MomentKind::kLeftLine:
      return 0.8;
    case MomentKind::kSofter:
      return 0.6;
    case MomentKind::kHarder:
      return 0.5;
    case MomentKind::kFirstContact:
      return 0.0;
  }
  return 0.0;
}

// Pushed within a quarter of a second after the same drill touched.
bool at_first_contact(const Moment& moment, std::span<const Moment> moments) {
  constexpr std::int64_t kSoon_steps = 250;
  return std::any_of(moments.begin(), moments.end(), [&moment](const Moment& other) {
    return other.kind == MomentKind::kFirstContact && other.drill_index == moment.drill_index &&
           moment.step >= other.step && moment.step - other.step <= kSoon_steps;
  });
}

std::string side_force_words(const Moment& moment, std::span<const Moment> moments,
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
      return side_force_words(moment, moments, setup, words);
    case MomentKind::kGuideCarries:
      return say(Str::kExplainGuide, seconds(moment), base::fixed(moment.force_n, 1), drill, where);
    case MomentKind::kLeftLine:
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

std::vector<Explanation> explain_words(std::span<const Moment> moments,
                                       const lesson::AttemptSetup& setup,
                                       const scoring::Results& results) {
  std::vector<const Moment*> chosen;
  for (const Moment& moment : moments) {
    if (weight(moment) > 0.0) {
      chosen.push_back(&moment);
    }
  }
  std::stable_sort(chosen.begin(), chosen.end(),
                   [](const Moment* a, const Moment* b) { return weight(*a) > weight(*b); });
  if (chosen.size() > kMostSentences) {
    chosen.resize(kMostSentences);
  }
  std::stable_sort(chosen.begin(), chosen.end(),
                   [](const Moment* a, const Moment* b) { return a->step < b->step; });

  const SiteWords words = site_words(setup);
  std::vector<Explanation> sentences;
  for (const Moment* moment : chosen) {
    sentences.push_back({sentence_of(*moment, moments, setup, words), moment->step});
  }
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
