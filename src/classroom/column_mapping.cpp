// A mapping as text, and the words and units it knows.
#include "classroom/column_mapping.h"

#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace driftbench::classroom {
namespace {

using base::Result;

constexpr std::array<std::string_view, 5> kColumns{"column", "as", "unit", "sign", "words"};
constexpr base::CsvLimits kMappingLimits{std::size_t{1} << 20U, 256, 5};

/// Letters and digits in lower case; letters beyond ASCII stay as they are.
std::string plain(std::string_view word) {
  std::string text;
  for (const char c : word) {
    const bool is_upper = c >= 'A' && c <= 'Z';
    const bool is_kept = is_upper || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
                         static_cast<unsigned char>(c) >= 0x80;
    if (is_kept) {
      text.push_back(is_upper ? static_cast<char>(c - 'A' + 'a') : c);
    }
  }
  return text;
}

struct ApproachWord {
  std::string_view word;
  stats::Approach approach;
};

constexpr auto kFreehand = stats::Approach::kFreehand;
constexpr auto kPilot = stats::Approach::kPilot;
constexpr auto kSleeve = stats::Approach::kSleeve;

constexpr std::array<ApproachWord, 36> kApproachWords{{
    {"freehand", kFreehand},     {"free", kFreehand},
    {"fh", kFreehand},           {"hand", kFreehand},
    {"byhand", kFreehand},       {"byeye", kFreehand},
    {"manual", kFreehand},       {"noguide", kFreehand},
    {"unguided", kFreehand},     {"without", kFreehand},
    {"withoutguide", kFreehand}, {"none", kFreehand},
    {"freihand", kFreehand},     {"freihändig", kFreehand},
    {"ohne", kFreehand},         {"ohneschablone", kFreehand},
    {"pilot", kPilot},           {"pilotguided", kPilot},
    {"pilotdrill", kPilot},      {"pilotdrillguided", kPilot},
    {"halfguided", kPilot},      {"pilotbohrung", kPilot},
    {"pilotgeführt", kPilot},    {"sleeve", kSleeve},
    {"guided", kSleeve},         {"guide", kSleeve},
    {"fullyguided", kSleeve},    {"full", kSleeve},
    {"drillguided", kSleeve},    {"template", kSleeve},
    {"withguide", kSleeve},      {"with", kSleeve},
    {"geführt", kSleeve},        {"schablone", kSleeve},
    {"mitschablone", kSleeve},   {"hülse", kSleeve},
}};

std::string_view name_of(stats::Approach approach) {
  return stats::kApproachNames[static_cast<std::size_t>(approach)];
}

Result<void> take_words(Choice& choice, std::string_view text, const std::string& file, int line) {
  const std::string all(text);
  while (!text.empty()) {
    const std::string_view pair = text.substr(0, text.find('|'));
    text.remove_prefix(std::min(text.size(), pair.size() + 1));
    const std::size_t middle = pair.rfind('=');
    const auto approach = middle == std::string_view::npos
                              ? std::optional<stats::Approach>()
                              : approach_of_word(pair.substr(middle + 1));
    if (!approach.has_value()) {
      return base::csv_failure(file, line, fmt::format("\"{}\" in the column words", pair),
                               "word=freehand, word=pilot or word=sleeve, parted by |");
    }
    choice.words.emplace_back(base::trim(pair.substr(0, middle)), *approach);
  }
  return {};
}

}  // namespace

const Target* find_target(std::string_view name) {
  const auto found = std::find_if(kTargets.begin(), kTargets.end(),
                                  [name](const Target& one) { return one.name == name; });
  return found == kTargets.end() ? nullptr : &*found;
}

const Unit* find_unit(std::string_view name) {
  const auto found = std::find_if(kUnits.begin(), kUnits.end(),
                                  [name](const Unit& one) { return one.name == name; });
  return found == kUnits.end() ? nullptr : &*found;
}

std::optional<stats::Approach> approach_of_word(std::string_view word) {
  const std::string wanted = plain(word);
  for (const ApproachWord& known : kApproachWords) {
    if (known.word == wanted) {
      return known.approach;
    }
  }
  return std::nullopt;
}

std::string write_mapping(const Mapping& mapping) {
  std::vector<std::string> cells(kColumns.begin(), kColumns.end());
  std::string text = base::csv_line(cells);
  for (const Choice& choice : mapping) {
    std::string words = choice.constant;
    for (const auto& [word, approach] : choice.words) {
      words += fmt::format("{}{}={}", words.empty() ? "" : "|", word, name_of(approach));
    }
    cells = {choice.column, std::string(choice.target->name),
             choice.unit == nullptr ? std::string() : std::string(choice.unit->name),
             choice.is_reversed ? "-" : "", words};
    text += base::csv_line(cells);
  }
  return text;
}

Result<Mapping> read_mapping(std::string_view text, const std::string& file) {
  const Result<base::CsvTable> table = base::parse_csv(text, file, kMappingLimits);
  if (!table) {
    return tl::unexpected<base::Error>(table.error());
  }
  std::array<std::size_t, kColumns.size()> at{};
  for (std::size_t i = 0; i < kColumns.size(); ++i) {
    const std::optional<std::size_t> column = table->column(kColumns[i]);
    if (!column.has_value()) {
      return base::csv_failure(file, 1, fmt::format("no column {}", kColumns[i]),
                               "the columns column, as, unit, sign, words");
    }
    at[i] = *column;
  }
  Mapping mapping;
  std::set<std::string_view> taken;
  for (const base::CsvRow& row : table->rows) {
    const auto refuse = [&](std::size_t column, std::string_view expected) {
      return base::csv_failure(
          file, row.line,
          fmt::format("\"{}\" in the column {}", row.cells[at[column]], kColumns[column]),
          expected);
    };
    Choice choice;
    choice.column = row.cells[at[0]];
    choice.target = find_target(base::trim(row.cells[at[1]]));
    if (choice.target == nullptr) {
      return refuse(1, "a column of holes.csv");
    }
    if (!taken.insert(choice.target->name).second) {
      return refuse(1, "each column of holes.csv once");
    }
    if (const std::string_view unit = base::trim(row.cells[at[2]]); !unit.empty()) {
      choice.unit = find_unit(unit);
      if (choice.unit == nullptr || choice.unit->dimension != choice.target->dimension) {
        return refuse(2,
                      "mm, cm, inch or um for lengths, deg or rad for angles, s or min for times");
      }
    }
    const std::string_view sign = base::trim(row.cells[at[3]]);
    if (!sign.empty() && sign != "+" && sign != "-") {
      return refuse(3, "+, - or nothing");
    }
    choice.is_reversed = sign == "-";
    if (choice.is_reversed && !choice.target->is_signed) {
      return refuse(3, "a minus only for components and tilts");
    }
    const std::string_view words = row.cells[at[4]];
    if (choice.column.empty()) {
      choice.constant = std::string(base::trim(words));
    } else if (const Result<void> taken_words = take_words(choice, words, file, row.line);
               !taken_words) {
      return tl::unexpected<base::Error>(taken_words.error());
    }
    mapping.push_back(std::move(choice));
  }
  return mapping;
}

}  // namespace driftbench::classroom
