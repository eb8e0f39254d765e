// The logbook: own attempts in one lesson, and what they say together.
#include "base/text.h"
#include "lesson/own_record.h"
#include "lesson/sequence_evidence.h"
#include "ui/ask_twice.h"
#include "ui/course_words.h"
#include "ui/logbook_charts.h"
#include "ui/panels.h"
#include "ui/saved_list.h"
#include "ui/strings.h"
#include "ui/target_chart.h"
#include "ui/widgets.h"

#include <algorithm>
#include <array>

namespace driftbench::ui {

namespace {

/// The attempts of the chosen lesson that may be seen, oldest first.
std::vector<const SavedAttempt*> visible_attempts(const Frame& frame,
                                                  const std::string& lesson_id) {
  std::vector<const SavedAttempt*> found;
  for (auto saved = frame.model.saved.rbegin(); saved != frame.model.saved.rend(); ++saved) {
    if (saved->lesson_id == lesson_id && !saved->is_hidden && saved->has_hole) {
      found.push_back(&*saved);
    }
  }
  return found;
}

std::vector<std::string> cloud_words(const std::vector<const SavedAttempt*>& attempts,
                                     const SiteWords& words) {
  std::vector<std::string> lines;
  for (const bool is_guided : {false, true}) {
    std::vector<math::Vec2> points;
    for (const SavedAttempt* saved : attempts) {
      if ((saved->approach != specimen::Approach::kFreehand) == is_guided &&
          saved->has_components) {
        points.emplace_back(saved->entry_md_mm, saved->entry_bl_mm);
      }
    }
    if (points.empty()) {
      continue;
    }
    const lesson::OwnCloud cloud = lesson::own_cloud(points);
    const std::string where = off_centre(words, cloud.bias_mm.x, cloud.bias_mm.y);
    const std::string_view name = tr(is_guided ? Str::kGuided : Str::kFreehand);
    lines.push_back(cloud.spread_mm.has_value()
                        ? say(Str::kCloud, name, std::to_string(cloud.count), where,
                              base::fixed(*cloud.spread_mm, 2))
                        : say(Str::kCloudOne, name, where));
  }
  return lines;
}

void own_target(Frame& frame, Rect box, const std::vector<const SavedAttempt*>& attempts) {
  const lesson::AttemptSetup& site = *frame.model.logbook->site;
  const SiteWords words = site_words(site);
  const std::vector<std::string> lines = cloud_words(attempts, words);
  text(frame, cut_top(box, frame.px(26.0F)), strong(frame), tr(Str::kOwnTarget));
  const TextStyle style = caption(frame);
  float height = 0.0F;
  for (const std::string& line : lines) {
    height += text_size(style.face, line, box.width).y + frame.px(3.0F);
  }
  Rect under = cut_bottom(box, height);
  for (const std::string& line : lines) {
    cut_top(under, text(frame, under, style, line) + frame.px(3.0F));
  }
  TargetSpec spec{
      std::string(tr(Str::kOwnTarget)), base::join(lines, " "), 3.0, site.tolerance.entry_mm, {}};
  for (const SavedAttempt* saved : attempts) {
    if (saved->has_components) {
      spec.marks.push_back({saved->entry_md_mm, saved->entry_bl_mm, saved->approach,
                            saved == attempts.back(), false});
    }
  }
  target_chart(frame, box, words, spec);
}

void curve(Frame& frame, const Rect& box, const std::vector<const SavedAttempt*>& attempts) {
  constexpr std::array kAll{lesson::Measure::kEntry, lesson::Measure::kApex,
                            lesson::Measure::kAngle, lesson::Measure::kDepth};
  const lesson::AttemptSetup& site = *frame.model.logbook->site;
  std::vector<CurvePoint> points;
  for (const SavedAttempt* saved : attempts) {
    const lesson::AttemptErrors errors{saved->entry_lateral_mm, saved->apex_lateral_mm,
                                       saved->angle_deg, saved->depth_error_mm};
    points.push_back({lesson::largest_share(errors, site.tolerance, kAll), saved->approach});
  }
  learning_curve(frame, box, points, frame.model.logbook->evidence);
}

void estimates(Frame& frame, const Rect& box, const std::vector<const SavedAttempt*>& attempts) {
  std::vector<EstimatePoint> points;
  for (const SavedAttempt* saved : attempts) {
    if (saved->estimate.has_value()) {
      const double md = saved->estimate->entry_md_mm;
      const double bl = saved->estimate->entry_bl_mm;
      points.push_back({saved->entry_lateral_mm, std::sqrt(md * md + bl * bl), saved->approach});
    }
  }
  estimate_chart(frame, box, points);
}

// The weakest part in words and the lesson that trains it; gives the height used.
float weakest(Frame& frame, Rect column) {
  const LogbookView& view = *frame.model.logbook;
  const auto& part = view.weakness;
  if (!part.has_value()) {
    return 0.0F;
  }
  const float start = column.y;
  TextStyle style = body(frame);
  style.role = Role::kStatus;
  cut_top(column,
          text(frame, column, style,
               say(Str::kWeakest, tr(measure_name(part->measure)), base::fixed(part->share, 1))) +
              frame.px(8.0F));
  if (view.trainer.has_value() && !frame.model.is_locked) {
    const ShelfLesson& trainer = frame.model.shelf[view.trainer->set].lessons[view.trainer->entry];
    Button train{say(Str::kTrainIt, in_language(trainer.lesson->title))};
    Rect row = cut_top(column, frame.px(kButtonSmall_px));
    if (button(frame, cut_left(row, std::min(row.width, button_width(frame, train))), train)) {
      frame.emit(OpenLesson{*view.trainer});
    }
  }
  return column.y - start + frame.px(kGap_px);
}

// Lessons to choose from, one under the other.
float chooser(Frame& frame, Rect column) {
  const float start = column.y;
  const LogbookView& view = *frame.model.logbook;
  for (std::size_t i = 0; i < view.lessons.size(); ++i) {
    const Rect row = cut_top(column, frame.px(kButtonSmall_px));
    if (choice(frame, row, view.lessons[i].title, i == view.chosen, "lesson")) {
      frame.emit(OpenLogbook{view.lessons[i].id});
    }
    cut_top(column, frame.px(6.0F));
  }
  return column.y - start + frame.px(kGap_px);
}

void logbook_bar(Frame& frame, Rect& page) {
  enum Way : int { kShelf, kAll, kIn, kOut, kAway };

  std::array ways{quiet_button(Str::kToShelf), quiet_button(Str::kDeleteAll),
                  quiet_button(Str::kImport), quiet_button(Str::kExportAll),
                  quiet_button(Str::kTakeaway)};
  // Deleting everything takes a second press on the same button.
  const bool armed = frame.state.delete_armed == "all";
  if (armed) {
    ways[kAll].label = say(Str::kDeleteAllReally, std::to_string(frame.model.saved.size()));
    ways[kAll].kind = ButtonKind::kDanger;
  }
  ways[kAll].id = "delete all";
  ways[kAll].enabled = ways[kOut].enabled = !frame.model.saved.empty();
  ways[kOut].description = tr(Str::kExportAllHelp);
  ways[kAway].description = tr(Str::kTakeawayHelp);
  const PageBar bar = page_bar(frame, page, tr(Str::kLogbook), ways);
  switch (bar.pressed) {
    case kShelf:
      frame.emit(GoToShelf{});
      break;
    case kAll:
      if (pressed_twice(frame, true, "all")) {
        frame.emit(DeleteAll{});
      }
      break;
    case kIn:
      frame.emit(OpenFile{});
      break;
    case kOut:
      frame.emit(ExportAll{});
      break;
    case kAway:
      frame.emit(OpenTakeaway{});
      break;
    default:
      break;
  }
  text_middle(frame, bar.title, strong(frame), tr(Str::kLogbook));
}

float pictures(Frame& frame, Rect column, const std::vector<const SavedAttempt*>& attempts) {
  const float start = column.y;
  const float gap = frame.px(kGapLarge_px);
  const bool beside = column.width >= frame.px(620.0F);
  const float half = beside ? 0.5F * (column.width - gap) : column.width;
  cut_top(column, weakest(frame, column));
  const float square = half + frame.px(26.0F + 66.0F);
  Rect row = cut_top(column, square);
  own_target(frame, cut_left(row, half), attempts);
  if (beside) {
    cut_left(row, gap);
    estimates(frame, row, attempts);
  } else {
    cut_top(column, gap);
    estimates(frame, cut_top(column, square), attempts);
  }
  cut_top(column, gap);
  curve(frame, cut_top(column, frame.px(230.0F)), attempts);
  return column.y - start;
}

}  // namespace

void logbook(Frame& frame, const Rect& page) {
  Rect rest = page;
  logbook_bar(frame, rest);
  const ScrolledPage scrolled = begin_page(frame, "logbook", rest);
  Rect column = scrolled.column;
  TextStyle title{frame.fonts.title, frame.colors.text, Align::kLeft, Role::kHeading};
  cut_top(column, text(frame, column, title, tr(Str::kLogbookTitle)) + frame.px(12.0F));
  float used = 0.0F;
  const auto& view = frame.model.logbook;
  if (!view.has_value() || view->lessons.empty() || view->site == nullptr) {
    TextStyle muted{frame.fonts.body, frame.colors.muted};
    used = text(frame, column, muted, tr(Str::kLogbookEmpty));
  } else {
    const std::string& id = view->lessons[view->chosen].id;
    const auto attempts = visible_attempts(frame, id);
    const bool is_narrow = column.width < frame.px(700.0F);
    Rect list =
        is_narrow ? column : cut_left(column, std::max(frame.px(300.0F), 0.3F * column.width));
    const float list_start = list.y;
    cut_top(list, chooser(frame, list));
    if (is_narrow) {
      cut_top(list, pictures(frame, list, attempts) + frame.px(kGapLarge_px));
    }
    used = saved_list(frame, list, id) - list_start;
    if (!is_narrow) {
      cut_left(column, frame.px(kGapPage_px));
      used = std::max(used, pictures(frame, column, attempts));
    }
  }
  end_page(frame, scrolled, column.y + used + frame.px(kGapLarge_px));
}

}  // namespace driftbench::ui
