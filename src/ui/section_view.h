// A section with its millimetre rulers, the plan, the measured axis and words at the edges.
#pragma once

#include "scoring/results.h"
#include "ui/marks.h"
#include "ui/ui.h"
#include "ui/words.h"

#include <string>

namespace driftbench::ui {

struct SectionSpec {
  bool is_md = true;  ///< horizontal axis: md, else bl
  bool show_plan = true;
  bool show_rulers = true;
  const scoring::Results* results = nullptr;  ///< measured axis, when there is a hole
};

/// "Section: Dense half – Soft half".
[[nodiscard]] std::string section_name(const SiteWords& words, bool is_md);

/// Both sections through the planned axis in one scale; asks for their pictures. `spec` as it is,
/// but for its direction.
void both_sections(Frame& frame, const Rect& md, const Rect& bl, SectionSpec spec);

}  // namespace driftbench::ui
