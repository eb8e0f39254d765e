// The debrief: where the hole is, why it is there, and the attempt over time.
#include "base/text.h"
#include "lesson/instruments.h"
#include "ui/debrief_chart.h"
#include "ui/debrief_parts.h"
#include "ui/implant_debrief.h"
#include "ui/panels.h"
#include "ui/section_view.h"
#include "ui/strings.h"
#include "ui/target_chart.h"
#include "ui/timeline.h"
#include "ui/widgets.h"

namespace driftbench::ui {

void debrief_sections(Frame& frame, Rect column, const scoring::Results* results) {
  const SiteWords words = site_words(*frame.model.setup);
  const float gap = frame.px(10.0F);
  const float title = frame.px(24.0F);
  // One above the other; beside one another where the room is wide.
  Rect upper;
  if (column.width > 1.4F * column.height) {
    upper = cut_left(column, 0.5F * (column.width - gap));
    cut_left(column, gap);
  } else {
    upper = cut_top(column, 0.5F * (column.height - gap));
    cut_top(column, gap);
  }
  Rect lower = column;
  text(frame, cut_top(upper, title), strong(frame), section_name(words, true));
  text(frame, cut_top(lower, title), strong(frame), section_name(words, false));
  both_sections(frame, upper, lower, {true, true, true, results});
}

namespace {

struct Marks {
  std::vector<TargetMark> entry;
  std::vector<TargetMark> apex;
};

Marks marks_of(const Frame& frame) {
  Marks marks;
  const auto add = [&marks](const scoring::Results& results, specimen::Approach approach,
                            bool current) {
    if (const scoring::Deviation* measured = measured_deviation(results)) {
      const scoring::Deviation& d = *measured;
      marks.entry.push_back({d.entry_md_mm, d.entry_bl_mm, approach, current, false});
      marks.apex.push_back({d.apex_md_mm, d.apex_bl_mm, approach, current, false});
    }
  };
  for (const Compared& other : frame.model.compared) {
    if (!other.is_current) {
      add(other.results, other.approach, false);
    }
  }
  add(*frame.model.results, frame.model.setup->approach, true);
  if (frame.model.estimate.has_value()) {
    const scoring::SelfEstimate& own = *frame.model.estimate;
    marks.entry.push_back(
        {own.entry_md_mm, own.entry_bl_mm, frame.model.setup->approach, true, true});
  }
  return marks;
}

constexpr float kLegendRow_px = 28.0F;

// What the marks on the targets mean, in as many rows as they need. Gives the height used.
float legend(Frame& frame, const Rect& column) {
  Rect row{column.x, column.y, column.width, frame.px(kLegendRow_px)};
  const auto entry = [&](Str name, auto draw) {
    const float mark = frame.px(30.0F);
    const float words = text_size(frame.fonts.caption, tr(name)).x;
    if (mark + words > row.width) {
      row = {column.x, row.y + row.height, column.width, row.height};
    }
    const Rect slot = cut_left(row, mark + words + frame.px(14.0F));
    draw(ImVec2{slot.x + 0.5F * mark, slot.y + 0.5F * slot.height});
    text_middle(frame, {slot.x + mark, slot.y, slot.width - mark, slot.height}, caption(frame),
                tr(name));
  };
  const specimen::Approach approach = frame.model.setup->approach;
  entry(Str::kLegendPlan, [&](ImVec2 at) { plan_mark(frame, at, 5.0F); });
  entry(frame.model.results->implant ? Str::kLegendImplant : Str::kLegendHole,
        [&](ImVec2 at) { hole_mark(frame, at, approach, 5.5F, true); });
  if (frame.model.estimate.has_value()) {
    entry(Str::kLegendEstimate, [&](ImVec2 at) { estimate_mark(frame, at, 5.5F); });
  }
  if (frame.model.compared.size() > 1) {
    const specimen::Approach other = approach == specimen::Approach::kFreehand
                                         ? specimen::Approach::kSleeve
                                         : specimen::Approach::kFreehand;
    entry(other == specimen::Approach::kFreehand ? Str::kFreehand : Str::kGuided,
          [&](ImVec2 at) { hole_mark(frame, at, other, 5.5F, false); });
  }
  return row.y + row.height - column.y;
}

}  // namespace

void debrief_targets(Frame& frame, Rect column) {
  const lesson::AttemptSetup& setup = *frame.model.setup;
  const scoring::Results& results = *frame.model.results;
  const SiteWords words = site_words(setup);
  const Marks marks = marks_of(frame);
  // Targets side by side where that makes them larger, else one above the other; the chart has
  // what they leave.
  const float gap = frame.px(12.0F);
  const float title = frame.px(22.0F);
  const float key = frame.px(kLegendRow_px);
  const float least_chart = frame.px(170.0F);
  const float room = column.height - key - least_chart - gap;
  const float beside = std::min(0.5F * (column.width - gap), room - title);
  const float above = std::min(column.width, 0.5F * (room - gap) - title);
  Rect first;
  Rect second;
  if (beside >= above) {
    Rect row = cut_top(column, beside + title);
    first = cut_left(row, 0.5F * (row.width - gap));
    cut_left(row, gap);
    second = row;
  } else {
    first = cut_top(column, above + title);
    cut_top(column, gap);
    second = cut_top(column, above + title);
  }
  cut_top(column, legend(frame, column));
  cut_top(column, gap);
  Rect chart = column;
  TargetSpec entry{
      std::string(tr(Str::kEntryTarget)), {}, 3.0, setup.tolerance.entry_mm, marks.entry};
  TargetSpec apex{std::string(tr(Str::kApexTarget)), {}, 3.0, setup.tolerance.apex_mm, marks.apex};
  if (const scoring::Deviation* measured = measured_deviation(results)) {
    const scoring::Deviation& d = *measured;
    entry.value = off_centre(words, d.entry_md_mm, d.entry_bl_mm);
    apex.value = off_centre(words, d.apex_md_mm, d.apex_bl_mm);
  }
  TextStyle name = strong(frame);
  name.align = Align::kCentre;
  text(frame, cut_top(first, title), name, tr(Str::kEntry));
  target_chart(frame, first, words, entry);
  text(frame, cut_top(second, title), name, tr(Str::kApex));
  target_chart(frame, second, words, apex);

  debrief_chart(frame, chart);
}

Rect debrief_bar(Frame& frame, Rect& rest, bool with_export) {
  std::array ways{quiet_button(Str::kToShelf), quiet_button(Str::kExport)};
  ways[1].description = tr(Str::kExportHelp);
  const std::span<const Button> all(ways);
  const PageBar bar = page_bar(frame, rest, place_words(frame), with_export ? all : all.first(1));
  if (bar.pressed == 0) {
    frame.emit(GoToShelf{});
  } else if (bar.pressed == 1) {
    frame.emit(ExportAttempt{});
  }
  return bar.title;
}

namespace {

// One column that scrolls: the words first, then the pictures and the time line.
void narrow_debrief(Frame& frame, Rect rest) {
  const std::vector<Rect> foot = page_foot(frame, rest, {0.0F});
  debrief_ways(frame, foot[0], true);
  const ScrolledPage scrolled = begin_page(frame, "debrief", rest);
  Rect column = scrolled.column;
  const float gap = frame.px(kGap_px);
  if (!frame.model.verification.empty()) {
    TextStyle style = caption(frame);
    style.role = Role::kStatus;
    cut_top(column, text(frame, column, style, in_language(frame.model.verification)) + gap);
  }
  cut_top(column, findings_column(frame, column) + gap);
  const bool is_beside = column.width >= frame.px(560.0F);
  debrief_sections(frame, cut_top(column, (is_beside ? 0.46F : 1.7F) * column.width),
                   frame.model.results);
  cut_top(column, gap);
  constexpr float kOtherThanTargets_px = 22.0F + kLegendRow_px + 12.0F + 300.0F;
  debrief_targets(frame, cut_top(column, (is_beside ? 0.5F : 2.0F) * column.width +
                                             frame.px(kOtherThanTargets_px)));
  cut_top(column, gap);
  timeline(frame, cut_top(column, frame.px(250.0F)));
  end_page(frame, scrolled, column.y + frame.px(kGapLarge_px));
}

// All in sight: the words have the whole height at the right; pictures and time line share the
// rest.
void wide_debrief(Frame& frame, Rect rest) {
  rest = inset(rest, frame.px(kGap_px), frame.px(12.0F));
  const float gap = frame.px(kGap_px);
  const Rect findings =
      cut_right(rest, std::clamp(0.29F * rest.width, frame.px(320.0F), frame.px(420.0F)));
  cut_right(rest, gap);
  const Rect strip = cut_bottom(rest, timeline_height(frame, rest.height));
  cut_bottom(rest, frame.px(12.0F));
  const Rect sections = cut_left(rest, 0.4F * (rest.width - gap));
  cut_left(rest, gap);
  debrief_sections(frame, sections, frame.model.results);
  debrief_targets(frame, rest);
  if (frame.state.debrief.compare_open) {
    compare_list(frame, findings);
  } else {
    debrief_findings(frame, findings);
  }
  timeline(frame, strip);
}

}  // namespace

void debrief(Frame& frame, const Rect& page) {
  if (frame.model.setup == nullptr || frame.model.results == nullptr) {
    nothing_to_show(frame, page);
    return;
  }
  Rect rest = page;
  Rect bar = debrief_bar(frame, rest, true);
  constexpr float kLow_px = 620.0F;  // below it the targets are too small to read
  const bool is_narrow = page.width < frame.px(kNarrow_px) || page.height < frame.px(kLow_px);
  if (!is_narrow && !frame.model.verification.empty()) {
    TextStyle style = caption(frame);
    style.role = Role::kStatus;
    style.align = Align::kRight;
    text_middle(frame, cut_right(bar, 0.42F * bar.width), style,
                in_language(frame.model.verification));
  }
  text_middle(frame, bar, strong(frame), place_words(frame));
  if (!is_narrow) {
    wide_debrief(frame, rest);
    return;
  }
  narrow_debrief(frame, rest);
  if (frame.state.debrief.compare_open) {
    Rect box = inset(page, frame.px(kGap_px));
    compare_list(frame, cut_bottom(box, 0.5F * box.height));
  }
}

}  // namespace driftbench::ui
