#include "classroom/film.h"

#include "base/json_writer.h"
#include "base/text.h"
#include "geometry/anatomical_frame.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace driftbench::classroom {
namespace {

/// Directions of the site; the session could not have begun without them.
geometry::AnatomicalFrame frame_of(const lesson::AttemptSetup& setup) {
  const specimen::Plan& plan = setup.plan;
  return geometry::make_anatomical_frame(plan.entry_mm, plan.apex_mm(), plan.md_hint, plan.bl_hint)
      .value_or(geometry::AnatomicalFrame{});
}

int count_of(double length_mm) {
  return static_cast<int>(std::lround(length_mm / kFilmSpacing_mm)) + 1;
}

double planned_diameter_mm(const lesson::AttemptSetup& setup) {
  double widest = 0.0;
  for (const specimen::Drill& drill : setup.kit.drills) {
    const auto& planned = setup.plan.drill_ids;
    if (std::find(planned.begin(), planned.end(), drill.id) != planned.end()) {
      widest = std::max(widest, drill.diameter_mm);
    }
  }
  return widest;
}

void write_rounded(base::JsonWriter& out, double value) {
  constexpr double kThousand = 1000.0;
  out.value(std::round(value * kThousand) / kThousand);
}

}  // namespace

base::Result<Film> Film::start(std::string_view text, const std::string& name) {
  const auto read = record::read_attempt(text, name);
  if (!read.value.has_value()) {
    return base::fail(base::ErrorCode::kParse, read.first_error());
  }
  if (read.value->attempt.engine != session::kEngine) {
    return base::fail(base::ErrorCode::kUnsupported,
                      name + ": " + session::other_engine_words(read.value->attempt.engine));
  }
  return session::Replay::start(*read.value).map([](session::Replay&& replay) {
    return Film(std::move(replay));
  });
}

bool Film::advance(std::int64_t step_count) {
  return replay_.advance(step_count);
}

int Film::columns() const {
  return count_of(2.0 * kFilmHalfWidth_mm);
}

int Film::rows() const {
  return count_of(kFilmAbove_mm + replay_.session().setup().plan.depth_mm + kFilmBelow_mm);
}

FilmSection Film::section(bool is_md) const {
  const lesson::AttemptSetup& setup = replay_.session().setup();
  const geometry::AnatomicalFrame frame = frame_of(setup);
  const volume::Volume& volume = *replay_.session().view().volume;
  const volume::Grid& grid = volume.grid;
  const math::Vec3 along = is_md ? frame.md_unit : frame.bl_unit;
  FilmSection section;
  for (int row = 0; row < rows(); ++row) {
    for (int column = 0; column < columns(); ++column) {
      const math::Vec3 at = setup.plan.entry_mm +
                            (column * kFilmSpacing_mm - kFilmHalfWidth_mm) * along +
                            (row * kFilmSpacing_mm - kFilmAbove_mm) * frame.down_unit;
      const math::Vec3 voxel = (at - grid.first_centre_mm) / grid.spacing_mm;
      const long x = std::lround(voxel.x);
      const long y = std::lround(voxel.y);
      const long z = std::lround(voxel.z);
      if (x < 0 || y < 0 || z < 0 || x >= grid.nx || y >= grid.ny || z >= grid.nz) {
        section.density.push_back(0);
        section.before.push_back(0);
        section.after.push_back(0);
        section.tick.push_back(volume::kNeverRemoved);
        continue;
      }
      const std::size_t i =
          grid.index(static_cast<int>(x), static_cast<int>(y), static_cast<int>(z));
      constexpr double kFull = 255.0;
      const double share = volume.density_mg_per_cm3[i] / kFilmDensity_mg_per_cm3;
      section.density.push_back(
          static_cast<std::uint8_t>(std::lround(kFull * std::min(1.0, share))));
      section.before.push_back(volume.initial_coverage[i]);
      section.after.push_back(volume.coverage[i]);
      section.tick.push_back(volume.removal_tick[i]);
    }
  }
  return section;
}

std::string Film::json() const {
  const session::SessionView& view = replay_.session().view();
  const lesson::AttemptSetup& setup = replay_.session().setup();
  const geometry::AnatomicalFrame frame = frame_of(setup);
  const auto first = std::find_if(view.samples.begin(), view.samples.end(),
                                  [](const drilling::LoadSample& one) { return one.in_contact; });
  base::JsonWriter out(base::JsonLayout::kCompact);
  out.begin_object().field("columns", columns()).field("rows", rows());
  out.field("spacing_mm", kFilmSpacing_mm).field("half_width_mm", kFilmHalfWidth_mm);
  out.field("above_mm", kFilmAbove_mm).field("depth_mm", setup.plan.depth_mm);
  out.field("plan_diameter_mm", planned_diameter_mm(setup)).field("end_step", view.step);
  out.field("contact_step", first == view.samples.end() ? std::int64_t{-1} : first->step);
  out.field("equal", is_equal()).key("drills").begin_array();
  for (const specimen::Drill& drill : setup.kit.drills) {
    out.value(drill.diameter_mm);
  }
  out.end_array().key("poses").begin_array();
  for (std::size_t i = 0; i < view.samples.size(); i += 2) {
    const drilling::LoadSample& sample = view.samples[i];
    const math::Vec3 tip = sample.pose.tip_mm - setup.plan.entry_mm;
    const math::Vec3 axis = sample.pose.axis_out_unit;
    out.begin_array().value(sample.step);
    for (const math::Vec3& vector : {tip, axis}) {
      write_rounded(out, glm::dot(vector, frame.md_unit));
      write_rounded(out, glm::dot(vector, frame.bl_unit));
      write_rounded(out, -glm::dot(vector, frame.down_unit));
    }
    out.value(sample.drill_index).end_array();
  }
  out.end_array().end_object();
  return out.take();
}

}  // namespace driftbench::classroom
