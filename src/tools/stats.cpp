#include "base/json_writer.h"
#include "base/text.h"
#include "stats/class_statistics.h"
#include "stats/holes_table.h"
#include "stats/statistics_json.h"
#include "tools/commands.h"
#include "tools/files.h"
#include "tools/output.h"

#include <fmt/format.h>

#include <cstddef>
#include <string>
#include <vector>

namespace driftbench::tools {
namespace {

using base::Result;
using stats::ClassStatistics;
using stats::GroupStatistics;
using stats::HoleTable;
using stats::PairedStatistics;

constexpr std::string_view kHelp =
    R"(driftbench stats: bias and spread of a class's holes, by approach, and free-hand against sleeve.

usage: driftbench stats FILE.csv [--measure COLUMN] [--json]

The file is a holes.csv, one row a hole. Needed: operator, approach (freehand, pilot or sleeve) and two or more of
entry_md_mm, entry_bl_mm, depth_mm, apex_md_mm, apex_bl_mm, tilt_md_deg, tilt_bl_deg. An empty cell is a missing value.

  --measure  the column that iso5725 and paired look at, in its own unit, whatever the name of the result says;
             default: distance of the entry from the plan, sqrt(entry_md_mm^2 + entry_bl_mm^2), mm

groups, in mm, of the entry point (md + distal, bl + lingual), for each approach:
  n, operators        holes with both components, and who made them
  bias_*, sd_*        mean from the plan; standard deviation (n - 1)
  spread_mm           sqrt((sd_md^2 + sd_bl^2) / 2)
  r50_mm, r95_mm      radius about the target that holds 50 % and 95 % of a normal distribution with this mean and
                      covariance
  prediction_ellipse  holds the next hole with 95 %; mean_ellipse holds the true mean; k: semi-axes in standard
                      deviations (F-based); angle_deg of the long axis from +md toward +bl; none below 6 holes
  hotelling           is the mean off the plan? T^2, F with df1, df2, and p
  iso5725             standard deviations of the same operator again, between operators, and of another operator
paired, operators who have both approaches:
  mean_difference_mm, ci95_mm, t, df, p   free-hand - sleeve, of the operators' means
  wilcoxon            w: sum of positive ranks (equal sizes share ranks, zeros kept); p_exact: two-sided, to 20 pairs
  spread_ratio        spread of free-hand / spread of sleeve; interval from 10,000 resamples of operators, fixed seed
What cannot be computed is null (in the table: a dash), with a reason.

example: driftbench stats run/holes.csv --measure depth_mm --json
)";

constexpr int kDecimals = 3;
constexpr int kDecimalsOfP = 4;
constexpr std::string_view kNone = "-";

using Rows = std::vector<std::vector<std::string>>;

// Reasons of missing values, each once, with the names of what is missing.
class Reasons {
 public:
  void add(const std::string& name, const base::Error& error) {
    for (auto& [reason, names] : reasons_) {
      if (reason == error.message) {
        names.push_back(name);
        return;
      }
    }
    reasons_.push_back({error.message, {name}});
  }

  [[nodiscard]] std::string text(std::string_view of) const {
    std::string lines;
    for (const auto& [reason, names] : reasons_) {
      lines += fmt::format("{}: no {}: {}\n", of, base::join(names, ", "), reason);
    }
    return lines;
  }

 private:
  struct Entry {
    std::string reason;
    std::vector<std::string> names;
  };

  std::vector<Entry> reasons_;
};

std::string millimetres(double value) {
  return base::fixed(value, kDecimals);
}

std::string probability(double p) {
  constexpr double kLeast = 1e-4;
  return p < kLeast ? "< 0.0001" : base::fixed(p, kDecimalsOfP);
}

// A value as text, or a dash and a reason kept.
std::string shown(const std::string& name, const Result<double>& value, Reasons& reasons,
                  std::string (*format)(double) = millimetres) {
  if (value) {
    return format(*value);
  }
  reasons.add(name, value.error());
  return std::string(kNone);
}

std::string shown(const std::string& name, const Result<stats::Ellipse>& ellipse,
                  Reasons& reasons) {
  if (ellipse) {
    return fmt::format("{} x {} at {} deg", base::fixed(ellipse->semi_major_mm, kDecimals),
                       base::fixed(ellipse->semi_minor_mm, kDecimals),
                       base::fixed(ellipse->angle_deg, 1));
  }
  reasons.add(name, ellipse.error());
  return std::string(kNone);
}

/// Names of the lines of the table, in the order of group_cells().
Rows group_labels(const std::string& measure) {
  return {{"entry, mm"},
          {"holes"},
          {"operators"},
          {"bias md (+ distal)"},
          {"bias bl (+ lingual)"},
          {"sd md"},
          {"sd bl"},
          {"spread"},
          {"R50 about the target"},
          {"R95 about the target"},
          {"semi-axes of 95 % ellipse, next hole"},
          {"semi-axes of 95 % ellipse, mean"},
          {"p of no bias (Hotelling)"},
          {measure + ":"},
          {"sd, same operator (repeatability)"},
          {"sd between operators"},
          {"sd, any operator (reproducibility)"}};
}

std::vector<std::string> group_cells(const GroupStatistics& group, Reasons& reasons) {
  using math::Vec2;
  return {
      std::string(stats::kApproachNames[static_cast<std::size_t>(group.approach)]),
      std::to_string(group.n),
      std::to_string(group.operators),
      shown("bias md", group.bias.map(&Vec2::x), reasons),
      shown("bias bl", group.bias.map(&Vec2::y), reasons),
      shown("sd md", group.sd.map(&Vec2::x), reasons),
      shown("sd bl", group.sd.map(&Vec2::y), reasons),
      shown("spread", group.spread_mm, reasons),
      shown("R50", group.r50_mm, reasons),
      shown("R95", group.r95_mm, reasons),
      shown("ellipse of the next hole", group.prediction_ellipse, reasons),
      shown("ellipse of the mean", group.mean_ellipse, reasons),
      shown("Hotelling's test", group.hotelling.map(&stats::Hotelling::p), reasons, probability),
      std::to_string(group.measured) + (group.measured == 1 ? " hole" : " holes"),
      shown("repeatability", group.repeatability_sd, reasons),
      shown("sd between operators", group.between_operator_sd, reasons),
      shown("reproducibility", group.reproducibility_sd, reasons)};
}

std::string groups_text(const HoleTable& holes, const ClassStatistics& statistics) {
  if (statistics.groups.empty()) {
    return "no holes\n";
  }
  Rows rows = group_labels(holes.measure);
  std::string reasons_text;
  for (const GroupStatistics& group : statistics.groups) {
    Reasons reasons;
    const std::vector<std::string> cells = group_cells(group, reasons);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      rows[i].push_back(cells[i]);
    }
    reasons_text += reasons.text(cells[0]);
  }
  return table(rows) + reasons_text;
}

