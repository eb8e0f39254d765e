// What must not be touched in a jaw, and its names in files.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace driftbench::specimen {

/// What a distance is measured to.
enum class Structure {
  kCanal,      ///< the nerve: the canal's lumen
  kCanalWall,  ///< outside of the canal's wall
  kForamen,    ///< loop and opening of the mental foramen
  kNasopalatine,
  kRootMesial,  ///< root or neck of the neighbour on the mesial side
  kRootDistal,
  kFacialPlate,  ///< bone left on the facial side, from 1 mm below the platform
  kLingualPlate,
  kBase,  ///< lower border of the jaw
  kSinusFloor,
  kNasalFloor,
  kOtherImplant
};

/// Short English name, as in files: "canal", "facial-plate" ...
[[nodiscard]] constexpr std::string_view name_of(Structure structure) {
  constexpr std::array<std::string_view, 12> kNames{
      "canal",        "canal-wall",    "foramen", "nasopalatine", "mesial-root", "distal-root",
      "facial-plate", "lingual-plate", "base",    "sinus-floor",  "nasal-floor", "other-implant"};
  return kNames[static_cast<std::size_t>(structure)];
}

}  // namespace driftbench::specimen
