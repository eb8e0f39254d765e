#include "classroom/words.h"

#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>

namespace driftbench::classroom {
namespace {

constexpr std::size_t kFewPairs = 6;

std::string spread_words(const stats::PairedStatistics& paired) {
  if (!paired.spread_ratio || *paired.spread_ratio <= 0.0) {
    return paired.spread_ratio
               ? std::string(" The scatter free-hand was 0.")
               : fmt::format(" No ratio of scatter: {}.", paired.spread_ratio.error().message);
  }
  std::string words = fmt::format(" Scatter with the sleeve was {} times that free-hand",
                                  mm(1.0 / *paired.spread_ratio));
  const auto& interval = paired.spread_ratio_interval;
  if (interval && interval->low > 0.0) {
    return words + fmt::format(" (95 % interval {} to {}).", mm(1.0 / interval->high),
                               mm(1.0 / interval->low));
  }
  return words + " (no interval).";
}

}  // namespace

std::string mm(double value) {
  constexpr int kDecimals = 2;
  return base::fixed(value, kDecimals);
}

std::string_view approach_word(stats::Approach approach) {
  constexpr std::array<std::string_view, 3> kWords{"free-hand", "pilot", "sleeve"};
  return kWords[static_cast<std::size_t>(approach)];
}

std::string_view source_word(Source source) {
  return source == Source::kSimulated ? "Simulated blocks" : "Real blocks, measured";
}

std::string result_sentence(const Part& part) {
  const stats::PairedStatistics& paired = part.statistics.paired;
  if (part.is_paired_hidden || !part.hidden.empty()) {
    return fmt::format(
        "Fewer than {} learners did both free-hand and sleeve: their comparison is "
        "shown only together with names.",
        kMinShownLearners);
  }
  if (!paired.mean_difference) {
    return "No comparison: no learner has measured holes both free-hand and by sleeve.";
  }
  std::string words;
  if (paired.t) {
    words = fmt::format(
        "In {} the sleeve changed the average entry error by {} mm (95 % interval "
        "{} to {}).",
        counted(paired.operators, "learner"), mm(-paired.t->mean), mm(-paired.t->interval.high),
        mm(-paired.t->interval.low));
  } else {
    words = fmt::format(
        "In {} the sleeve changed the average entry error by {} mm; no interval: "
        "{}.",
        counted(paired.operators, "learner"), mm(-*paired.mean_difference),
        paired.t.error().message);
  }
  return words + spread_words(paired);
}

std::string order_sentence(const Part& part) {
  switch (part.order) {
    case TechniqueOrder::kNoPairs:
      return {};
    case TechniqueOrder::kUnknown:
      return "The order of the techniques is not recorded for everyone: practice and technique "
             "may not be separable.";
    case TechniqueOrder::kFreehandFirst:
      return "Everyone went free-hand first: practice and technique cannot be separated.";
    case TechniqueOrder::kSleeveFirst:
      return "Everyone went by sleeve first: practice and technique cannot be separated.";
    case TechniqueOrder::kBoth:
      return "Some went free-hand first, some by sleeve first.";
    case TechniqueOrder::kMixed:
      return "Everyone followed a drawn order in which both techniques alternate.";
  }
  return {};
}

std::vector<std::string> limits_of(const Class& whole, const Part& part) {
  std::vector<std::string> limits;
  if (part.order != TechniqueOrder::kNoPairs && part.order != TechniqueOrder::kBoth &&
      part.order != TechniqueOrder::kMixed) {
    limits.push_back(order_sentence(part));
  }
  if (part.source == Source::kSimulated) {
    limits.emplace_back(
        "The blocks are simulated: how far this carries over to real material or to patients is "
        "not measured here.");
    limits.emplace_back(
        "A record that repeats equally is consistent. Whoever runs the engine can make a "
        "consistent record: it does not prove who drilled.");
  } else {
    limits.emplace_back(
        "The real blocks were measured by hand: the error of measuring is part of every number.");
  }
  if (part.statistics.paired.operators > 0 && part.statistics.paired.operators < kFewPairs) {
    limits.emplace_back(
        "With so few learners who did both, an interval is wide and leans on the "
        "assumption of a normal distribution.");
  }
  if (part.learner_count == 1 && whole.shows(1)) {
    limits.emplace_back("One learner: nothing here speaks about learners in general.");
  }
  const bool has_holes = std::any_of(part.entries.begin(), part.entries.end(),
                                     [](const Entry* e) { return e->measured == "hole"; });
  const bool has_implants = std::any_of(part.entries.begin(), part.entries.end(),
                                        [](const Entry* e) { return e->measured == "implant"; });
  if (has_holes && has_implants) {
    limits.emplace_back("Holes and implants stand in one table here; they are computed together.");
  }
  return limits;
}

std::string hidden_sentence(const Part& part) {
  if (part.hidden.empty()) {
    return {};
  }
  std::vector<std::string> words;
  for (const stats::Approach approach : part.hidden) {
    words.emplace_back(approach_word(approach));
  }
  return fmt::format("Not shown without names, because fewer than {} learners did it: {}.",
                     kMinShownLearners, base::join(words, ", "));
}

std::string safe_cell(std::string_view text) {
  constexpr std::string_view kDangerous = "=+-@\t\r\n";
  const bool is_dangerous =
      !text.empty() && kDangerous.find(text.front()) != std::string_view::npos;
  return (is_dangerous ? "'" : "") + std::string(text);
}

std::string safe_markdown(std::string_view text) {
  constexpr std::string_view kMarkup = "\\`*_{}[]<>#|!";
  std::string out;
  for (const char c : text) {
    if (kMarkup.find(c) != std::string_view::npos) {
      out.push_back('\\');
    }
    out.push_back(static_cast<unsigned char>(c) < 0x20U ? ' ' : c);
  }
  return out;
}

std::string shown(const base::Result<double>& value, int decimals) {
  return value ? base::fixed(*value, decimals) : "\xE2\x80\x93";
}

std::string reasons_text(const Entry& entry) {
  constexpr std::size_t kFirst = 3;
  const std::size_t count = std::min(entry.reasons.size(), kFirst);
  const std::vector<std::string> first(entry.reasons.begin(),
                                       entry.reasons.begin() + static_cast<std::ptrdiff_t>(count));
  const std::size_t more = entry.reasons.size() - count;
  return base::join(first, "; ") + (more > 0 ? fmt::format("; and {} more", more) : std::string());
}

std::string counted(std::size_t count, std::string_view noun) {
  return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

std::string label_of(const Class& whole, std::size_t learner) {
  if (whole.is_disguised) {
    return fmt::format("Learner {}", learner + 1);
  }
  const std::string& code = whole.learners[learner];
  if (whole.names.has_value()) {
    const auto name = whole.names->find(code);
    if (name != whole.names->end() && !name->second.empty()) {
      return fmt::format("{} ({})", name->second, code);
    }
  }
  return code;
}

}  // namespace driftbench::classroom
