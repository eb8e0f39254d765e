#include "ui/study_words.h"

#include "specimen/tissue.h"
#include "specimen/tooth_number.h"
#include "ui/strings.h"
#include "ui/words.h"

#include <array>
#include <cmath>

namespace driftbench::ui {

using specimen::Structure;

std::string structure_words(Structure structure, int site_fdi) {
  if (structure == Structure::kFacialPlate && specimen::position_of(site_fdi) > 3) {
    return std::string(tr(Str::kStructBuccal));
  }
  if (structure == Structure::kLingualPlate && specimen::is_upper(site_fdi)) {
    return std::string(tr(Str::kStructPalatal));
  }
  constexpr std::array<Str, 12> kNames{
      Str::kStructCanal,      Str::kStructCanalWall,  Str::kStructForamen, Str::kStructNasopalatine,
      Str::kStructRootMesial, Str::kStructRootDistal, Str::kStructFacial,  Str::kStructLingual,
      Str::kStructBase,       Str::kStructSinus,      Str::kStructNose,    Str::kStructImplant};
  return std::string(tr(kNames[static_cast<std::size_t>(structure)]));
}

std::string margin_source(Structure structure) {
  switch (structure) {
    case Structure::kCanal:
    case Structure::kCanalWall:
    case Structure::kForamen:
      return std::string(tr(Str::kSourceCanal));
    case Structure::kRootMesial:
    case Structure::kRootDistal:
      return std::string(tr(Str::kSourceRoot));
    case Structure::kFacialPlate:
      return std::string(tr(Str::kSourceFacial));
    case Structure::kOtherImplant:
      return std::string(tr(Str::kSourceImplant));
    case Structure::kNasopalatine:
    case Structure::kLingualPlate:
    case Structure::kBase:
    case Structure::kSinusFloor:
    case Structure::kNasalFloor:
      break;
  }
  return std::string(tr(Str::kSourceCommon));
}

std::string clearance_amount(double distance_mm) {
  return distance_mm < 0.0 ? say(Str::kInsideBy, amount(-distance_mm, 1))
                           : say(Str::kMm, amount(distance_mm, 1));
}

std::string clearance_verdict(const lesson::PlanClearance& row) {
  return row.is_kept() ? say(Str::kMarginKept, amount(row.keep_mm, 1))
                       : say(Str::kMarginShort, amount(row.keep_mm - row.least_mm(), 1),
                             amount(row.keep_mm, 1));
}

std::string measured_words(const Measurement& measured) {
  return measured.tool == StudyTool::kAngle ? say(Str::kDegrees, amount(angle_deg(measured), 0))
                                            : say(Str::kMm, amount(length_mm(measured), 1));
}

std::string cross_words(const StudyView& study, const StudyState& state) {
  const math::Vec3 p = study.pose->to_jaw(state.cross.point_mm);
  const int fdi = study.specimen->jaw.site_fdi;
  const bool is_front = specimen::position_of(fdi) <= 3;
  const auto along = [](double value, Str plus, Str minus) {
    return say(Str::kAlong, amount(std::abs(value), 1), tr(value >= 0.0 ? plus : minus));
  };
  const Str lingual = specimen::is_upper(fdi) ? Str::kPalatally : Str::kLingually;
  const Str facial = is_front ? Str::kFacially : Str::kBuccally;
  const std::uint8_t label = tissue_label(*study.volume, state.cross.point_mm);
  const double value = slice_value(*study.volume, state.cross.point_mm, state.single_voxels);
  return say(Str::kCrossAt, along(p.x, Str::kDistally, Str::kMesially), along(p.y, lingual, facial),
             along(-p.z, Str::kBelowCrest, Str::kAboveCrest), amount(value, 0),
             specimen::facts_of(static_cast<specimen::Tissue>(label)).name);
}

}  // namespace driftbench::ui
