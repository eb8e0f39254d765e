// A specimen file: one piece of jaw prepared for a site, with its title and story.
#pragma once

#include "lesson/lesson.h"
#include "specimen/jaw_site.h"

#include <string>
#include <string_view>

namespace driftbench::lesson {

using CasePlan = specimen::SitePlan;
using specimen::Margin;

/// A specimen file, resolved: the site that an attempt drills, and words about it.
struct SpecimenCase : specimen::JawSite {
  LocalText title;
  LocalText story;
};

/// Reads a specimen file. Numbers that the file leaves out are those of a typical jaw of its
/// region. Impossible anatomy and an implant longer than the bone are errors, each with its reason.
[[nodiscard]] ReadOutcome<SpecimenCase> read_specimen(std::string_view text,
                                                      std::string_view file_name);

/// Text of a specimen file, version 1, with every number; read_specimen() of it gives the same case
/// (but for `sha256`).
[[nodiscard]] std::string write_specimen(const SpecimenCase& specimen);

}  // namespace driftbench::lesson
