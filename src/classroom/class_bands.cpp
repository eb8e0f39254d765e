#include "classroom/class_bands.h"

#include "base/json_reader.h"
#include "base/text.h"
#include "classroom/axes.h"
#include "classroom/compile.h"
#include "classroom/learner_summary.h"
#include "classroom/summary_json.h"
#include "classroom/words.h"
#include "lesson/read_document.h"
#include "stats/distributions.h"
#include "stats/series.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace driftbench::classroom {
namespace {

constexpr base::NumberRange kLength_mm{0.0, 1e6};
constexpr base::IntRange kCount{0, 1'000'000'000};
constexpr std::size_t kLongestText = 4000;
constexpr std::size_t kLongestId = 200;

constexpr std::array<base::EnumName<stats::Approach>, 3> kApproaches{
    {{stats::kApproachNames[0], stats::Approach::kFreehand},
     {stats::kApproachNames[1], stats::Approach::kPilot},
     {stats::kApproachNames[2], stats::Approach::kSleeve}}};

constexpr std::array<base::EnumName<Source>, 2> kSources{
    {{kSourceNames[0], Source::kSimulated}, {kSourceNames[1], Source::kBench}}};

std::optional<stats::Interval> read_band(base::ObjectReader& in, std::string_view key) {
  const base::JsonValue* value = in.required(key);
  if (value == nullptr || value->is_null()) {
    return std::nullopt;
  }
  const std::vector<double> ends = in.required_doubles(key, {2, 2}, kLength_mm, "mm");
  if (ends.size() != 2) {
    return std::nullopt;
  }
  if (ends[0] > ends[1]) {
    in.add_error(key, "a band whose lower end lies above the upper", "low, high");
  }
  return stats::Interval{ends[0], ends[1]};
}

ClassBands read_source(const base::JsonValue& item, const std::string& path,
                       base::ProblemList& problems) {
  base::ObjectReader in(item, path, problems);
  ClassBands part;
  part.source = in.required_enum("source", kSources);
  part.learners = static_cast<std::size_t>(in.required_int("learners", kCount));
  part.attempts = static_cast<std::size_t>(in.required_int("attempts", kCount));
  part.result = in.optional_string("result", kLongestText).value_or("");
  part.bands = in.required_array(
      "bands", {0, 3},
      [](const base::JsonValue& band, const std::string& at, base::ProblemList& all) {
        base::ObjectReader fields(band, at, all);
        ClassBand read;
        read.approach = fields.required_enum("approach", kApproaches);
        read.bias_mm = read_band(fields, "bias_mm");
        read.spread_mm = read_band(fields, "spread_mm");
        return read;
      });
  return part;
}

std::string optional_text(base::ObjectReader& in, std::string_view key) {
  const base::JsonValue* value = in.required(key);
  return value == nullptr || value->is_null() ? std::string()
                                              : in.optional_string(key, kLongestId).value_or("");
}

/// Where a number stands, in words that rank nobody.
std::string place_words(double own, const stats::Interval& band) {
  return own < band.low    ? "closer than the middle half"
         : own > band.high ? "farther than the middle half"
                           : "inside the middle half";
}

std::string scatter_words(double own, const stats::Interval& band) {
  return own < band.low    ? "steadier than the middle half"
         : own > band.high ? "less steady than the middle half"
                           : "inside the middle half";
}

void say(OwnInClass& row) {
  const std::string_view way = approach_word(row.approach);
  if (!row.bias_mm.has_value()) {
    row.sentences.push_back(
        fmt::format("No own measured hole {} in this lesson yet.",
                    row.approach == stats::Approach::kSleeve ? "by sleeve" : std::string(way)));
    return;
  }
  std::string aim = fmt::format("Aim: the middle of your {} lies {} mm from the plan",
                                counted(row.holes, "hole"), mm(*row.bias_mm));
  if (row.bias_reach_mm.has_value()) {
    aim += fmt::format(", give or take {} mm", mm(*row.bias_reach_mm));
  }
  if (row.band.bias_mm.has_value()) {
    const stats::Interval& band = *row.band.bias_mm;
    aim += fmt::format(". The middle half of the class: {} to {} mm. You are {}.", mm(band.low),
                       mm(band.high), place_words(*row.bias_mm, band));
  } else {
    aim += ". The class shows no band: fewer than five people.";
  }
  row.sentences.push_back(std::move(aim));
  if (!row.spread_mm.has_value()) {
    row.sentences.emplace_back("Steadiness: two own holes are needed for a scatter.");
    return;
  }
  std::string steady = fmt::format("Steadiness: your scatter is {} mm", mm(*row.spread_mm));
  if (row.spread_interval.has_value()) {
    steady += fmt::format(" (95 % interval {} to {})", mm(row.spread_interval->low),
                          mm(row.spread_interval->high));
  }
  if (row.band.spread_mm.has_value()) {
    const stats::Interval& band = *row.band.spread_mm;
    steady += fmt::format(". The middle half of the class: {} to {} mm. You are {}.", mm(band.low),
                          mm(band.high), scatter_words(*row.spread_mm, band));
  } else {
    steady += ". The class shows no band: fewer than five people with two holes each.";
  }
  row.sentences.push_back(std::move(steady));
}

OwnInClass own_row(const ClassBand& band, const std::vector<const Entry*>& entries) {
  OwnInClass row;
  row.approach = band.approach;
  row.band = band;
  for (const Entry* entry : entries) {
    row.holes += entry_distance_mm(*entry).has_value() ? 1U : 0U;
  }
  if (row.holes > 0) {
    const LearnerSummary summary = summarise(0, band.approach, entries);
    if (summary.bias_mm) {
      row.bias_mm = *summary.bias_mm;
    }
    if (summary.spread_mm && row.holes >= 2) {
      constexpr double kLow = 0.025;
      const double df = 2.0 * (stats::real(row.holes) - 1.0);
      const double s = *summary.spread_mm;
      row.spread_mm = s;
      row.bias_reach_mm = stats::t_quantile(1.0 - kLow, df) * s / std::sqrt(stats::real(row.holes));
      row.spread_interval =
          stats::Interval{s * std::sqrt(df / stats::chi_squared_quantile(1.0 - kLow, df)),
                          s * std::sqrt(df / stats::chi_squared_quantile(kLow, df))};
    }
  }
  say(row);
  return row;
}

/// One measure: a bar for the class, a mark for the own number.
void draw_measure(Picture& picture, const Scale& x, double y, const OwnInClass& row,
                  const std::optional<stats::Interval>& band, const std::optional<double>& own,
                  const std::optional<stats::Interval>& interval) {
  constexpr double kHalf = 15.0;
  if (band.has_value()) {
    const double from = x(std::min(band->low, x.high));
    picture.rect(from, y - kHalf, std::max(2.0, x(std::min(band->high, x.high)) - from),
                 2.0 * kHalf, "band");
  }
  if (!own.has_value()) {
    return;
  }
  if (interval.has_value()) {
    picture.line(x(std::clamp(interval->low, 0.0, x.high)), y,
                 x(std::clamp(interval->high, 0.0, x.high)), y, "interval");
  }
  picture.mark(x(std::min(*own, x.high)), y, 9.0, row.approach, Source::kSimulated);
}

std::optional<stats::Interval> bias_interval(const OwnInClass& row) {
  if (!row.bias_mm.has_value() || !row.bias_reach_mm.has_value()) {
    return std::nullopt;
  }
  return stats::Interval{*row.bias_mm - *row.bias_reach_mm, *row.bias_mm + *row.bias_reach_mm};
}

double largest_of(std::span<const OwnInClass> rows) {
  double largest = 0.0;
  const auto see = [&largest](const std::optional<stats::Interval>& interval) {
    if (interval.has_value()) {
      largest = std::max(largest, interval->high);
    }
  };
  for (const OwnInClass& row : rows) {
    see(row.band.bias_mm);
    see(row.band.spread_mm);
    largest = std::max({largest, row.bias_mm.value_or(0.0), row.spread_mm.value_or(0.0)});
  }
  return largest;
}

}  // namespace

lesson::ReadOutcome<ClassBands> read_class_bands(std::string_view text,
                                                 std::string_view file_name) {
  auto outcome = lesson::read_document<ClassBands>(
      text, file_name, {kSummaryFormat, kSummaryVersion, kMaxSummaryBytes},
      [](base::ObjectReader& in) {
        const std::string lesson_id = optional_text(in, "lesson_id");
        const std::string lesson_sha256 = optional_text(in, "lesson_sha256");
        std::vector<ClassBands> parts = in.required_array("sources", {0, 2}, read_source);
        if (parts.empty()) {
          in.add_error("sources", "no attempts", "a class");
          return ClassBands{};
        }
        const auto simulated = std::find_if(parts.begin(), parts.end(), [](const ClassBands& part) {
          return part.source == Source::kSimulated;
        });
        ClassBands chosen = simulated != parts.end() ? *simulated : parts.front();
        chosen.lesson_id = lesson_id;
        chosen.lesson_sha256 = lesson_sha256;
        return chosen;
      });
  // Fields that are not needed are no trouble.
  std::erase_if(outcome.problems, [](const base::Problem& problem) {
    return problem.severity == base::Problem::Severity::kWarning;
  });
  return outcome;
}

std::vector<OwnInClass> own_in_class(const ClassBands& bands, std::span<const Entry> own) {
  std::vector<OwnInClass> rows;
  for (const ClassBand& band : bands.bands) {
    std::vector<const Entry*> entries;
    for (const Entry& entry : own) {
      if (entry.approach == band.approach && entry.standing != Standing::kDiffers &&
          (bands.lesson_sha256.empty() || entry.lesson_sha256 == bands.lesson_sha256)) {
        entries.push_back(&entry);
      }
    }
    rows.push_back(own_row(band, entries));
  }
  return rows;
}

Picture own_in_class_picture(std::span<const OwnInClass> rows) {
  constexpr double kRow = 56.0;
  constexpr double kTop = 50.0;
  const double bottom = kTop + kRow * 2.0 * stats::real(rows.size());
  const double end = axis_end(1.08 * largest_of(rows), 1.0);
  Picture picture(
      1000.0, bottom + 70.0, "You and the class",
      "Bars: the middle half of the class. Marks: you, the line is your 95 % interval.");
  const Scale x{0.0, end, 330.0, 970.0};
  const double step = tick_step(end);
  for (int i = 0; i * step <= end + 1e-9; ++i) {
    constexpr double kThousand = 1000.0;
    const double at = std::round(i * step * kThousand) / kThousand;
    picture.line(x(at), kTop - 20.0, x(at), bottom, i > 0 ? "grid" : "axis");
    picture.text(x(at), bottom + 26.0, base::number(at), Anchor::kMiddle);
  }
  picture.text(650.0, bottom + 56.0, "Millimetres, 0 is best", Anchor::kMiddle);
  double y = kTop + 0.5 * kRow - 10.0;
  for (const OwnInClass& row : rows) {
    for (const bool is_aim : {true, false}) {
      picture.text(
          310.0, y + 6.0,
          fmt::format("{}, {}", is_aim ? "Aim" : "Steadiness", approach_word(row.approach)),
          Anchor::kEnd, "name");
      draw_measure(picture, x, y, row, is_aim ? row.band.bias_mm : row.band.spread_mm,
                   is_aim ? row.bias_mm : row.spread_mm,
                   is_aim ? bias_interval(row) : row.spread_interval);
      y += kRow;
    }
  }
  return picture;
}

}  // namespace driftbench::classroom
