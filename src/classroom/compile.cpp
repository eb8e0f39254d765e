#include "classroom/compile.h"

#include "base/csv.h"
#include "base/hash64.h"
#include "base/random.h"
#include "base/text.h"
#include "classroom/learner_summary.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

namespace driftbench::classroom {
namespace {

using stats::Approach;

/// Codes in an order that says nothing about them and is the same every time.
std::vector<std::string> shuffled_learners(const Roster& roster,
                                           std::optional<std::uint64_t> disguise) {
  std::set<std::string> codes;
  for (const Entry& entry : roster.entries) {
    codes.insert(entry.learner);
  }
  std::vector<std::string> learners(codes.begin(), codes.end());
  std::vector<std::uint8_t> bytes;
  for (const std::string& code : learners) {
    bytes.insert(bytes.end(), code.begin(), code.end());
    bytes.push_back(0);
  }
  base::Rng rng(base::fnv1a64(bytes) ^ disguise.value_or(0));
  for (std::size_t i = learners.size(); i > 1; --i) {
    std::swap(learners[i - 1], learners[static_cast<std::size_t>(rng.below(i))]);
  }
  return learners;
}

std::size_t learners_of(const std::vector<const Entry*>& entries, Approach approach) {
  std::set<std::string_view> learners;
  for (const Entry* entry : entries) {
    if (entry->approach == approach) {
      learners.insert(entry->learner);
    }
  }
  return learners.size();
}

stats::HoleTable table_of(const Part& part, const std::vector<std::string>& learners,
                          const std::map<std::string, std::size_t>& index) {
  stats::HoleTable table;
  table.operators = learners;
  for (const Entry* entry : part.entries) {
    if (std::find(part.hidden.begin(), part.hidden.end(), entry->approach) != part.hidden.end()) {
      continue;
    }
    stats::Hole hole;
    hole.operator_index = static_cast<std::uint32_t>(index.at(entry->learner));
    hole.approach = entry->approach;
    hole.measure = entry_distance_mm(*entry);
    if (hole.measure.has_value()) {
      hole.entry = math::Vec2(*entry->measures.entry_md_mm, *entry->measures.entry_bl_mm);
    } else {
      ++table.left_out_count;
    }
    table.holes.push_back(hole);
  }
  return table;
}

/// Whether every learner with both began with the same technique.
TechniqueOrder order_of(const std::vector<LearnerSummary>& summaries) {
  std::map<std::size_t, std::array<const LearnerSummary*, 3>> both;
  for (const LearnerSummary& summary : summaries) {
    both[summary.learner][static_cast<std::size_t>(summary.approach)] = &summary;
  }
  std::size_t freehand_first = 0;
  std::size_t sleeve_first = 0;
  bool is_unknown = false;
  for (const auto& [learner, by_approach] : both) {
    const LearnerSummary* freehand = by_approach[0];
    const LearnerSummary* sleeve = by_approach[2];
    if (freehand == nullptr || sleeve == nullptr) {
      continue;
    }
    const std::optional<int> first = freehand->entries.front()->period;
    const std::optional<int> other = sleeve->entries.front()->period;
    if (!first.has_value() || !other.has_value() || *first == *other) {
      is_unknown = true;
    } else {
      ++(*first < *other ? freehand_first : sleeve_first);
    }
  }
  if (freehand_first + sleeve_first == 0) {
    return is_unknown ? TechniqueOrder::kUnknown : TechniqueOrder::kNoPairs;
  }
  if (freehand_first > 0 && sleeve_first > 0) {
    return TechniqueOrder::kBoth;
  }
  if (is_unknown) {
    return TechniqueOrder::kUnknown;
  }
  return freehand_first > 0 ? TechniqueOrder::kFreehandFirst : TechniqueOrder::kSleeveFirst;
}

std::optional<scoring::Tolerance> common_tolerance(const std::vector<const Entry*>& entries) {
  std::optional<scoring::Tolerance> common;
  for (const Entry* entry : entries) {
    if (!entry->tolerance.has_value()) {
      continue;
    }
    if (common.has_value() && !(*common == *entry->tolerance)) {
      return std::nullopt;
    }
    common = entry->tolerance;
  }
  return common;
}

std::vector<LearnerSummary> summaries_of(const std::vector<const Entry*>& entries,
                                         const std::map<std::string, std::size_t>& index) {
  std::map<std::pair<std::size_t, Approach>, std::vector<const Entry*>> groups;
  for (const Entry* entry : entries) {
    groups[{index.at(entry->learner), entry->approach}].push_back(entry);
  }
  std::vector<LearnerSummary> summaries;
  for (auto& [key, group] : groups) {
    summaries.push_back(summarise(key.first, key.second, std::move(group)));
  }
  return summaries;
}

Part compile_part(const Class& whole, Source source,
                  const std::map<std::string, std::size_t>& index) {
  Part part;
  part.source = source;
  for (const Entry& entry : whole.roster.entries) {
    if (entry.source == source && entry.counts()) {
      part.entries.push_back(&entry);
    }
  }
  std::stable_sort(part.entries.begin(), part.entries.end(), [&](const Entry* a, const Entry* b) {
    const auto key = [&index](const Entry* entry) {
      constexpr int kNoPeriod = 2'000'000;
      return std::pair(index.at(entry->learner), entry->period.value_or(kNoPeriod));
    };
    return key(a) != key(b) ? key(a) < key(b) : a->attempt_id < b->attempt_id;
  });
  std::set<std::string_view> learners;
  for (const Entry* entry : part.entries) {
    learners.insert(entry->learner);
  }
  part.learner_count = learners.size();
  for (std::size_t i = 0; i < stats::kApproachNames.size(); ++i) {
    const auto approach = static_cast<Approach>(i);
    const std::size_t count = learners_of(part.entries, approach);
    if (count > 0 && !whole.shows(count)) {
      part.hidden.push_back(approach);
    }
  }
  part.learners = summaries_of(part.entries, index);
  part.table = table_of(part, whole.learners, index);
  part.statistics = stats::class_statistics(part.table);
  part.is_paired_hidden =
      part.statistics.paired.operators > 0 && !whole.shows(part.statistics.paired.operators);
  for (EstimateAgreement& agreement : agreements(part.entries)) {
    if (whole.shows(agreement.learners)) {
      part.estimates.push_back(std::move(agreement));
    }
  }
  part.order = order_of(part.learners);
  part.tolerance = common_tolerance(part.entries);
  if (const std::optional<Experiment>& planned = whole.roster.experiment; planned.has_value()) {
    part.experiment = held_against(*planned, whole, part);
    if (part.experiment->is_followed && is_mixed(planned->design)) {
      part.order = TechniqueOrder::kMixed;
    }
  }
  return part;
}

}  // namespace

base::Result<Names> read_names(std::string_view text, const std::string& file_name) {
  const base::Result<base::CsvTable> table = base::parse_csv(text, file_name);
  if (!table) {
    return tl::unexpected<base::Error>(table.error());
  }
  const std::optional<std::size_t> code = table->column("code");
  const std::optional<std::size_t> name = table->column("name");
  if (!code.has_value() || !name.has_value()) {
    return base::fail(base::ErrorCode::kParse,
                      fmt::format("{}:1: found no column {}, expected the columns code and name",
                                  file_name, code.has_value() ? "name" : "code"));
  }
  Names names;
  for (const base::CsvRow& row : table->rows) {
    const std::string key(base::trim(row.cells[*code]));
    if (!names.emplace(key, base::trim(row.cells[*name])).second) {
      return base::fail(base::ErrorCode::kParse,
                        fmt::format("{}:{}: found the code \"{}\" again, expected every code once",
                                    file_name, row.line, key));
    }
  }
  return names;
}

Class compile(Roster roster, std::optional<Names> names, std::optional<std::uint64_t> disguise) {
  Class whole;
  whole.roster = std::move(roster);
  whole.names = std::move(names);
  whole.learners = shuffled_learners(whole.roster, disguise);
  whole.is_disguised = disguise.has_value();
  std::map<std::string, std::size_t> index;
  for (std::size_t i = 0; i < whole.learners.size(); ++i) {
    index.emplace(whole.learners[i], i);
  }
  for (const Source source : {Source::kSimulated, Source::kBench}) {
    Part part = compile_part(whole, source, index);
    if (!part.entries.empty()) {
      whole.parts.push_back(std::move(part));
    }
  }
  return whole;
}

}  // namespace driftbench::classroom
