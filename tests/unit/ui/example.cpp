#include "example.h"

#include "session/session.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>

namespace driftbench::ui_test {

namespace {

std::string read_file(const std::string& path) {
  std::ifstream in(std::string(DRIFTBENCH_SOURCE_DIR) + "/" + path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

// Ten seconds with four drills: placed, pressed 10.4 mm deep, drawn out.
std::vector<drilling::LoadSample> made_up_samples(const lesson::AttemptSetup& setup) {
  std::vector<drilling::LoadSample> samples;
  for (std::int64_t step = 0; step <= 10000; step += drilling::kStepsPerSample) {
    const double t = static_cast<double>(step % 2500) / 2500.0;
    drilling::LoadSample sample;
    sample.step = step;
    sample.drill_index = static_cast<std::int32_t>(1 + std::min<std::int64_t>(3, step / 2500));
    const auto index = static_cast<std::size_t>(sample.drill_index);
    const double depth =
        t < 0.2 ? -6.0 + 30.0 * t : (t < 0.8 ? 17.3 * (t - 0.2) : 60.0 * (0.97 - t));
    sample.pose.tip_mm = {0.8, 0.1, -depth - setup.kit.drills[index].tip_length_mm};
    sample.press_n = t > 0.15 && t < 0.8 ? 16.0 : 0.0;
    sample.in_contact = t > 0.2 && t < 0.9;
    sample.side_force_n = {t > 0.2 && t < 0.8 ? 5.2 * std::exp(-20.0 * (t - 0.2)) : 0.0, 0.4, 0.0};
    samples.push_back(sample);
  }
  return samples;
}

scoring::Results made_up_results() {
  scoring::Results results;
  scoring::HoleMeasures hole;
  hole.deviation.entry_md_mm = 1.1;
  hole.deviation.entry_bl_mm = -0.2;
  hole.deviation.entry_lateral_mm = 1.12;
  hole.deviation.apex_md_mm = 1.64;
  hole.deviation.apex_bl_mm = -0.13;
  hole.deviation.apex_lateral_mm = 1.65;
  hole.deviation.tilt_md_deg = 3.1;
  hole.deviation.tilt_bl_deg = 0.4;
  hole.deviation.angle_deg = 3.13;
  hole.depth_error_mm = 0.4;
  hole.hole_diameter_mm = 4.22;
  hole.oversize_mm = 0.22;
  hole.ovality_mm = 0.18;
  for (int i = 0; i <= 20; ++i) {
    scoring::HoleSlice slice;
    slice.depth_mm = 0.5 * i;
    slice.major_mm = 4.05 + 0.35 * std::exp(-0.3 * i);
    slice.minor_mm = 4.02 + 0.05 * std::exp(-0.3 * i);
    slice.diameter_mm = 0.5 * (slice.major_mm + slice.minor_mm);
    hole.slices.push_back(slice);
  }
  results.hole = hole;
  results.process.time_s = 9.4;
  results.reasons = {{"entry_lateral_mm", 1.12, 0.0, 1.0}, {"apex_lateral_mm", 1.65, 0.0, 1.5}};
  return results;
}

std::vector<scoring::Moment> made_up_moments() {
  using scoring::MomentKind;
  scoring::Moment contact;
  contact.step = 500;
  contact.drill_index = 1;
  scoring::Moment pushed;
  pushed.kind = MomentKind::kSideForce;
  pushed.step = 540;
  pushed.drill_index = 1;
  pushed.force_n = 5.2;
  pushed.amount_mm = 1.1;
  pushed.direction_md = 1.0;
  scoring::Moment left = pushed;
  left.kind = MomentKind::kLeftLine;
  left.step = 700;
  scoring::Moment deep;
  deep.kind = MomentKind::kPastDepth;
  deep.step = 9300;
  deep.drill_index = 4;
  deep.depth_mm = 10.0;
  deep.amount_mm = 0.4;
  return {contact, pushed, left, deep};
}

}  // namespace

Example make_example() {
  Example example;
  const std::string lesson_text = read_file("lessons/find-the-centre.lesson.json");
  const std::string kit_text = read_file("assets/kits/bench.kit.json");
  auto read = lesson::read_lesson(lesson_text, "lesson");
  auto kit = lesson::read_kit(kit_text, "kit");
  EXPECT_TRUE(read.value.has_value());
  EXPECT_TRUE(kit.value.has_value());
  example.lesson = read.value.value_or(lesson::Lesson{});
  example.kit = kit.value.value_or(specimen::Kit{});
  example.freehand = lesson::resolve(example.lesson, example.kit, 0, 0, std::nullopt).value();
  example.sleeve = lesson::resolve(example.lesson, example.kit, 1, 0, std::nullopt).value();
  example.samples = made_up_samples(example.freehand);
  example.moments = made_up_moments();
  example.results = made_up_results();
  example.view.drill_index = 1;
  example.view.used_drills = {1};
  return example;
}

ui::Model Example::model(ui::Screen screen, const lesson::AttemptSetup& setup) {
  ui::Model model;
  model.screen = screen;
  model.lesson = &lesson;
  model.setup = &setup;
  model.block_index = setup.guide.has_value() ? 1 : 0;
  ui::ShelfLesson shown;
  shown.lesson = &lesson;
  shown.state = lesson::LessonState::kGoingOn;
  shown.done_per_block = {1, 0};
  shown.is_choice_free = true;
  shown.next = lesson::LessonTask{};
  shown.next->step.place = 1;
  shown.next->step.planned = 3;
  ui::ShelfLesson waiting = shown;
  waiting.state = lesson::LessonState::kWaiting;
  waiting.next.reset();
  waiting.wait_days = 1.5;
  ui::ShelfSet row;
  row.lessons = {shown, waiting};
  row.next = 0;
  model.shelf = {row};
  view.samples = samples;
  model.view = &view;
  if (screen == ui::Screen::kDebrief) {
    model.results = &results;
    model.moments = &moments;
    model.end_step = 10000;
    model.scrub_step = 2000;
    model.scrub_sample = &samples[200];
    scoring::SelfEstimate own;
    own.entry_md_mm = 0.3;
    own.entry_bl_mm = 0.4;
    model.estimate = own;
  }
  for (int i = 0; i < 3; ++i) {
    ui::SavedAttempt saved;
    saved.id = "saved-" + std::to_string(i);
    saved.block_title["en"] = i == 1 ? "Through the sleeve" : "By hand";
    saved.approach = i == 1 ? specimen::Approach::kSleeve : specimen::Approach::kFreehand;
    saved.when = "25 Nov, 14:0" + std::to_string(i);
    saved.engine = session::kEngine;
    saved.has_hole = true;
    saved.entry_lateral_mm = 1.1;
    saved.apex_lateral_mm = 1.6;
    saved.angle_deg = 3.1;
    saved.lesson_id = lesson.id;
    saved.has_components = true;
    saved.entry_md_mm = 1.0;
    saved.entry_bl_mm = 0.3 * i;
    saved.depth_error_mm = 0.2;
    saved.estimate = scoring::SelfEstimate{};
    model.saved.push_back(saved);
  }
  if (screen == ui::Screen::kLogbook) {
    ui::LogbookView book;
    book.lessons = {{lesson.id, "Find the centre"}, {"other", "Another lesson"}};
    book.site = &freehand;
    book.evidence = {0.3, 0.6, 1.0};
    book.weakness = lesson::Weakness{lesson::Measure::kDepth, 1.4};
    book.trainer = ui::Place{};
    model.logbook = book;
  }
  return model;
}

ui::Model Example::example_model(bool is_ready, std::int64_t reached_step) {
  using session::RemarkKind;
  ui::Model shown = model(ui::Screen::kDebrief, freehand);  // with all that a look back has
  shown.screen = ui::Screen::kExample;
  watched = {};
  watched.operator_name = "Expert";
  watched.progress = 0.43;
  watched.is_ready = is_ready;
  watched.reached_step = reached_step;
  const auto remark = [this](RemarkKind kind, std::int64_t step, double amount, double second) {
    session::Remark made;
    made.kind = kind;
    made.step = step;
    made.drill_index = 1;
    made.count = 1;
    made.amount = amount;
    made.second = second;
    made.depth_mm = 2.0;
    made.direction_md = 1.0;
    watched.remarks.push_back(made);
  };
  remark(RemarkKind::kTakesDrill, 20, 0.0, 0.0);
  remark(RemarkKind::kTouches, 500, 4.2, 15.8);
  remark(RemarkKind::kSidePush, 540, 5.2, 1.1);
  remark(RemarkKind::kMeetsSofter, 900, 15.0, 9.0);
  remark(RemarkKind::kEasesOff, 3000, 15.0, 6.0);
  remark(RemarkKind::kReachesDepth, 4000, 0.1, 4.4);
  remark(RemarkKind::kStandsNow, 9300, 2.1, 1.4);
  remark(RemarkKind::kEnds, shown.end_step, 0.0, 0.0);
  shown.example = &watched;
  shown.scrub_step = reached_step;
  if (!is_ready) {
    shown.results = nullptr;
    shown.setup = nullptr;
  }
  return shown;
}

ui::Model Example::prediction_model(bool is_ready, bool is_revealed) {
  judging = lesson;
  judging.prediction = lesson::Prediction{};
  judging.prediction->holes = 6;
  judging.prediction->groups = {{{{"en", "Operator A"}}, "a", "by-hand"},
                                {{{"en", "Operator B"}}, "b", "by-hand"}};
  judging.prediction->afterwards = {{"en", "What helps against the one does not help the other."}};
  judged = {};
  judged.site = freehand;
  judged.progress = is_ready ? 1.0 : 0.5;
  judged.is_ready = is_ready;
  judged.is_revealed = is_revealed;
  judged.groups.resize(2);
  for (int i = 0; i < (is_ready ? 6 : 3); ++i) {
    const double turn = 1.1 * i;
    const math::Vec2 around(std::cos(turn), std::sin(turn));
    judged.groups[0].holes.push_back({0.9 * around, 1.2 * around, 3.0});
    judged.groups[1].holes.push_back(
        {math::Vec2(0.8, -0.6) + 0.2 * around, math::Vec2(0.9, -0.7) + 0.3 * around, 1.5});
  }
  for (ui::PredictionGroupView& group : judged.groups) {
    group.findings = lesson::findings_of(group.holes);
  }
  ui::Model shown = model(ui::Screen::kPrediction, freehand);
  shown.lesson = &judging;
  shown.shelf[0].lessons[0].lesson = &judging;
  shown.prediction = &judged;
  return shown;
}

}  // namespace driftbench::ui_test