// The interval stands before the probability.
std::string paired_text(const HoleTable& holes, const PairedStatistics& paired) {
  Reasons reasons;
  std::string text =
      fmt::format("\nfree-hand against sleeve, {}, {} {} with both\n", holes.measure,
                  paired.operators, paired.operators == 1 ? "operator" : "operators");
  Rows rows{{"mean difference, free-hand - sleeve",
             shown("mean difference", paired.mean_difference, reasons)}};
  using stats::Interval;
  using stats::PairedT;
  const auto interval = [](const std::string& low, const std::string& high) {
    return low == kNone ? low : low + " to " + high;
  };
  rows.push_back(
      {"  95 % interval",
       interval(shown("interval", paired.t.map([](const PairedT& t) { return t.interval.low; }),
                      reasons),
                paired.t ? base::fixed(paired.t->interval.high, kDecimals) : "")});
  rows.push_back(
      {"spread ratio, free-hand / sleeve", shown("spread ratio", paired.spread_ratio, reasons)});
  rows.push_back(
      {"  95 % interval", interval(shown("interval of the spread ratio",
                                         paired.spread_ratio_interval.map(&Interval::low), reasons),
                                   paired.spread_ratio_interval
                                       ? base::fixed(paired.spread_ratio_interval->high, kDecimals)
                                       : "")});
  rows.push_back({"p, paired t", shown("t test", paired.t.map(&PairedT::p), reasons, probability)});
  rows.push_back(
      {"p, exact Wilcoxon", shown("Wilcoxon test", paired.rank_p, reasons, probability)});
  return text + table(rows) + reasons.text("paired");
}

void print_remarks(const std::string& file, const HoleTable& holes) {
  constexpr std::size_t kMaxLines = 20;
  for (const std::string& warning : holes.warnings) {
    print_message(warning);
  }
  for (std::size_t i = 0; i < holes.left_out.size() && i < kMaxLines; ++i) {
    print_message(fmt::format("{}:{}: {}, left out where it is needed", file,
                              holes.left_out[i].line, holes.left_out[i].reason));
  }
  if (holes.left_out_count > kMaxLines) {
    print_message(
        fmt::format("{}: {} more rows lack a value", file, holes.left_out_count - kMaxLines));
  }
}

int run(const Arguments& arguments) {
  if (arguments.plain().size() != 1) {
    return refuse("stats", {base::ErrorCode::kInvalidArgument,
                            fmt::format("found {} files, expected one", arguments.plain().size()),
                            {}});
  }
  const std::string& file = arguments.plain()[0];
  Result<std::string> text = read_file(file, stats::kHolesLimits.max_bytes);
  if (!text) {
    return refuse("stats", text.error());
  }
  const Result<HoleTable> holes = stats::read_holes(*text, file, arguments.text("--measure"));
  if (!holes) {
    return refuse("stats", holes.error());
  }
  text->clear();
  text->shrink_to_fit();
  print_remarks(file, *holes);
  const ClassStatistics statistics = stats::class_statistics(*holes);
  if (arguments.has("--json")) {
    base::JsonWriter writer;
    stats::write_statistics(writer, *holes, statistics);
    print(writer.take());
    return kGood;
  }
  print(groups_text(*holes, statistics) + paired_text(*holes, statistics.paired));
  return kGood;
}

}  // namespace

Command stats_command() {
  return {"stats",
          "bias and spread of a class's holes, free-hand against sleeve",
          kHelp,
          {{"--measure"}},
          run};
}

}  // namespace driftbench::tools
