// A section with its millimetre rulers, the plan, the measured axis and words at the edges.
#pragma once

#include "scoring/results.h"
#include "ui/marks.h"
#include "ui/ui.h"
#include "ui/words.h"

#include <string>

namespace driftbench::ui {

struct SectionSpec {
  std::string name;   ///< "Section along the boundary's normal"
  bool is_md = true;  ///< horizontal axis: md, else bl
  bool show_plan = true;
  bool show_rulers = true;
  const scoring::Results* results = nullptr;  ///< measured axis, when there is a hole
};

/// Scale and centre that show the whole planned depth in a picture of this size; both sections of a
/// debrief share them.
[[nodiscard]] SectionFrame section_frame(const lesson::AttemptSetup& setup, const Rect& picture);

/// The part of the box that the picture fills (the rest is rulers).
[[nodiscard]] Rect section_picture(const Frame& frame, const Rect& box, const SectionSpec& spec);

void section_view(Frame& frame, const Rect& box, const Image& image, const SectionFrame& scale,
                  const SectionSpec& spec);

}  // namespace driftbench::ui
