// Words that files use for the enumerations of specimen and kit.
#pragma once

#include "base/json_reader.h"
#include "specimen/kit.h"
#include "specimen/material.h"
#include "specimen/plan.h"
#include "specimen/structure.h"

#include <array>
#include <cstddef>

namespace driftbench::lesson {

inline constexpr std::array<base::EnumName<specimen::Approach>, 3> kApproachWords{
    {{"freehand", specimen::Approach::kFreehand},
     {"pilot", specimen::Approach::kPilot},
     {"sleeve", specimen::Approach::kSleeve}}};

inline constexpr std::array<base::EnumName<specimen::DensityClass>, 4> kDensityWords{
    {{"D1", specimen::DensityClass::kD1},
     {"D2", specimen::DensityClass::kD2},
     {"D3", specimen::DensityClass::kD3},
     {"D4", specimen::DensityClass::kD4}}};

inline constexpr std::array<base::EnumName<specimen::DrillKind>, 3> kDrillKindWords{
    {{"twist", specimen::DrillKind::kTwist},
     {"starter", specimen::DrillKind::kStarter},
     {"side-cutter", specimen::DrillKind::kSideCutter}}};

/// Everything that a section may have.
inline constexpr auto kStructureWords = [] {
  std::array<base::EnumName<specimen::Structure>,
             static_cast<std::size_t>(specimen::Structure::kOtherImplant) + 1>
      words{};
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto structure = static_cast<specimen::Structure>(i);
    words[i] = {specimen::name_of(structure), structure};
  }
  return words;
}();

}  // namespace driftbench::lesson
