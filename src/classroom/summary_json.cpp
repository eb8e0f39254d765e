#include "classroom/summary_json.h"

#include "base/json_writer.h"
#include "classroom/words.h"
#include "session/session.h"
#include "stats/series.h"
#include "stats/statistics_json.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

namespace driftbench::classroom {
namespace {

using base::JsonLayout;
using base::JsonWriter;

constexpr std::array<std::string_view, 6> kOrderNames{"no-pairs",     "unknown", "freehand-first",
                                                      "sleeve-first", "both",    "mixed"};

void write_counts(JsonWriter& writer, const Class& whole) {
  const Counts counts = counts_of(whole.roster);
  writer.key("counts").begin_object().field("attempts", counts.attempts);
  for (std::size_t i = 0; i < kStandingNames.size(); ++i) {
    std::string name(kStandingNames[i]);
    std::replace(name.begin(), name.end(), '-', '_');
    writer.field(name, counts.by_standing[i]);
  }
  writer.field("other_lesson", counts.other_lesson);
  writer.field("refused", whole.roster.refused.count);
  writer.field("given_twice", whole.roster.notes.count).end_object();
}

/// Ends of the middle half of the learners, or null with the reason.
void write_band(JsonWriter& writer, const std::string& name, std::vector<double> values) {
  constexpr double kLow = 0.25;
  constexpr double kHigh = 0.75;
  writer.key(name);
  if (values.size() < kMinShownLearners) {
    writer.null();
    writer.field(name + "_reason",
                 fmt::format("found {}, expected at least {}", counted(values.size(), "learner"),
                             kMinShownLearners));
    return;
  }
  std::sort(values.begin(), values.end());
  writer.begin_array(JsonLayout::kCompact).value(stats::sorted_quantile(values, kLow));
  writer.value(stats::sorted_quantile(values, kHigh)).end_array();
}

void write_bands(JsonWriter& writer, const Part& part) {
  writer.key("bands").begin_array();
  for (const stats::GroupStatistics& group : part.statistics.groups) {
    std::vector<double> biases;
    std::vector<double> spreads;
    for (const LearnerSummary& summary : part.learners) {
      if (summary.approach != group.approach) {
        continue;
      }
      if (summary.bias_mm) {
        biases.push_back(*summary.bias_mm);
      }
      if (summary.spread_mm) {
        spreads.push_back(*summary.spread_mm);
      }
    }
    writer.begin_object();
    writer.field("approach", stats::kApproachNames[static_cast<std::size_t>(group.approach)]);
    write_band(writer, "bias_mm", biases);
    write_band(writer, "spread_mm", spreads);
    writer.end_object();
  }
  writer.end_array();
}

void write_estimates(JsonWriter& writer, const Part& part) {
  writer.key("estimates").begin_array();
  for (const EstimateAgreement& estimate : part.estimates) {
    writer.begin_object().field("measure", estimate.measure);
    writer.field("approach", stats::kApproachNames[static_cast<std::size_t>(estimate.approach)]);
    writer.field("learners", estimate.learners);
    if (estimate.agreement) {
      const stats::Agreement& agreement = *estimate.agreement;
      writer.field("n", agreement.n).field("bias", agreement.bias).field("sd", agreement.sd);
      writer.key("limits").begin_array(JsonLayout::kCompact).value(agreement.limits.low);
      writer.value(agreement.limits.high).end_array();
    } else {
      writer.key("n").null().key("bias").null().key("sd").null().key("limits").null();
      writer.field("reason", estimate.agreement.error().message);
    }
    writer.end_object();
  }
  writer.end_array();
}

/// The part as everyone may see it: this file is handed out, so small groups are left out of it
/// also when the instructor's list of names lets a report show them.
Part for_everyone(Part part) {
  std::vector<stats::GroupStatistics>& groups = part.statistics.groups;
  for (const stats::GroupStatistics& group : groups) {
    if (group.operators < kMinShownLearners) {
      part.hidden.push_back(group.approach);
    }
  }
  std::erase_if(groups, [](const stats::GroupStatistics& group) {
    return group.operators < kMinShownLearners;
  });
  std::erase_if(part.estimates, [](const EstimateAgreement& estimate) {
    return estimate.learners < kMinShownLearners;
  });
  const std::size_t pairs = part.statistics.paired.operators;
  part.is_paired_hidden = part.is_paired_hidden || (pairs > 0 && pairs < kMinShownLearners);
  return part;
}

void write_part(JsonWriter& writer, const Class& whole, const Part& part) {
  writer.begin_object().field("source", kSourceNames[static_cast<std::size_t>(part.source)]);
  writer.field("learners", part.learner_count).field("attempts", part.entries.size());
  writer.field("order", kOrderNames[static_cast<std::size_t>(part.order)]);
  writer.field("result", result_sentence(part));
  writer.key("limits").begin_array();
  for (const std::string& limit : limits_of(whole, part)) {
    writer.value(limit);
  }
  writer.end_array();
  writer.key("hidden").begin_array(JsonLayout::kCompact);
  for (const stats::Approach approach : part.hidden) {
    writer.value(stats::kApproachNames[static_cast<std::size_t>(approach)]);
  }
  writer.end_array();
  if (const std::string hidden = hidden_sentence(part); !hidden.empty()) {
    writer.field("hidden_reason", hidden);
  }
  writer.key("groups").begin_array();
  for (const stats::GroupStatistics& group : part.statistics.groups) {
    stats::write_group(writer, part.table, group);
  }
  writer.end_array();
  writer.key("paired");
  if (part.is_paired_hidden) {
    writer.null().field("paired_reason", result_sentence(part));
  } else {
    stats::write_paired(writer, part.statistics.paired);
  }
  write_bands(writer, part);
  write_estimates(writer, part);
  writer.end_object();
}

}  // namespace

Counts counts_of(const Roster& roster) {
  Counts counts;
  counts.attempts = roster.entries.size();
  for (const Entry& entry : roster.entries) {
    ++counts.by_standing[static_cast<std::size_t>(entry.standing)];
    counts.other_lesson += entry.is_other_lesson ? 1U : 0U;
  }
  return counts;
}

std::string summary_json(const Class& whole) {
  JsonWriter writer;
  writer.begin_object().field("format", kSummaryFormat).field("version", kSummaryVersion);
  writer.field("engine", session::kEngine);
  const bool has_lesson = !whole.roster.lesson_id.empty();
  writer.field("lesson_id", has_lesson ? std::optional(whole.roster.lesson_id) : std::nullopt);
  writer.field("lesson_sha256",
               has_lesson ? std::optional(whole.roster.lesson_sha256) : std::nullopt);
  if (!has_lesson) {
    writer.field("lesson_reason", "found no attempt files, only tables");
  }
  writer.field("smallest_group_without_names", kMinShownLearners);
  writer.field("with_names", false);
  write_counts(writer, whole);
  writer.key("sources").begin_array();
  for (const Part& part : whole.parts) {
    write_part(writer, whole, whole.names.has_value() ? for_everyone(part) : part);
  }
  writer.end_array().end_object();
  return writer.take();
}

}  // namespace driftbench::classroom
