#include "ui/crown.h"

#include "lesson/case_plan_edit.h"
#include "specimen/tooth_number.h"

namespace driftbench::ui {

GhostCrown ghost_crown(const lesson::SpecimenCase& specimen) {
  const specimen::ToothSize& size = specimen::average_tooth(specimen.jaw.site_fdi);
  GhostCrown crown;
  crown.bottom_mm = specimen.jaw.gum.crest_mm;
  crown.top_mm = crown.bottom_mm + size.crown_mm;
  crown.neck_md_mm = size.neck_md_mm;
  crown.crown_md_mm = size.crown_md_mm;
  crown.neck_bl_mm = size.neck_bl_mm;
  crown.crown_bl_mm = size.crown_bl_mm;
  return crown;
}

std::array<std::array<double, 2>, 8> GhostCrown::outline(bool along_arch) const {
  const double neck = 0.5 * (along_arch ? neck_md_mm : neck_bl_mm);
  const double wide = 0.5 * (along_arch ? crown_md_mm : crown_bl_mm);
  const double height = top_mm - bottom_mm;
  const double middle = bottom_mm + 0.45 * height;
  const double shoulder = bottom_mm + 0.85 * height;
  return {{{-neck, bottom_mm},
           {-wide, middle},
           {-0.92 * wide, shoulder},
           {-0.6 * wide, top_mm},
           {0.6 * wide, top_mm},
           {0.92 * wide, shoulder},
           {wide, middle},
           {neck, bottom_mm}}};
}

math::Vec3 screw_exit_mm(const GhostCrown& crown, const lesson::CasePlan& plan) {
  const math::Vec3 axis = lesson::axis_out_of(plan);
  return plan.entry_mm + (crown.top_mm - plan.entry_mm.z) / axis.z * axis;
}

double below_margin_mm(const GhostCrown& crown, const lesson::CasePlan& plan) {
  return crown.bottom_mm - plan.entry_mm.z;
}

}  // namespace driftbench::ui
