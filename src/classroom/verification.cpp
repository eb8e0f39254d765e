#include "classroom/verification.h"

#include "base/sha256.h"
#include "record/attempt.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>
#include <utility>

namespace driftbench::classroom {
namespace {

constexpr double kOutlierFactor = 3.0;  // own assumption

double middle(std::vector<double>& values) {
  const auto half = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), half, values.end());
  return *half;
}

/// Median entry of an approach, and the median distance from it.
struct Centre {
  double md = 0.0;
  double bl = 0.0;
  double reach = 0.0;

  [[nodiscard]] double distance(const Entry& entry) const {
    return std::hypot(*entry.measures.entry_md_mm - md, *entry.measures.entry_bl_mm - bl);
  }
};

bool has_entry_point(const Entry& entry) {
  return entry.measures.entry_md_mm.has_value() && entry.measures.entry_bl_mm.has_value();
}

Centre centre_of(const Roster& roster, stats::Approach approach) {
  std::vector<const Entry*> entries;
  for (const Entry& entry : roster.entries) {
    if (entry.is_record() && entry.approach == approach && has_entry_point(entry)) {
      entries.push_back(&entry);
    }
  }
  Centre centre;
  if (entries.empty()) {
    return centre;
  }
  const auto median = [&entries](const auto& value) {
    std::vector<double> values;
    for (const Entry* entry : entries) {
      values.push_back(value(*entry));
    }
    return middle(values);
  };
  centre.md = median([](const Entry& entry) { return *entry.measures.entry_md_mm; });
  centre.bl = median([](const Entry& entry) { return *entry.measures.entry_bl_mm; });
  centre.reach = median([&centre](const Entry& entry) { return centre.distance(entry); });
  return centre;
}

}  // namespace

std::vector<FileToVerify> verification_order(const Roster& roster) {
  std::array<Centre, stats::kApproachNames.size()> centres;
  for (std::size_t i = 0; i < centres.size(); ++i) {
    centres[i] = centre_of(roster, static_cast<stats::Approach>(i));
  }
  using Rank = std::tuple<int, double, std::string, std::size_t>;
  std::vector<Rank> ranks;
  for (std::size_t i = 0; i < roster.entries.size(); ++i) {
    const Entry& entry = roster.entries[i];
    if (entry.standing != Standing::kUnchecked) {
      continue;
    }
    const Centre& centre = centres[static_cast<std::size_t>(entry.approach)];
    const double distance = has_entry_point(entry) ? centre.distance(entry) : 0.0;
    const bool is_outlier = distance > kOutlierFactor * centre.reach;
    const int rank = is_outlier ? 0 : entry.inside.value_or(false) ? 1 : 2;
    ranks.emplace_back(rank, -distance, entry.attempt_id, i);
  }
  std::sort(ranks.begin(), ranks.end());
  std::vector<FileToVerify> files;
  for (const Rank& rank : ranks) {
    const Entry& entry = roster.entries[std::get<3>(rank)];
    files.push_back({entry.file, entry.file_sha256});
  }
  return files;
}

Verification::Verification(std::vector<FileToVerify> files, Load load, Verdicts known)
    : files_(std::move(files)), load_(std::move(load)), verdicts_(std::move(known)) {}

void Verification::settle(Verdict verdict) {
  verdicts_[files_[next_].sha256] = std::move(verdict);
  replay_.reset();
  ++next_;
}

void Verification::start_next() {
  const FileToVerify& file = files_[next_];
  if (verdicts_.count(file.sha256) != 0) {
    ++next_;
    return;
  }
  const base::Result<std::string> bytes = load_(file.file);
  if (!bytes) {
    settle({false, {bytes.error().message}});
    return;
  }
  if (base::sha256_hex(*bytes) != file.sha256) {
    settle({false, {"the file has changed since it was collected"}});
    return;
  }
  const auto outcome = record::read_attempt(*bytes, file.file);
  if (!outcome.value.has_value()) {
    settle({false, {outcome.first_error()}});
    return;
  }
  base::Result<session::Replay> replay = session::Replay::start(*outcome.value);
  if (!replay) {
    settle({false, {replay.error().message}});
    return;
  }
  replay_.emplace(std::move(*replay));
}

bool Verification::advance(std::int64_t step_budget) {
  constexpr std::int64_t kPortion = 1000;
  // What opening a file counts as; own assumption.
  constexpr std::int64_t kOpening = 2000;
  std::int64_t left = step_budget;
  while (left > 0 && next_ < files_.size()) {
    if (!replay_.has_value()) {
      start_next();
      left -= kOpening;
      continue;
    }
    const std::int64_t portion = std::min(left, kPortion);
    left -= portion;
    if (!replay_->advance(portion)) {
      session::ReplayReport report = replay_->report();
      settle({report.equal, std::move(report.reasons)});
    }
  }
  return next_ < files_.size();
}

double Verification::progress() const {
  if (files_.empty()) {
    return 1.0;
  }
  const double part = replay_.has_value() ? replay_->progress() : 0.0;
  return (static_cast<double>(next_) + part) / static_cast<double>(files_.size());
}

void apply_verdicts(Roster& roster, const Verdicts& verdicts) {
  for (Entry& entry : roster.entries) {
    const auto verdict = verdicts.find(entry.file_sha256);
    if (entry.standing != Standing::kUnchecked || verdict == verdicts.end()) {
      continue;
    }
    entry.standing = verdict->second.equal ? Standing::kEqual : Standing::kDiffers;
    entry.reasons.insert(entry.reasons.end(), verdict->second.reasons.begin(),
                         verdict->second.reasons.end());
  }
}

}  // namespace driftbench::classroom
