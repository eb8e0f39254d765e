// A specimen file: one piece of jaw with its story, its plan and the margins to watch.
#pragma once

#include "lesson/lesson.h"
#include "specimen/clearance.h"
#include "specimen/jaw.h"
#include "specimen/jaw_mixer.h"

#include <string>
#include <string_view>
#include <vector>

namespace driftbench::lesson {

/// A generic implant placed in the jaw frame.
struct CasePlan {
  math::Vec3 entry_mm{0.0};  ///< platform centre
  double lean_md_deg = 0.0;  ///< apex leans distally
  double lean_bl_deg = 0.0;  ///< apex leans lingually
  double diameter_mm = 4.5;
  double length_mm = 10.0;

  friend bool operator==(const CasePlan&, const CasePlan&) = default;
};

/// A distance that the case asks to keep.
struct Margin {
  specimen::Structure structure = specimen::Structure::kCanal;
  double keep_mm = 2.0;

  friend bool operator==(const Margin&, const Margin&) = default;
};

/// A specimen file, resolved.
struct SpecimenCase {
  std::string id;
  LocalText title;
  LocalText story;
  specimen::JawSpec jaw;
  specimen::GumState access = specimen::GumState::kFlap;
  CasePlan plan;
  std::vector<Margin> margins;
  std::string sha256;  ///< of the exact bytes read
};

/// Reads a specimen file. Numbers that the file leaves out are those of a typical jaw of its
/// region. Impossible anatomy and an implant longer than the bone are errors, each with its reason.
[[nodiscard]] ReadOutcome<SpecimenCase> read_specimen(std::string_view text,
                                                      std::string_view file_name);

/// Text of a specimen file, version 1, with every number; read_specimen() of it gives the same case
/// (but for `sha256`).
[[nodiscard]] std::string write_specimen(const SpecimenCase& specimen);

/// The case's plan in the jaw frame; see specimen::plan_in_core().
[[nodiscard]] specimen::Plan plan_of(const SpecimenCase& specimen);

/// The planned implant in the jaw frame.
[[nodiscard]] specimen::RevolvedBody implant_of(const SpecimenCase& specimen);

}  // namespace driftbench::lesson
