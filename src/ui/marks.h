// The fixed vocabulary of marks: every one has a shape and an outline, nothing rests on colour.
#pragma once

#include "scoring/results.h"
#include "specimen/plan.h"
#include "ui/widgets.h"

namespace driftbench::ui {

/// Orange circle free-hand, dark purple diamond guided; white casing, then a dark outline.
void hole_mark(const Frame& frame, ImVec2 at, specimen::Approach approach, float radius_px,
               bool is_current);

/// Own estimate: hollow square.
void estimate_mark(const Frame& frame, ImVec2 at, float radius_px);

/// Plan: dashed ring with a cross-hair, white core on a black casing.
void plan_mark(const Frame& frame, ImVec2 at, float radius_px);

/// Dashed line with a white core on a black casing.
void cased_dashes(const Frame& frame, ImVec2 from, ImVec2 to, float dash_px);

/// Solid line with a core of a colour on a white and black casing.
void cased_line(const Frame& frame, ImVec2 from, ImVec2 to, Rgb core);

/// Dashes in one colour.
void dashes(const Frame& frame, ImVec2 from, ImVec2 to, Rgb color, float width_px);
void dashed_circle(const Frame& frame, ImVec2 centre, float radius, Rgb color, float width_px);

/// Colour of an approach's marks.
[[nodiscard]] Rgb mark_color(specimen::Approach approach);

/// Text turned by a quarter: up (reads upward) or down, centred on a point.
void turned_text(const Face& face, Rgb color, ImVec2 centre, std::string_view content, bool upward);

/// Text on a dark plate, readable on any picture; centred horizontally on `at`. In several lines
/// where `wrap_px` is given.
void plate_text(const Frame& frame, ImVec2 at, std::string_view content, Align align,
                float wrap_px = 0.0F);

}  // namespace driftbench::ui
