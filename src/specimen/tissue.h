// What a voxel of a jaw section is made of, and the density it is drawn and cut with.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace driftbench::specimen {

/// Tissue class of a voxel; the numbers stand in volume::Volume::tissue.
enum class Tissue : std::uint8_t {
  kAir = 0,  ///< outside everything
  kCortical,
  kCancellous,
  kCanalWall,  ///< corticated wall of a nerve canal
  kNerve,      ///< nerve and vessels inside a canal
  kEnamel,
  kDentine,
  kPulp,
  kLigament,
  kGum,
  kMembrane,    ///< lining of sinus and nose
  kSinusLumen,  ///< air
  kNasalLumen,  ///< air
  kSocket,      ///< open socket of a tooth just lost: air
  kTitanium,    ///< implant under a neighbouring crown, and the post in that crown
  kCount
};

/// Name and model density of a tissue.
struct TissueFacts {
  std::string_view name;
  int density_mg_per_cm3;  ///< model density; of cancellous bone see cancellous_density()
  bool is_solid;           ///< has coverage
};

/// Facts of a tissue.
///
/// Unit:   mg/cm^3 'model density': a mineral-like scale on which soft tissue is near 0, as a scan
///         shows it; not a scan's grey value
/// Source: cortical jaw bone about 1,800 (Misch: D1 above 1,250); canal wall: borders of the canal
///         read 508 to 832 as a thin shell, whose full value is higher (own assumption 1,000);
///         enamel, dentine and soft tissues: own assumptions in the order of a radiograph;
///         titanium: its mass per volume, 4.51 g/cm^3 (any table of the elements)
[[nodiscard]] inline const TissueFacts& facts_of(Tissue tissue) {
  static constexpr std::array<TissueFacts, static_cast<std::size_t>(Tissue::kCount)> kFacts{
      {{"air", 0, false},
       {"cortical bone", 1750, true},
       {"cancellous bone", 600, true},
       {"canal wall", 1000, true},
       {"nerve", 60, true},
       {"enamel", 2900, true},
       {"dentine", 1900, true},
       {"pulp", 60, true},
       {"ligament", 60, true},
       {"gum", 80, true},
       {"membrane", 60, true},
       {"sinus", 0, false},
       {"nose", 0, false},
       {"socket", 0, false},
       {"titanium", 4510, true}}};
  return kFacts[static_cast<std::size_t>(tissue)];
}

}  // namespace driftbench::specimen
