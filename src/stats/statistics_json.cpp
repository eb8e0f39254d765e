// One object a group; reasons are collected while its values are written.
#include "stats/statistics_json.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace driftbench::stats {
namespace {

using base::JsonWriter;
using base::Result;

// An object whose missing values are null, with their reasons at its end.
class ReasonedObject {
 public:
  explicit ReasonedObject(JsonWriter& writer) : writer_(writer) { writer_.begin_object(); }

  void number(std::string_view name, const Result<double>& value) {
    if (value) {
      writer_.field(name, *value);
    } else {
      missing(name, value.error());
    }
  }

  template <class T, class Write>
  void part(std::string_view name, const Result<T>& value, const Write& write) {
    if (value) {
      writer_.key(name);
      write(*value);
    } else {
      missing(name, value.error());
    }
  }

  template <class T>
  void member(std::string_view name, const Result<T>& whole, double T::*part) {
    number(name, whole.map(part));
  }

  void end() {
    if (!reasons_.empty()) {
      writer_.key("reasons").begin_object();
      for (const auto& [name, reason] : reasons_) {
        writer_.field(name, reason);
      }
      writer_.end_object();
    }
    writer_.end_object();
  }

 private:
  void missing(std::string_view name, const base::Error& error) {
    writer_.key(name).null();
    reasons_.emplace_back(std::string(name), error.message);
  }

  JsonWriter& writer_;
  std::vector<std::pair<std::string, std::string>> reasons_;
};

void write_ellipse(JsonWriter& writer, const Ellipse& ellipse) {
  writer.begin_object().field("semi_major_mm", ellipse.semi_major_mm);
  writer.field("semi_minor_mm", ellipse.semi_minor_mm).field("angle_deg", ellipse.angle_deg);
  writer.field("k", ellipse.k).end_object();
}

void write_hotelling(JsonWriter& writer, const Hotelling& test) {
  writer.begin_object().field("t2", test.t2).field("f", test.f).field("df1", test.df1);
  writer.field("df2", test.df2).field("p", test.p).end_object();
}

void write_interval(JsonWriter& writer, const Interval& interval) {
  writer.begin_array(base::JsonLayout::kCompact).value(interval.low).value(interval.high);
  writer.end_array();
}

}  // namespace

void write_group(JsonWriter& writer, const HoleTable& table, const GroupStatistics& group) {
  ReasonedObject object(writer);
  writer.field("approach", kApproachNames[static_cast<std::size_t>(group.approach)]);
  writer.field("n", group.n).field("operators", group.operators);
  object.member("bias_md_mm", group.bias, &math::Vec2::x);
  object.member("bias_bl_mm", group.bias, &math::Vec2::y);
  object.member("sd_md_mm", group.sd, &math::Vec2::x);
  object.member("sd_bl_mm", group.sd, &math::Vec2::y);
  object.number("spread_mm", group.spread_mm);
  object.number("r50_mm", group.r50_mm);
  object.number("r95_mm", group.r95_mm);
  const auto ellipse = [&writer](const Ellipse& shape) { write_ellipse(writer, shape); };
  object.part("prediction_ellipse", group.prediction_ellipse, ellipse);
  object.part("mean_ellipse", group.mean_ellipse, ellipse);
  object.part("hotelling", group.hotelling,
              [&writer](const Hotelling& test) { write_hotelling(writer, test); });
  writer.key("iso5725");
  ReasonedObject iso(writer);
  if (table.is_column_measure) {
    writer.field("n", group.measured);
  }
  iso.number("repeatability_sd_mm", group.repeatability_sd);
  iso.number("between_operator_sd_mm", group.between_operator_sd);
  iso.number("reproducibility_sd_mm", group.reproducibility_sd);
  iso.end();
  object.end();
}

void write_paired(JsonWriter& writer, const PairedStatistics& paired) {
  ReasonedObject object(writer);
  writer.field("operators", paired.operators);
  object.number("mean_difference_mm", paired.mean_difference);
  const auto interval = [&writer](const Interval& ends) { write_interval(writer, ends); };
  object.part("ci95_mm", paired.t,
              [&](const PairedT& test) { write_interval(writer, test.interval); });
  object.member("t", paired.t, &PairedT::t);
  object.member("df", paired.t, &PairedT::df);
  object.member("p", paired.t, &PairedT::p);
  writer.key("wilcoxon");
  ReasonedObject wilcoxon(writer);
  wilcoxon.number("w", paired.rank_sum);
  wilcoxon.number("p_exact", paired.rank_p);
  wilcoxon.end();
  object.number("spread_ratio", paired.spread_ratio);
  object.part("spread_ratio_ci95", paired.spread_ratio_interval, interval);
  object.end();
}

void write_statistics(JsonWriter& writer, const HoleTable& table,
                      const ClassStatistics& statistics) {
  writer.begin_object().field("measure", table.measure);
  writer.key("groups").begin_array();
  for (const GroupStatistics& group : statistics.groups) {
    write_group(writer, table, group);
  }
  writer.end_array();
  writer.key("paired");
  write_paired(writer, statistics.paired);
  writer.field("left_out_count", table.left_out_count);
  writer.key("left_out").begin_array();
  for (const LeftOut& row : table.left_out) {
    writer.begin_object(base::JsonLayout::kCompact).field("line", row.line);
    writer.field("reason", row.reason).end_object();
  }
  writer.end_array().end_object();
}

}  // namespace driftbench::stats
