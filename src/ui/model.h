// Everything the interface may show in one frame. Built by app/, read by the panels.
#pragma once

#include "lesson/guide_room.h"
#include "lesson/lesson.h"
#include "record/past_attempt.h"
#include "scoring/explain.h"
#include "scoring/results.h"
#include "session/guide_budget.h"
#include "session/view.h"
#include "specimen/site_sketch.h"
#include "ui/bench_controls.h"
#include "ui/course_model.h"
#include "ui/showing_model.h"
#include "ui/study_model.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::ui {

enum class Screen {
  kShelf,
  kBriefing,
  kBench,
  kEstimate,
  kDebrief,
  kLesson,
  kLogbook,
  kStudy,
  kExample,
  kPrediction
};

/// Dark, light, and large and stark for a projector.
enum class Theme { kDark, kLight, kProjector };

/// A GL texture as ImGui takes it. Drawn flipped (origin bottom left).
/// A place on the page. Unit: logical px
struct PagePoint {
  double x_px = 0.0;
  double y_px = 0.0;
};

struct Image {
  std::uint32_t texture = 0;
  float width_px = 0;
  float height_px = 0;
};

/// A piece of jaw on the shelf.
struct ShelfCase {
  std::string title;
  int fdi = 0;
};

/// A stored attempt.
struct SavedAttempt {
  std::string id;
  std::string lesson_id;
  lesson::LocalText block_title;
  specimen::Approach approach = specimen::Approach::kFreehand;
  std::string when;  ///< local date and time, for people
  int engine = 0;    ///< that recorded it
  bool has_hole = false;
  double entry_lateral_mm = 0.0;
  double apex_lateral_mm = 0.0;
  double angle_deg = 0.0;
  double depth_error_mm = 0.0;
  double entry_md_mm = 0.0;
  double entry_bl_mm = 0.0;
  bool has_components = false;  ///< records of earlier versions lack them
  std::optional<scoring::SelfEstimate> estimate;
  bool is_hidden = false;  ///< the lesson does not show it yet
};

/// An attempt to overlay in the debrief.
struct Compared {
  std::string id;
  specimen::Approach approach = specimen::Approach::kFreehand;
  bool is_current = false;
  scoring::Results results;
  std::optional<scoring::SelfEstimate> estimate;
};

/// An attempt that broke off.
struct Unfinished {
  std::string id;
  std::string title;
  std::string when;
  double seconds = 0.0;  ///< simulated so far
};

/// Progress of a long task (replay of an opened file); label empty: nothing runs.
struct Busy {
  std::string label;
  double fraction = 0.0;
};

/// One pointer event of this frame at full resolution (the platform's own pointer path).
struct PointerReading {
  std::int32_t pointer_id = 0;
  double x_px = 0.0;  ///< in the page, logical px, fractions kept
  double y_px = 0.0;
  bool left = false;
  bool right = false;
  bool began = false;             ///< the press begins here
  bool cancelled = false;         ///< left the page, was cancelled, or the page lost the focus
  std::optional<PenReading> pen;  ///< of a pen
};

struct Model {
  Screen screen = Screen::kShelf;
  Theme theme = Theme::kDark;
  bool muted = false;
  bool touch = false;  ///< last pointer was a finger
  std::string notice;  ///< one plain sentence for the top of the page; empty: none
  bool notice_is_error = false;
  Busy busy;

  std::vector<ShelfSet> shelf;
  bool is_locked = false;  ///< only what the address names
  std::vector<ShelfCase> cases;
  std::vector<SavedAttempt> saved;
  std::vector<OpenedFile> opened;
  std::optional<Unfinished> unfinished;

  // Bench, estimate, debrief
  const lesson::Lesson* lesson = nullptr;
  Place place;  ///< of that lesson on the shelf
  DeviceView device;
  std::size_t block_index = 0;
  int attempt_number = 1;  ///< 1-based within the block, this round
  int planned_attempts = 0;
  lesson::Shown shown = lesson::Shown::kEverything;  ///< of the attempt under discussion
  double reveal_in_s = 0.0;                          ///< above 0: think first
  std::optional<specimen::SiteSketch> sketch;        ///< of the briefed block's jaw
  std::optional<session::GuideBudget> budget;        ///< of its guide
  std::optional<lesson::GuideRoom> room;             ///< of its guide
  double seat_gap_left_mm = 0.2;                     ///< that the budget reckons with
  std::vector<std::int32_t> missing_drills;          ///< planned, but have not cut
  std::vector<record::WrongLength> wrong_lengths;    ///< of guided drills
  const lesson::AttemptSetup* setup = nullptr;
  const session::SessionView* view = nullptr;
  double press_level_n = 16.0;   ///< that a held press gives
  PadInput pad;                  ///< what a gamepad did since the last frame
  bool left_handed = false;      ///< controls and side look are mirrored
  bool step_by_step = false;     ///< time runs for a moment after each key only
  bool is_running = false;       ///< time runs
  bool is_pecking = false;       ///< step by step: a short press goes on
  bool is_hand_kept = false;     ///< the lesson lets hand and steps be changed no more
  double real_time_share = 1.0;  ///< < 1: the machine is slower than time

  const scoring::Results* results = nullptr;
  const std::vector<scoring::Moment>* moments = nullptr;
  std::optional<scoring::SelfEstimate> estimate;
  std::vector<Compared> compared;
  std::string verification;  ///< of an opened file: "replays to the same result" or why not
  std::int64_t scrub_step = 0;
  std::int64_t end_step = 0;
  bool playing = false;  ///< replay runs
  const drilling::LoadSample* scrub_sample = nullptr;

  std::optional<LogbookView> logbook;

  const ExampleView* example = nullptr;        ///< on its screen
  const PredictionView* prediction = nullptr;  ///< on its screen
  /// What was watched or judged since the page was opened: "lesson/block", "lesson".
  std::vector<std::string> seen_shown;

  /// All pointer events since the last frame, oldest first. When `has_pointer_readings` is false
  /// the bench uses Dear ImGui's (whole-pixel) mouse position instead.
  std::vector<PointerReading> pointers;
  bool has_pointer_readings = false;

  std::optional<StudyView> study;  ///< on the study screen

  // Pictures, valid this frame
  std::optional<PagePoint> front_tip;  ///< where the tip of the drill stands in the look
  std::optional<PagePoint> side_tip;
  Image front;
  Image side;
  Image section_md;
  Image section_bl;
  Image section_across;
  Image film;
  std::array<Image, kSliceCount> slices;  ///< by SliceKind
};

}  // namespace driftbench::ui
