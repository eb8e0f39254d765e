// The state of the program as JSON, for tests and for people with a console.
#include "app/app.h"
#include "base/hash64.h"
#include "base/json_writer.h"
#include "ui/language.h"
#include "ui/theme.h"

#include <string_view>

namespace driftbench::app {
namespace {

std::string_view name_of(ui::Screen screen) {
  switch (screen) {
    case ui::Screen::kShelf:
      return "shelf";
    case ui::Screen::kLesson:
      return "lesson";
    case ui::Screen::kLogbook:
      return "logbook";
    case ui::Screen::kBriefing:
      return "briefing";
    case ui::Screen::kBench:
      return "bench";
    case ui::Screen::kEstimate:
      return "estimate";
    case ui::Screen::kDebrief:
      return "debrief";
    case ui::Screen::kStudy:
      return "study";
    case ui::Screen::kExample:
      return "example";
    case ui::Screen::kPrediction:
      return "prediction";
  }
  return "";
}

std::string_view name_of(lesson::Shown shown) {
  return shown == lesson::Shown::kEverything ? "everything"
         : shown == lesson::Shown::kInOrOut  ? "in-or-out"
                                             : "nothing";
}

std::string_view name_of(lesson::LessonState state) {
  switch (state) {
    case lesson::LessonState::kNotBegun:
      return "not-begun";
    case lesson::LessonState::kWaiting:
      return "waiting";
    case lesson::LessonState::kGoingOn:
      return "going-on";
    case lesson::LessonState::kFinished:
      return "finished";
    case lesson::LessonState::kNotPassed:
      return "not-passed";
    case lesson::LessonState::kPassed:
      return "passed";
    case lesson::LessonState::kDueAgain:
      return "due-again";
  }
  return "";
}

void write_shelf(base::JsonWriter& out, const std::vector<ui::ShelfSet>& shelf) {
  out.key("shelf").begin_array();
  for (const ui::ShelfSet& set : shelf) {
    out.begin_object();
    out.field("set", set.set != nullptr ? set.set->id : std::string());
    out.field("finished", set.is_finished);
    out.field("next", set.next.has_value() ? set.lessons[*set.next].lesson->id : std::string());
    out.key("lessons").begin_array();
    for (const ui::ShelfLesson& lesson : set.lessons) {
      out.begin_object();
      out.field("id", lesson.lesson->id).field("state", name_of(lesson.state));
      int done = 0;
      for (const int one : lesson.done_per_block) {
        done += one;
      }
      out.field("done", done).field("evidence", lesson.evidence).end_object();
    }
    out.end_array().end_object();
  }
  out.end_array();
}

std::string_view name_of(session::Phase phase) {
  switch (phase) {
    case session::Phase::kDrilling:
      return "drilling";
    case session::Phase::kFinished:
      return "finished";
    case session::Phase::kStopped:
      return "stopped";
  }
  return "";
}

std::string_view name_of(session::Hint hint) {
  switch (hint) {
    case session::Hint::kTakeDrill:
      return "take-drill";
    case session::Hint::kPlaceGuide:
      return "place-guide";
    case session::Hint::kSeatGuide:
      return "seat-guide";
    case session::Hint::kHoldGuide:
      return "hold-guide";
    case session::Hint::kKeyIn:
      return "key-in";
    case session::Hint::kChangeKey:
      return "change-key";
    case session::Hint::kEngageDrill:
      return "engage-drill";
    case session::Hint::kStopMotor:
      return "stop-motor";
    case session::Hint::kPressGuided:
      return "press-guided";
    case session::Hint::kStartMotor:
      return "start-motor";
    case session::Hint::kPlaceTip:
      return "place-tip";
    case session::Hint::kPressing:
      return "pressing";
    case session::Hint::kNearDepth:
      return "near-depth";
    case session::Hint::kTooDeep:
      return "too-deep";
    case session::Hint::kThrough:
      return "through";
    case session::Hint::kJudgeDepth:
      return "judge-depth";
    case session::Hint::kLifting:
      return "lifting";
    case session::Hint::kEaseOff:
      return "ease-off";
    case session::Hint::kLift:
      return "lift";
    case session::Hint::kNextDrill:
      return "next-drill";
    case session::Hint::kFinish:
      return "finish";
    case session::Hint::kRemoveGuide:
      return "remove-guide";
    case session::Hint::kRemoveKey:
      return "remove-key";
    case session::Hint::kTakeImplant:
      return "take-implant";
    case session::Hint::kLowerImplant:
      return "lower-implant";
    case session::Hint::kStartImplant:
      return "start-implant";
    case session::Hint::kTurningImplant:
      return "turning-implant";
    case session::Hint::kImplantTight:
      return "implant-tight";
    case session::Hint::kStopImplant:
      return "stop-implant";
    case session::Hint::kReleaseImplant:
      return "release-implant";
  }
  return "";
}

void write_guide(base::JsonWriter& out, const session::GuideView& guide) {
  out.key("guide").begin_object();
  out.field("placed", guide.placed).field("held", guide.held).field("key", guide.key_index);
  out.key("gaps_mm").begin_array();
  for (const double gap_mm : guide.gap_mm) {
    out.value(gap_mm);
  }
  out.end_array().end_object();
}

void write_implant(base::JsonWriter& out, const session::SessionView& view) {
  const session::ImplantView& implant = view.implant;
  out.key("implant").begin_object();
  out.field("index", implant.index).field("seated", implant.is_seated);
  out.field("platform_depth_mm", implant.platform_depth_mm).field("bitten", implant.has_bitten);
  out.field("torque_nmm", view.implant.index >= 0 ? view.load.torque_nmm : 0.0);
  out.field("torque_limit_nmm", implant.torque_limit_nmm).field("stalled", implant.has_stalled);
  out.field("peak_torque_nmm", implant.peak_torque_nmm).field("grip", implant.grip_frac);
  out.end_object();
}

void write_session(base::JsonWriter& out, const session::Session& session) {
  const session::SessionView& view = session.view();
  out.field("phase", name_of(view.phase)).field("hint", name_of(view.hint));
  out.field("status", view.status).field("step", view.step).field("time_s", view.time_s);
  out.field("hash", base::to_hex16(session.state_hash()));
  out.field("drill", view.drill_index).field("stop_length_mm", view.stop_length_mm);
  out.field("used_drills", view.used_drills.size());
  out.field("motor_rpm", view.motor_rpm).field("irrigation", view.irrigation);
  out.field("lifting", view.lifting).field("is_out", view.is_out);
  out.field("in_contact", view.load.in_contact).field("at_stop", view.at_stop);
  out.field("press_n", view.load.press_n).field("shoulder_depth_mm", view.shoulder_depth_mm);
  out.field("hand_x_mm", view.hand_tip_mm.x).field("hand_y_mm", view.hand_tip_mm.y);
  out.field("trace_entries", session.trace().size());
  write_guide(out, view.guide);
  write_implant(out, view);
}

void write_results(base::JsonWriter& out, const scoring::Results& results) {
  out.key("results").begin_object();
  out.field("has_hole", results.hole.has_value());
  out.field("inside_tolerance", results.inside_tolerance);
  if (results.hole.has_value()) {
    out.field("entry_md_mm", results.hole->deviation.entry_md_mm);
    out.field("entry_bl_mm", results.hole->deviation.entry_bl_mm);
    out.field("entry_lateral_mm", results.hole->deviation.entry_lateral_mm);
    out.field("apex_lateral_mm", results.hole->deviation.apex_lateral_mm);
    out.field("angle_deg", results.hole->deviation.angle_deg);
    out.field("depth_error_mm", results.hole->depth_error_mm);
    out.field("hole_diameter_mm", results.hole->hole_diameter_mm);
  }
  out.field("has_implant", results.implant.has_value());
  if (results.implant.has_value()) {
    out.field("implant_depth_error_mm", results.implant->depth_error_mm);
    out.field("implant_angle_deg", results.implant->deviation.angle_deg);
    out.field("implant_final_torque_nmm", results.implant->final_torque_nmm);
  }
  out.end_object();
}

}  // namespace

std::string App::state_json() const {
  base::JsonWriter out(base::JsonLayout::kCompact);
  out.begin_object();
  out.field("screen", name_of(model_.screen));
  out.field("notice", model_.notice).field("notice_is_error", model_.notice_is_error);
  out.field("code_name", launch_.code_name);
  out.field("theme", ui::code_of(model_.theme));
  out.field("language", ui::language());
  out.field("lesson_sha256", model_.setup != nullptr ? model_.setup->lesson_sha256 : std::string());
  out.field("muted", model_.muted).field("touch", model_.touch);
  out.field("press_level_n", model_.press_level_n);
  out.key("saved").begin_array();
  for (const SavedEntry& entry : saved_) {
    out.value(entry.shown.id);
  }
  out.end_array();
  write_shelf(out, model_.shelf);
  out.key("opened").begin_array();
  for (const ui::OpenedFile& file : model_.opened) {
    out.value(file.name);
  }
  out.end_array();
  out.field("unfinished", unfinished_.has_value() ? unfinished_->id : std::string());
  out.field("busy", rerun_ != nullptr).field("verification", verification_);
  out.field("lesson", model_.lesson != nullptr ? model_.lesson->id : std::string());
  out.field("block_index", block_index_).field("attempt_number", model_.attempt_number);
  out.field("resting", bench_ == nullptr || !bench_->is_moving());
  out.field("real_time_share", bench_ != nullptr ? bench_->real_time_share() : 1.0);
  out.key("meters").begin_object();
  out.field("frames", meters_.frames).field("frame_ms", meters_.frame_ms);
  out.field("fresh_specimen_ms", meters_.fresh_specimen_ms);
  out.field("picture_scale", scale_.value());
  out.end_object();
  write_study(out);
  if (example_ != nullptr) {
    out.field("example_ready", example_->is_ready).field("remarks", example_->remarks.size());
    out.field("reached_step", example_->reached_step);
  }
  if (prediction_ != nullptr) {
    const ui::PredictionView& shown = prediction_->view();
    out.field("holes_ready", shown.is_ready).field("holes_revealed", shown.is_revealed);
  }
  if (session_ != nullptr) {
    out.field("attempt_id", about_.attempt_id).field("device", about_.device);
    write_session(out, *session_);
  }
  out.key("shown").value(name_of(model_.shown));
  if (has_look_back() && model_.shown == lesson::Shown::kEverything && model_.reveal_in_s <= 0.0) {
    write_results(out, debrief_->results());
    out.field("moments", debrief_->moments().size());
    out.field("compared", debrief_->compared().size());
    out.field("scrub_step", debrief_->step()).field("end_step", debrief_->end_step());
    out.field("playing", debrief_->is_playing());
  }
  out.end_object();
  return out.take();
}

}  // namespace driftbench::app
