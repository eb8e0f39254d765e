#include "specimen/jaw_sources.h"

#include "base/random.h"
#include "math/random_normal.h"

#include <algorithm>
#include <array>

namespace driftbench::specimen {
namespace {

constexpr JawRegion kBackLower = JawRegion::kPosteriorMandible;
constexpr JawRegion kFrontLower = JawRegion::kAnteriorMandible;
constexpr JawRegion kBackUpper = JawRegion::kPosteriorMaxilla;
constexpr JawRegion kFrontUpper = JawRegion::kAnteriorMaxilla;

constexpr std::string_view kText = "typical text figure";
constexpr std::string_view kOwn = "own assumption";
constexpr std::string_view kKorean = "J Korean Acad OMF Radiol 1997;27:217, 20 dry mandibles";
constexpr std::string_view kMagat = "Magat 2020 J Periodontal Implant Sci 50:28, 163 CBCT";

/// A shallow canal means a sunken crest: the neighbours keep their height above the canal.
void set_canal_depth(JawSpec& spec, double depth_mm) {
  if (!spec.canal) {
    return;
  }
  constexpr double kFullHeight_mm = 14.0;
  constexpr double kNeckAboveBone_mm = 1.6;
  spec.canal->depth_mm = depth_mm;
  spec.tooth_ridge.rise_mm = 1.0 + std::clamp(kFullHeight_mm - depth_mm, 0.0, 4.0);
  for (ToothSpec& tooth : spec.teeth) {
    tooth.neck_mm = spec.tooth_ridge.rise_mm + kNeckAboveBone_mm;
  }
}

constexpr std::array<PublishedSize, 25> kSizes{
    {{kBackLower, "canal.diameter_mm", 2.55, 0.54, 1.8, 3.4,
      "Do et al. 2024 J Orthod Sci, 112 CBCT: 2.55 (SD 0.54)",
      [](JawSpec& s, double v) {
        if (s.canal) {
          s.canal->diameter_mm = v;
        }
      }},
     {kBackLower, "canal.depth_mm", 13.07, 2.96, 10.0, 18.0,
      "UWC repository 10566/3724, 100 CBCT: crest to canal 13.07 (SD 2.96)", set_canal_depth},
     {kBackLower, "canal.lateral_mm", 0.7, 0.5, -0.3, 1.6,
      "facial surface to canal 5.89 (SD 1.09), UWC repository 10566/3724; 6.6 facial and 4.1 "
      "lingual "
      "bone in dentate jaws, J Korean Acad OMF Radiol 1997;27:217",
      [](JawSpec& s, double v) {
        if (s.canal) {
          s.canal->lateral_mm = v;
        }
      }},
     // Given as bone under the canal, 8.8 (SD 1.3).
     {kBackLower, "ridge.height_mm", 8.8, 1.3, 6.2, 11.4, kKorean,
      [](JawSpec& s, double v) {
        const double above = s.canal ? s.canal->depth_mm + s.canal->diameter_mm : 15.6;
        s.ridge.height_mm = above + v;
        s.tooth_ridge.height_mm = s.ridge.height_mm + s.tooth_ridge.rise_mm;
      }},
     {kBackLower, "cortex.facial_mm", 2.2, 0.4, 1.4, 3.0, kKorean,
      [](JawSpec& s, double v) { s.cortex.facial_mm = s.tooth_cortex.facial_mm = v; }},
     {kBackLower, "cortex.lingual_mm", 2.0, 0.6, 1.0, 3.2, kKorean,
      [](JawSpec& s, double v) { s.cortex.lingual_mm = s.tooth_cortex.lingual_mm = v; }},
     {kBackLower, "cortex.crest_mm", 1.5, 0.25, 1.0, 2.0, kText,
      [](JawSpec& s, double v) { s.cortex.crest_mm = v; }},
     {kBackLower, "cortex.base_mm", 3.5, 0.25, 3.0, 4.0, kText,
      [](JawSpec& s, double v) { s.cortex.base_mm = s.tooth_cortex.base_mm = v; }},
     {kBackLower, "ridge.crest_width_mm", 8.0, 0.5, 7.0, 9.0, kText,
      [](JawSpec& s, double v) { s.ridge.crest_width_mm = v; }},
     {kBackLower, "ridge.body_width_mm", 11.5, 0.4, 10.0, 12.0, kText,
      [](JawSpec& s, double v) {
        s.ridge.body_width_mm = v;
        s.ridge.upper_width_mm = std::max(0.5 * (v + s.ridge.crest_width_mm), 8.2);
      }},
     {kBackLower, "ridge.undercut_depth_mm", 2.38, 0.8, 1.0, 4.0,
      "Dammam study, 256 CBCT: 2.38 (SD 1.6); Magat 2020: 3.03 (SD 0.99)",
      [](JawSpec& s, double v) {
        s.ridge.undercut_depth_mm = s.tooth_ridge.undercut_depth_mm = v;
      }},
     {kBackLower, "ridge.undercut_level_mm", 10.5, 1.0, 9.0, 12.8, kMagat,
      [](JawSpec& s, double v) {
        s.ridge.undercut_level_mm = v;
        s.tooth_ridge.undercut_level_mm = v + s.tooth_ridge.rise_mm;
      }},
     {kBackLower, "ridge.undercut_angle_deg", 63.34, 4.0, 57.0, 69.0, kMagat,
      [](JawSpec& s, double v) {
        s.ridge.undercut_angle_deg = s.tooth_ridge.undercut_angle_deg = v;
      }},
     {kFrontLower, "ridge.height_mm", 28.0, 2.0, 23.0, 32.0, kOwn,
      [](JawSpec& s, double v) {
        s.ridge.height_mm = v;
        s.tooth_ridge.height_mm = v + s.tooth_ridge.rise_mm;
      }},
     {kFrontLower, "ridge.crest_width_mm", 5.5, 0.6, 4.4, 7.0, kOwn,
      [](JawSpec& s, double v) {
        s.ridge.crest_width_mm = v;
        s.ridge.upper_width_mm = v + 1.2;
      }},
     {kFrontLower, "cortex.facial_mm", 1.6, 0.3, 1.0, 2.2, kOwn,
      [](JawSpec& s, double v) { s.cortex.facial_mm = v; }},
     {kFrontLower, "cortex.lingual_mm", 2.2, 0.3, 1.6, 2.8, kOwn,
      [](JawSpec& s, double v) { s.cortex.lingual_mm = v; }},
     {kBackUpper, "sinus.floor_mm", 7.5, 1.5, 4.5, 12.0,
      "furcation to sinus 9.51 (SD 3.68), 752 molars, 10.5051/jpis.2020.50.1.38, less 2 mm lost "
      "after extraction (own assumption); edentulous first molars 3.3 (SD 2.2), Kopecka et al.",
      [](JawSpec& s, double v) {
        if (s.sinus) {
          s.sinus->floor_mm = v;
        }
      }},
     {kBackUpper, "sinus.width_mm", 11.8, 1.5, 8.0, 14.0,
      "Int J Oral Maxillofac Surg: 11.8 (3.8 to 21.1) at the first molar",
      [](JawSpec& s, double v) {
        if (s.sinus) {
          s.sinus->width_mm = v;
        }
      }},
     {kBackUpper, "cortex.facial_mm", 1.42, 0.4, 0.8, 2.4,
      "Healthcare 2021;9:1663: buccal bone of upper molars 1.42 (SD 0.74) at the crest",
      [](JawSpec& s, double v) { s.cortex.facial_mm = s.tooth_cortex.facial_mm = v; }},
     {kBackUpper, "ridge.crest_width_mm", 8.5, 0.6, 7.0, 10.0, kOwn,
      [](JawSpec& s, double v) { s.ridge.crest_width_mm = v; }},
     {kFrontUpper, "ridge.crest_width_mm", 6.5, 0.6, 5.2, 8.0, kOwn,
      [](JawSpec& s, double v) { s.ridge.crest_width_mm = v; }},
     {kFrontUpper, "ridge.body_width_mm", 9.55, 0.6, 8.2, 11.0,
      "Zhang et al. 2015 BMC Oral Health 15:65: alveolar width at the central incisor 9.55",
      [](JawSpec& s, double v) { s.ridge.body_width_mm = v; }},
     {kFrontUpper, "cortex.facial_mm", 0.8, 0.2, 0.5, 1.3, kOwn,
      [](JawSpec& s, double v) { s.cortex.facial_mm = s.tooth_cortex.facial_mm = v; }},
     {kFrontUpper, "nose.floor_mm", 18.5, 1.5, 15.0, 22.0, kOwn, [](JawSpec& s, double v) {
        if (s.nose) {
          s.nose->floor_mm = v;
        }
      }}}};

/// Cut-off normal: values beyond the limits are drawn again.
double drawn_value(base::Rng& rng, const PublishedSize& size) {
  constexpr int kTries = 50;
  for (int i = 0; i < kTries; ++i) {
    const double value = math::normal(rng, size.mean, size.sd);
    if (value >= size.low && value <= size.high) {
      return value;
    }
  }
  return size.mean;
}

void set_means(JawSpec& spec) {
  for (const PublishedSize& size : kSizes) {
    if (size.region == spec.region) {
      size.set(spec, size.mean);
    }
  }
}

JawSpec back_lower() {
  JawSpec spec;
  spec.ridge.base_width_mm = 11.5;
  spec.ridge.body_depth_mm = 7.0;
  spec.tooth_ridge = spec.ridge;
  spec.tooth_ridge.rise_mm = 1.0;
  spec.tooth_ridge.crest_width_mm = 10.0;
  spec.tooth_ridge.upper_width_mm = 12.0;
  spec.tooth_ridge.body_width_mm = 13.2;
  spec.tooth_ridge.base_width_mm = 12.0;
  spec.tooth_cortex = spec.cortex;
  spec.tooth_cortex.crest_mm = 1.0;
  spec.canal = CanalSpec{};
  spec.teeth = {{35, -9.6, 0.0, 2.6, 0.0, 0.0, 1.0}, {37, 11.2, 0.2, 2.6, -3.0, 6.0, 1.0}};
  return spec;
}

JawSpec front_lower() {
  JawSpec spec;
  spec.region = kFrontLower;
  spec.site_fdi = 42;
  spec.length_mm = 24.0;
  spec.arch_radius_mm = 26.0;
  spec.ridge = {};
  spec.ridge.body_width_mm = 9.0;
  spec.ridge.body_depth_mm = 14.0;
  spec.ridge.base_width_mm = 11.5;
  spec.ridge.lean_mm = 1.5;
  spec.tooth_ridge = spec.ridge;
  spec.tooth_ridge.rise_mm = 1.5;
  spec.tooth_ridge.crest_width_mm = 7.0;
  spec.tooth_ridge.upper_width_mm = 8.0;
  spec.cortex = {1.6, 2.2, 1.5, 3.5};
  spec.tooth_cortex = {0.9, 1.4, 1.0, 3.5};
  spec.cancellous.density = DensityClass::kD2;
  return spec;
}

JawSpec back_upper() {
  JawSpec spec;
  spec.region = kBackUpper;
  spec.site_fdi = 16;
  spec.depth_mm = 18.0;
  spec.ridge.height_mm = 30.0;
  spec.ridge.upper_width_mm = 11.0;
  spec.ridge.body_width_mm = 14.0;
  spec.ridge.body_depth_mm = 9.0;
  spec.ridge.base_width_mm = 17.0;
  spec.ridge.palate_flare_mm = 5.0;
  spec.tooth_ridge = spec.ridge;
  spec.tooth_ridge.rise_mm = 1.0;
  spec.tooth_ridge.crest_width_mm = 11.0;
  spec.tooth_ridge.upper_width_mm = 13.0;
  spec.tooth_ridge.body_width_mm = 15.5;
  spec.cortex = {1.42, 1.4, 0.9, 1.2};
  spec.tooth_cortex = {1.2, 1.3, 0.8, 1.2};
  spec.cancellous.density = DensityClass::kD4;
  spec.sinus = LumenSpec{};
  return spec;
}

JawSpec front_upper() {
  JawSpec spec;
  spec.region = kFrontUpper;
  spec.site_fdi = 11;
  spec.length_mm = 24.0;
  spec.depth_mm = 23.0;
  spec.arch_radius_mm = 26.0;
  spec.ridge.height_mm = 34.0;
  spec.ridge.upper_width_mm = 8.2;
  spec.ridge.body_depth_mm = 11.0;
  spec.ridge.base_width_mm = 12.0;
  spec.ridge.lean_mm = 8.0;
  spec.ridge.facial_hollow_mm = 0.8;
  spec.ridge.palate_flare_mm = 8.0;
  spec.tooth_ridge = spec.ridge;
  spec.tooth_ridge.rise_mm = 1.5;
  spec.tooth_ridge.crest_width_mm = 7.6;
  spec.tooth_ridge.upper_width_mm = 9.0;
  spec.tooth_ridge.body_width_mm = 10.0;
  spec.cortex = {0.8, 1.4, 0.9, 1.2};
  spec.tooth_cortex = {0.7, 1.3, 0.7, 1.2};
  LumenSpec nose;
  nose.lateral_mm = 13.0;
  nose.width_mm = 14.0;
  nose.bow_radius_mm = 30.0;
  nose.lowest_mm = 2.0;
  spec.nose = nose;
  spec.nasopalatine = NasopalatineSpec{};
  return spec;
}

}  // namespace

std::span<const PublishedSize> published_sizes() {
  return kSizes;
}

JawSpec typical_jaw(JawRegion region) {
  JawSpec spec;
  switch (region) {
    case kBackLower:
      spec = back_lower();
      break;
    case kFrontLower:
      spec = front_lower();
      break;
    case kBackUpper:
      spec = back_upper();
      break;
    case kFrontUpper:
      spec = front_upper();
      break;
  }
  set_means(spec);
  return spec;
}

base::Result<JawSpec> drawn_jaw(const JawSpec& base, std::uint64_t seed) {
  base::Rng rng(seed);
  constexpr int kTries = 20;
  std::string reason;
  for (int i = 0; i < kTries; ++i) {
    JawSpec spec = base;
    for (const PublishedSize& size : kSizes) {
      if (size.region == spec.region) {
        size.set(spec, drawn_value(rng, size));
      }
    }
    spec.cancellous.texture = rng.below(std::uint64_t{1} << 53U);
    base::Result<JawSpec> checked = validated(spec);
    if (checked) {
      return checked;
    }
    reason = checked.error().message;
  }
  return base::fail(base::ErrorCode::kInvalidArgument,
                    "No draw gave a possible jaw; the last one failed because: " + reason);
}

}  // namespace driftbench::specimen
