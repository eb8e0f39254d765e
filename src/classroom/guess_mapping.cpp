// Guesses what the columns of a foreign table mean, from words and units in their names.
#include "base/text.h"
#include "classroom/column_mapping.h"

#include <algorithm>
#include <bitset>
#include <span>

namespace driftbench::classroom {
namespace {

/// What a word in a name points at.
enum class Idea : std::uint8_t {
  kEntry,
  kApex,
  kTilt,
  kAngle,
  kDepth,
  kDiameter,
  kTime,
  kMd,
  kBl,
  kOperator,
  kApproach,
  kCohort,
  kSite,
  kSpecimen,
  kPeriod,
  kSource,
  kMeasured,
  kBoundary,
  kAttempt,
  // What the plus sign means.
  kMesial,
  kDistal,
  kBuccal,
  kLingual,
  kDense,
  kSoft,
  kShallow,
  kImplant,
  kGuide,
  kCount
};

using Ideas = std::bitset<static_cast<std::size_t>(Idea::kCount)>;

struct Hint {
  std::string_view word;
  Idea idea;
};

// English, and what German tables say. A word may point at two ideas.
constexpr std::array kHints = std::to_array<Hint>({
    {"entry", Idea::kEntry},
    {"start", Idea::kEntry},
    {"platform", Idea::kEntry},
    {"crest", Idea::kEntry},
    {"coronal", Idea::kEntry},
    {"eintritt", Idea::kEntry},
    {"einstieg", Idea::kEntry},
    {"top", Idea::kEntry},
    {"apex", Idea::kApex},
    {"apical", Idea::kApex},
    {"tip", Idea::kApex},
    {"end", Idea::kApex},
    {"bottom", Idea::kApex},
    {"floor", Idea::kApex},
    {"spitze", Idea::kApex},
    {"tilt", Idea::kTilt},
    {"lean", Idea::kTilt},
    {"inclination", Idea::kTilt},
    {"neigung", Idea::kTilt},
    {"kippung", Idea::kTilt},
    {"angle", Idea::kAngle},
    {"angular", Idea::kAngle},
    {"winkel", Idea::kAngle},
    {"depth", Idea::kDepth},
    {"vertical", Idea::kDepth},
    {"tiefe", Idea::kDepth},
    {"tiefenfehler", Idea::kDepth},
    {"deep", Idea::kDepth},
    {"diameter", Idea::kDiameter},
    {"diam", Idea::kDiameter},
    {"dia", Idea::kDiameter},
    {"durchmesser", Idea::kDiameter},
    {"width", Idea::kDiameter},
    {"time", Idea::kTime},
    {"duration", Idea::kTime},
    {"zeit", Idea::kTime},
    {"dauer", Idea::kTime},
    {"seconds", Idea::kTime},
    {"md", Idea::kMd},
    {"x", Idea::kMd},
    {"mesiodistal", Idea::kMd},
    {"dx", Idea::kMd},
    {"mesial", Idea::kMd},
    {"distal", Idea::kMd},
    {"soft", Idea::kMd},
    {"dense", Idea::kMd},
    {"bl", Idea::kBl},
    {"y", Idea::kBl},
    {"buccolingual", Idea::kBl},
    {"dy", Idea::kBl},
    {"orobuccal", Idea::kBl},
    {"oral", Idea::kBl},
    {"buccal", Idea::kBl},
    {"facial", Idea::kBl},
    {"vestibular", Idea::kBl},
    {"lingual", Idea::kBl},
    {"palatal", Idea::kBl},
    {"bukkal", Idea::kBl},
    {"palatinal", Idea::kBl},
    {"bukkolingual", Idea::kBl},
    {"operator", Idea::kOperator},
    {"name", Idea::kOperator},
    {"student", Idea::kOperator},
    {"participant", Idea::kOperator},
    {"learner", Idea::kOperator},
    {"person", Idea::kOperator},
    {"code", Idea::kOperator},
    {"user", Idea::kOperator},
    {"proband", Idea::kOperator},
    {"teilnehmer", Idea::kOperator},
    {"behandler", Idea::kOperator},
    {"approach", Idea::kApproach},
    {"technique", Idea::kApproach},
    {"method", Idea::kApproach},
    {"mode", Idea::kApproach},
    {"technik", Idea::kApproach},
    {"methode", Idea::kApproach},
    {"verfahren", Idea::kApproach},
    {"cohort", Idea::kCohort},
    {"class", Idea::kCohort},
    {"course", Idea::kCohort},
    {"group", Idea::kCohort},
    {"kurs", Idea::kCohort},
    {"gruppe", Idea::kCohort},
    {"site", Idea::kSite},
    {"tooth", Idea::kSite},
    {"zahn", Idea::kSite},
    {"specimen", Idea::kSpecimen},
    {"block", Idea::kSpecimen},
    {"model", Idea::kSpecimen},
    {"period", Idea::kPeriod},
    {"attempt", Idea::kPeriod},
    {"trial", Idea::kPeriod},
    {"order", Idea::kPeriod},
    {"run", Idea::kPeriod},
    {"no", Idea::kPeriod},
    {"nr", Idea::kPeriod},
    {"versuch", Idea::kPeriod},
    {"source", Idea::kSource},
    {"measured", Idea::kMeasured},
    {"boundary", Idea::kBoundary},
    {"attemptid", Idea::kAttempt},
    {"mesial", Idea::kMesial},
    {"distal", Idea::kDistal},
    {"buccal", Idea::kBuccal},
    {"facial", Idea::kBuccal},
    {"vestibular", Idea::kBuccal},
    {"lingual", Idea::kLingual},
    {"palatal", Idea::kLingual},
    {"palatinal", Idea::kLingual},
    {"bukkal", Idea::kBuccal},
    {"oral", Idea::kLingual},
    {"dense", Idea::kDense},
    {"soft", Idea::kSoft},
    {"shallow", Idea::kShallow},
    {"short", Idea::kShallow},
    {"implant", Idea::kImplant},
    {"guide", Idea::kGuide},
});

struct UnitWord {
  std::string_view word;
  std::string_view unit;
};

constexpr std::array kUnitWords = std::to_array<UnitWord>(
    {{"mm", "mm"},     {"millimetre", "mm"}, {"millimeter", "mm"}, {"cm", "cm"},
     {"inch", "inch"}, {"inches", "inch"},   {"in", "inch"},       {"um", "um"},
     {"µm", "um"},     {"μm", "um"},         {"micron", "um"},     {"microns", "um"},
     {"deg", "deg"},   {"degree", "deg"},    {"degrees", "deg"},   {"°", "deg"},
     {"grad", "deg"},  {"rad", "rad"},       {"radian", "rad"},    {"radians", "rad"},
     {"s", "s"},       {"sec", "s"},         {"seconds", "s"},     {"sek", "s"},
     {"min", "min"},   {"minutes", "min"}});

/// Words of a name in lower case; a capital after a small letter begins a word.
std::vector<std::string> words_of(std::string_view name) {
  std::vector<std::string> words(1);
  bool was_small = false;
  for (const char c : name) {
    const bool is_upper = c >= 'A' && c <= 'Z';
    const bool is_letter =
        is_upper || (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80;
    if (!is_letter && !(c >= '0' && c <= '9')) {
      words.emplace_back();
      was_small = false;
      continue;
    }
    if (is_upper && was_small) {
      words.emplace_back();
    }
    was_small = is_letter && !is_upper;
    words.back().push_back(is_upper ? static_cast<char>(c - 'A' + 'a') : c);
  }
  std::erase(words, std::string());
  return words;
}

struct Name {
  Ideas ideas;
  const Unit* unit = nullptr;
  std::string exact;  ///< words joined by underscores

  [[nodiscard]] bool has(Idea idea) const { return ideas[static_cast<std::size_t>(idea)]; }
};

Name read_name(std::string_view text) {
  Name name;
  const std::vector<std::string> words = words_of(text);
  name.exact = base::join(words, "_");
  for (std::size_t i = 0; i < words.size(); ++i) {
    // "bucco-lingual" and "mesio-distal" are one word in two.
    const std::string pair = i + 1 < words.size() ? words[i] + words[i + 1] : std::string();
    for (const Hint& hint : kHints) {
      if (hint.word == words[i] || hint.word == pair) {
        name.ideas.set(static_cast<std::size_t>(hint.idea));
      }
    }
    for (const UnitWord& unit : kUnitWords) {
      if (unit.word == words[i]) {
        name.unit = find_unit(unit.unit);
      }
    }
  }
  return name;
}

/// What a name must and may point at to be one of our columns.
struct Rule {
  std::string_view target;
  Idea needed;
  Idea also;  ///< needed too; kCount: nothing
  Idea bonus;
};

constexpr std::array kRules = std::to_array<Rule>({
    {"attempt_id", Idea::kAttempt, Idea::kCount, Idea::kCount},
    {"operator", Idea::kOperator, Idea::kCount, Idea::kCount},
    {"cohort", Idea::kCohort, Idea::kCount, Idea::kCount},
    {"approach", Idea::kApproach, Idea::kCount, Idea::kCount},
    {"implant_through_guide", Idea::kImplant, Idea::kGuide, Idea::kCount},
    {"measured", Idea::kMeasured, Idea::kCount, Idea::kCount},
    {"site", Idea::kSite, Idea::kCount, Idea::kCount},
    {"specimen", Idea::kSpecimen, Idea::kCount, Idea::kCount},
    {"boundary_deg", Idea::kBoundary, Idea::kCount, Idea::kAngle},
    {"period", Idea::kPeriod, Idea::kCount, Idea::kCount},
    {"entry_md_mm", Idea::kMd, Idea::kCount, Idea::kEntry},
    {"entry_bl_mm", Idea::kBl, Idea::kCount, Idea::kEntry},
    {"depth_mm", Idea::kDepth, Idea::kCount, Idea::kCount},
    {"apex_md_mm", Idea::kMd, Idea::kApex, Idea::kCount},
    {"apex_bl_mm", Idea::kBl, Idea::kApex, Idea::kCount},
    {"tilt_md_deg", Idea::kMd, Idea::kTilt, Idea::kCount},
    {"tilt_md_deg", Idea::kMd, Idea::kAngle, Idea::kCount},
    {"tilt_bl_deg", Idea::kBl, Idea::kTilt, Idea::kCount},
    {"tilt_bl_deg", Idea::kBl, Idea::kAngle, Idea::kCount},
    {"angle_deg", Idea::kAngle, Idea::kCount, Idea::kCount},
    {"angle_deg", Idea::kTilt, Idea::kCount, Idea::kCount},
    {"hole_diameter_mm", Idea::kDiameter, Idea::kCount, Idea::kCount},
    {"time_s", Idea::kTime, Idea::kCount, Idea::kCount},
    {"source", Idea::kSource, Idea::kCount, Idea::kCount},
});

int score_of(const Name& name, const Rule& rule, const Target& target) {
  if (name.exact == target.name) {
    return 100;
  }
  const bool is_number =
      target.dimension != Dimension::kWord && target.dimension != Dimension::kWhole;
  if (name.unit != nullptr && (!is_number || name.unit->dimension != target.dimension)) {
    return 0;
  }
  if (!name.has(rule.needed) || (rule.also != Idea::kCount && !name.has(rule.also))) {
    return 0;
  }
  int score = 2 + (rule.also != Idea::kCount ? 3 : 0) + (name.unit != nullptr ? 1 : 0);
  score += rule.bonus != Idea::kCount && name.has(rule.bonus) ? 2 : 0;
  return score;
}

/// Whether plus points the other way than ours.
bool is_reversed(const Name& name, const Target& target) {
  const std::string_view what = target.name;
  if (what.find("_md_") != std::string_view::npos) {
    return (name.has(Idea::kMesial) && !name.has(Idea::kDistal)) ||
           (name.has(Idea::kDense) && !name.has(Idea::kSoft));
  }
  if (what.find("_bl_") != std::string_view::npos) {
    return name.has(Idea::kBuccal) && !name.has(Idea::kLingual);
  }
  return what == "depth_mm" && name.has(Idea::kShallow);
}

struct Candidate {
  int score = 0;
  std::size_t column = 0;
  const Target* target = nullptr;
};

}  // namespace

Mapping guess_mapping(const ForeignTable& table) {
  std::vector<Name> names;
  std::vector<Candidate> candidates;
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    names.push_back(read_name(table.header[i]));
    for (const Rule& rule : kRules) {
      const Target* target = find_target(rule.target);
      if (const int score = score_of(names.back(), rule, *target); score > 0) {
        candidates.push_back({score, i, target});
      }
    }
  }
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.score > b.score; });
  std::vector<const Target*> of_column(table.header.size(), nullptr);
  std::vector<const Target*> taken;
  for (const Candidate& one : candidates) {
    if (of_column[one.column] == nullptr &&
        std::find(taken.begin(), taken.end(), one.target) == taken.end()) {
      of_column[one.column] = one.target;
      taken.push_back(one.target);
    }
  }
  Mapping mapping;
  for (std::size_t i = 0; i < of_column.size(); ++i) {
    if (of_column[i] != nullptr) {
      Choice choice;
      choice.column = table.header[i];
      choice.target = of_column[i];
      choice.unit = names[i].unit;
      choice.is_reversed = choice.target->is_signed && is_reversed(names[i], *choice.target);
      mapping.push_back(std::move(choice));
    }
  }
  return mapping;
}

}  // namespace driftbench::classroom
