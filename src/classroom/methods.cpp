#include "classroom/methods.h"

#include "classroom/summary_json.h"
#include "classroom/words.h"
#include "session/session.h"

#include <fmt/format.h>

namespace driftbench::classroom {
namespace {

constexpr std::string_view kDefinitions = R"(
## Measures

Every number is the difference from the plan and keeps its sign: mesio-distal + distal (in a foam block: toward the
second half), bucco-lingual + lingual, depth + deeper. The entry of a hole is its fitted axis (total least squares
through the centroids of its slices) in the planned platform plane; its depth is that of the floor along the planned
axis. Of an implant: the centre of its platform. The angle is that between both axes in space. The measuring code is
given geometry only, never the technique: it is blind by construction.

An unsigned distance or angle is never negative, so its mean rises with scatter even where there is no bias. Bias and
scatter are therefore told apart: mean square error = bias squared + variance.

## Statistics

Level 95 %, two-sided; standard deviations with n - 1. Learners, not holes, are the unit of comparisons.

- **Bias** (trueness): mean entry, mesio-distal and bucco-lingual. **Spread** (precision): square root of the mean of
  the two variances. Words: ISO 5725-1:1994.
- **R50, R95**: radius about the plan that holds 50 % and 95 % of a normal distribution with this mean and covariance.
- **Ellipses**, from six points on. Next point: k squared = 2 (n squared - 1) / (n (n - 2)) F(0.95; 2, n - 2); mean:
  k squared = 2 (n - 1) / (n (n - 2)) F; k counts standard deviations along the principal axes.
- **Hotelling's T squared** against no bias; F = (n - 2) / (2 (n - 1)) T squared with 2 and n - 2 degrees of freedom.
  Hotelling (1931), Ann. Math. Statist. 2, 360.
- **Same learner again, between learners, any learner**: repeatability, between-operator and reproducibility standard
  deviation of the entry distance, one-way analysis of variance. ISO 5725-2:1994, 7.4; a negative variance is set to 0.
- **Free-hand against sleeve**: mean entry distance of each learner by either technique, difference free-hand - sleeve,
  interval and t test of the differences (Student 1908, Biometrika 6, 1); exact signed ranks to 20 pairs, zeros kept
  (Wilcoxon 1945, Biometrics 1, 80; Pratt 1959, JASA 54, 655). There is no test of carry-over.
- **Ratio of spreads**, free-hand over sleeve: interval from 10,000 resamples of learners with all their holes, fixed
  seed. Efron, Tibshirani (1993), An Introduction to the Bootstrap.
- **Own estimate against measured**: mean difference estimate - measured and limits of agreement, mean -+ 1.96 standard
  deviations. Bland, Altman (1986), Lancet i, 307. Attempts of one learner are not independent, so limits are rather too
  narrow.
- **Learning curve** of one learner: level + gain exp(-rate (attempt - 1)), least squares. Pusic et al. (2015), Acad.
  Med. 90. The median of a class is nobody's curve.
- **Small groups**: a group of fewer than five learners is not shown without names. Own choice, following advice for
  statistical tables not to show small cells.
- **Critical events**: the full diameter went past the planned depth by more than the tolerance allows; the implant's
  thread was stripped. Own definition; they are what the records hold.

What cannot be computed is left empty, with the reason beside it.
)";

constexpr std::string_view kBlanks = R"(
## For you to fill in

- Who took part, how they were chosen, and their experience: ____
- Who gave out the order of the techniques, how, and who knew it: ____
- How many learners were planned, and which difference would matter: ____
- How real blocks were measured, by whom, and how well a measurement repeats: ____
- What was lost or broken off, and why: ____
- Approval, consent, and where the list of names is kept: ____
)";

void add_collection(const Class& whole, std::string& text) {
  const Counts counts = counts_of(whole.roster);
  text += fmt::format(
      "{} were collected, each id once: {} repeated from the recorded input with the same bits, {} "
      "did not match and are left out, {} recorded by another engine (this is engine {}), {} not "
      "repeated, {} of tables only, which hold nothing to repeat. {} of another lesson or another "
      "version of it are left out. {} could not be taken.\n",
      counted(counts.attempts, "attempt"), counts.of(Standing::kEqual),
      counts.of(Standing::kDiffers), counts.of(Standing::kOtherEngine), session::kEngine,
      counts.of(Standing::kUnchecked), counts.of(Standing::kTableRow), counts.other_lesson,
      counted(whole.roster.refused.count, "file or table row"));
  if (!whole.roster.lesson_id.empty()) {
    text += fmt::format("\nLesson: {}, SHA-256 `{}`.\n", safe_markdown(whole.roster.lesson_id),
                        whole.roster.lesson_sha256);
  }
}

void add_experiment(const Class& whole, const Part& part, std::string& text) {
  if (!part.experiment.has_value() || !whole.roster.experiment.has_value()) {
    return;
  }
  const ExperimentDesign& design = whole.roster.experiment->design;
  text += fmt::format(
      "\nPlanned experiment{}: drawn with the seed {} in runs of 2 or 4 of random "
      "length.\n\n",
      design.title.empty() ? "" : " " + safe_markdown(design.title), design.seed);
  const auto add = [&text](const std::vector<std::string>& sentences) {
    for (const std::string& sentence : sentences) {
      text += fmt::format("- {}\n", sentence);
    }
  };
  add(plan_sentences(design));
  add({part.experiment->followed});
  add(part.experiment->results);
  text += "\nWhat the experiment cannot say:\n\n";
  add(part.experiment->limits);
}

void add_part(const Class& whole, const Part& part, std::string& text) {
  text += fmt::format("\n### {}\n\n{}, {}. {}\n", source_word(part.source),
                      counted(part.learner_count, "learner"),
                      counted(part.entries.size(), "attempt"), result_sentence(part));
  for (const std::string& sentence : {order_sentence(part), hidden_sentence(part)}) {
    if (!sentence.empty()) {
      text += fmt::format("\n{}\n", sentence);
    }
  }
  if (part.tolerance.has_value()) {
    const scoring::Tolerance& t = *part.tolerance;
    text += fmt::format(
        "\nTolerances of the lesson (for teaching, not clinical limits): entry {} mm, end {} mm, "
        "angle {} degrees, depth {} to {} mm; an attempt is inside when all are met.\n",
        t.entry_mm, t.apex_mm, t.angle_deg, t.depth_low_mm, t.depth_high_mm);
  }
  add_experiment(whole, part, text);
  text += "\nWhat this cannot say:\n\n";
  for (const std::string& limit : limits_of(whole, part)) {
    text += fmt::format("- {}\n", limit);
  }
}

}  // namespace

std::string methods_md(const Class& whole) {
  std::string text = "# Methods and results, a draft\n\n## Collected\n\n";
  add_collection(whole, text);
  text += "\n## Results\n";
  if (whole.parts.empty()) {
    text += "\nNo attempt counts.\n";
  }
  for (const Part& part : whole.parts) {
    add_part(whole, part, text);
  }
  text += kDefinitions;
  text += kBlanks;
  return text;
}

}  // namespace driftbench::classroom
