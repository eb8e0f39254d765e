// Times a class that is compiled: attempts turned in without their movement, and a table of a large
// study.
#include "timing.h"

#include "base/random.h"
#include "classroom/compile.h"
#include "classroom/roster.h"
#include "classroom/turn_in.h"
#include "stats/class_statistics.h"
#include "stats/holes_table.h"

#include <cmath>
#include <string>
#include <string_view>
#include <sys/resource.h>
#include <vector>

namespace {

using namespace driftbench;

constexpr int kLearners = 500;
constexpr int kAttemptsEach = 20;
constexpr int kRows = 1'000'000;
constexpr int kRowsPerOperator = 50;
constexpr int kRounds = 3;

/// An error of a hole, mm, spread like a rough bell.
double error_mm(base::Rng& rng, double bias_mm, double sd_mm) {
  constexpr int kSummands = 12;
  double sum = -0.5 * kSummands;
  for (int i = 0; i < kSummands; ++i) {
    sum += rng.uniform01();
  }
  return bias_mm + sd_mm * sum;
}

classroom::Entry attempt(base::Rng& rng, int learner, int period) {
  classroom::Entry entry;
  entry.attempt_id = fmt::format("{:016x}", learner * 1000 + period);
  entry.learner = fmt::format("learner {}", learner);
  entry.approach = period % 2 == 0 ? stats::Approach::kSleeve : stats::Approach::kFreehand;
  entry.measured = "hole";
  entry.period = period;
  entry.source = classroom::Source::kSimulated;
  entry.lesson_id = "bench";
  entry.lesson_sha256 = std::string(64, 'a');
  const double sd_mm = entry.approach == stats::Approach::kSleeve ? 0.3 : 0.8;
  for (const auto& [name, member] : classroom::kMeasureColumns) {
    entry.measures.*member = error_mm(rng, 0.3, sd_mm);
  }
  entry.measures.angle_deg = std::abs(*entry.measures.angle_deg);
  return entry;
}

/// Codes as learners paste them, one a learner.
std::vector<std::string> turned_in() {
  base::Rng rng(1);
  std::vector<std::string> codes;
  for (int learner = 0; learner < kLearners; ++learner) {
    std::vector<classroom::Entry> own;
    for (int period = 1; period <= kAttemptsEach; ++period) {
      own.push_back(attempt(rng, learner, period));
    }
    codes.push_back(classroom::write_turn_in(own).value());
  }
  return codes;
}

void time_class() {
  const std::vector<std::string> codes = turned_in();
  bench::Durations all;
  std::size_t entries = 0;
  for (int round = 0; round < kRounds; ++round) {
    all.time([&] {
      classroom::Collector collector;
      for (std::size_t i = 0; i < codes.size(); ++i) {
        collector.add(codes[i], fmt::format("{}.turn-in.txt", i));
      }
      const classroom::Class whole = classroom::compile(collector.finish(), std::nullopt);
      entries = whole.parts.empty() ? 0 : whole.parts.front().entries.size();
    });
  }
  all.print("class");
  fmt::print("class_attempts {}\n", entries);
}

std::string large_table() {
  base::Rng rng(2);
  std::string text = "operator,approach,entry_md_mm,entry_bl_mm,depth_mm\n";
  for (int row = 0; row < kRows; ++row) {
    const bool is_sleeve = row % 2 == 1;
    const double sd_mm = is_sleeve ? 0.3 : 0.8;
    const double md_mm = error_mm(rng, 0.3, sd_mm);
    const double bl_mm = error_mm(rng, 0.0, sd_mm);
    fmt::format_to(std::back_inserter(text), "operator {},{},{:.3f},{:.3f},{:.3f}\n",
                   row / kRowsPerOperator, is_sleeve ? "sleeve" : "freehand", md_mm, bl_mm,
                   0.1 * md_mm);
  }
  return text;
}

void time_table() {
  const std::string text = large_table();
  bench::Durations all;
  std::size_t holes = 0;
  all.time([&] {
    const auto table = stats::read_holes(text, "holes.csv", std::nullopt).value();
    const stats::ClassStatistics statistics = stats::class_statistics(table);
    holes = statistics.groups.empty() ? 0 : table.holes.size();
  });
  all.print("table");
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  fmt::print("table_rows {}\ntable_peak_mib {:.0f}\n", holes,
             static_cast<double>(used.ru_maxrss) / 1024.0);
}

}  // namespace

int main() {
  time_class();
  time_table();
  return 0;
}
