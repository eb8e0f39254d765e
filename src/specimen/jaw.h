// Description of a piece of jaw round one implant site.
#pragma once

#include "base/result.h"
#include "specimen/material.h"
#include "specimen/ridge_profile.h"
#include "specimen/tooth_shape.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::specimen {

enum class JawRegion { kPosteriorMandible, kAnteriorMandible, kPosteriorMaxilla, kAnteriorMaxilla };

/// Opening of the mandibular canal on the facial side, with the loop before it.
struct ForamenSpec {
  double at_mm = -9.0;       ///< station
  double depth_mm = 14.0;    ///< of its middle, below z = 0
  double diameter_mm = 3.0;  ///< own assumption within usual 2 to 5
  double loop_mm = 1.63;     ///< how far the canal runs on before turning back: median 1.63
                             ///< (0.52 to 3.92), J Oral Implantol 2019;45:463

  friend bool operator==(const ForamenSpec&, const ForamenSpec&) = default;
};

/// The mandibular canal.
struct CanalSpec {
  double diameter_mm = 2.55;  ///< 2.58 (0.52) right, 2.55 (0.54) left: Do et al. 2024, J Orthod Sci
  double wall_mm = 0.5;  ///< upper wall 1.1 (SD 0.71) at the second molar, the largest; 642 CBCT;
                         ///< thinner elsewhere, own assumption
  double depth_mm = 13.07;  ///< z = 0 to its roof at the site: crest to canal 13.07 (SD 2.96),
                            ///< 100 CBCT, UWC repository 10566/3724
  double lateral_mm = 0.7;  ///< of its middle, + lingual: 6.6 buccal, 4.1 lingual of it,
                            ///< J Korean Acad OMF Radiol 1997;27:217
  double rise_deg = 4.0;    ///< it comes nearer to the crest distally; own assumption
  double drift_deg = 5.0;   ///< it goes lingually distally: buccal bone 5.4 at the second molar,
                            ///< 2.6 at the second premolar, J Endod 2016;42
  double sag_mm = 0.8;      ///< it hangs through in the middle; own assumption
  std::optional<ForamenSpec> foramen;

  friend bool operator==(const CanalSpec&, const CanalSpec&) = default;
};

/// Nasopalatine canal behind the upper central incisors.
struct NasopalatineSpec {
  double at_mm = -5.0;
  double lateral_mm = 5.0;   ///< at the crest
  double lean_deg = 15.0;    ///< it goes lingually toward the nose
  double diameter_mm = 3.5;  ///< own assumption within usual 3 to 5
  double wall_mm = 0.4;      ///< own assumption

  friend bool operator==(const NasopalatineSpec&, const NasopalatineSpec&) = default;
};

/// An air space above upper teeth: maxillary sinus or nose.
struct LumenSpec {
  double floor_mm = 7.0;         ///< z = 0 down to its bony floor at the lowest place
  double lowest_mm = 2.0;        ///< station of the lowest place
  double bow_radius_mm = 25.0;   ///< of the floor along the arch
  double mesial_end_mm = -30.0;  ///< station of its front wall
  double lateral_mm = 1.0;       ///< of its middle
  double width_mm = 11.8;        ///< 11.8 (3.8 to 21.1) at the first molar, Int J Oral Maxillofac
                                 ///< Surg (edentulous)
  double cortex_mm = 0.8;        ///< bony floor; own assumption
  double membrane_mm = 0.8;      ///< lining; own assumption

  friend bool operator==(const LumenSpec&, const LumenSpec&) = default;
};

/// Soft tissue over the bone.
struct GumSpec {
  double crest_mm = 2.5;   ///< over the crest; common 2 to 3
  double side_mm = 1.2;    ///< on the sides; own assumption
  double reach_mm = 11.0;  ///< depth at which it ends

  friend bool operator==(const GumSpec&, const GumSpec&) = default;
};

/// Spongy bone.
struct CancellousSpec {
  DensityClass density = DensityClass::kD3;
  double contrast = 0.55;     ///< of the trabeculae, 0 to 0.9; own assumption
  std::uint64_t texture = 1;  ///< seed of the trabeculae

  friend bool operator==(const CancellousSpec&, const CancellousSpec&) = default;
};

/// Most teeth that a section may have, the lost one not counted.
inline constexpr std::size_t kMostTeeth = 8;

/// A piece of jaw along the arch.
///
/// Frame: jaw frame in anatomical words: origin on the crest at the site, +x distal, +y lingual,
///        +z out of the bone. Sections of quadrants 2 and 4 are mirrored in x when they are
///        placed (JawPose), so that the core frame stays right-handed.
struct JawSpec {
  JawRegion region = JawRegion::kPosteriorMandible;
  int site_fdi = 36;
  double length_mm = 26.0;      ///< along x
  double depth_mm = 60.0;       ///< the section is cut off here, below z = 0
  double arch_radius_mm = 0.0;  ///< 0: straight
  double voxel_mm = 0.2;
  RidgeSpec ridge;        ///< at the site
  RidgeSpec tooth_ridge;  ///< where the neighbours stand
  CortexSpec cortex;
  CortexSpec tooth_cortex;
  CancellousSpec cancellous;
  std::optional<CanalSpec> canal;
  std::optional<NasopalatineSpec> nasopalatine;
  std::optional<LumenSpec> sinus;
  std::optional<LumenSpec> nose;
  std::vector<ToothSpec> teeth;
  std::optional<ToothSpec> socket;  ///< the tooth just lost at the site
  GumSpec gum;

  friend bool operator==(const JawSpec&, const JawSpec&) = default;
};

/// A typical section of a region: published means where there are any.
[[nodiscard]] JawSpec typical_jaw(JawRegion region);

/// Checks ranges and anatomy: canal and air spaces inside the bone, no root and no implant
/// under a crown through the canal or through another tooth, bone under every wall.
///
/// Errors: kOutOfRange, kInvalidArgument; one sentence each
[[nodiscard]] base::Result<JawSpec> validated(const JawSpec& spec);

}  // namespace driftbench::specimen
