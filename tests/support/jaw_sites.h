// Molar sites between two neighbours, for tests of guides.
#pragma once

#include "specimen/jaw_site.h"
#include "specimen/tooth_number.h"

namespace driftbench::support {

/// A typical molar site between a premolar and a molar, 21 mm apart; the flap is raised.
inline specimen::JawSite molar_site(int fdi) {
  specimen::JawSite site;
  site.id = "molar";
  site.jaw =
      specimen::typical_jaw(specimen::is_upper(fdi) ? specimen::JawRegion::kPosteriorMaxilla
                                                    : specimen::JawRegion::kPosteriorMandible);
  site.jaw.site_fdi = fdi;
  site.jaw.length_mm = 28.0;
  specimen::ToothSpec mesial;
  mesial.fdi = fdi - 1;
  mesial.at_mm = -9.8;
  specimen::ToothSpec distal;
  distal.fdi = fdi + 1;
  distal.at_mm = 11.2;
  site.jaw.teeth = {mesial, distal};
  site.access = specimen::GumState::kFlap;
  return site;
}

}  // namespace driftbench::support
