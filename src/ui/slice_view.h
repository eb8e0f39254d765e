// One of the linked sections: picture, cross-hair, rulers, words at the edges, plan, measurements.
#pragma once

#include "ui/frame.h"
#include "ui/study_model.h"

#include <string>

namespace driftbench::ui {

/// Words at the edges of a section.
struct SliceWords {
  std::string name;
  std::string left, right, top, bottom;
};

/// The words of a section in a jaw whose site is this tooth, as the picture lies.
[[nodiscard]] SliceWords slice_words(SliceKind kind, int site_fdi, bool x_is_mesial);

/// Draws the section and takes what the person does in it: moves the cross-hair, the implant, the
/// points of measurements.
void slice_view(Frame& frame, const Rect& box, SliceKind kind);

/// Room of the picture in the box.
[[nodiscard]] Rect slice_picture(const Frame& frame, const Rect& box);

}  // namespace driftbench::ui
