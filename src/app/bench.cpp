#include "app/bench.h"

#include "lesson/instruments.h"
#include "ui/strings.h"

#include <algorithm>

namespace driftbench::app {

void Bench::set_step_by_step(bool on) {
  if (on != step_by_step_) {
    step_by_step_ = on;
    owed_steps_ = peck_steps_ = 0;
  }
}

void Bench::peck(bool is_short) {
  peck_steps_ = is_short ? kPeckShort_steps : kPeck_steps;
  owed_steps_ = kPeckShort_steps;  // a press that does not come by then is given up
}

base::Result<void> Bench::submit(const record::Command& command) {
  base::Result<void> taken = session_->submit(command);
  if (!taken.has_value()) {
    return taken;
  }
  last_command_step_ = session_->view().step;
  owed_steps_ = kStepRun_steps;
  if (command.op == record::Op::kHand) {
    press_mn_ = command.arguments[4];
  } else if (command.op == record::Op::kPressGuide) {
    guide_press_mn_ = command.arguments[2];
  }
  return {};
}

std::string Bench::open_question() const {
  const session::SessionView& view = session_->view();
  const lesson::AttemptSetup& setup = session_->setup();
  if (view.used_drills.empty()) {
    return std::string(ui::tr(ui::Str::kFinishNothing));
  }
  const std::size_t missing = lesson::missing_drills(setup, view.used_drills).size();
  if (missing > 0) {
    return ui::say(ui::Str::kFinishEarly, static_cast<int>(missing),
                   static_cast<int>(setup.plan.drill_ids.size()));
  }
  return setup.place_implant && !view.implant.is_seated
             ? std::string(ui::tr(ui::Str::kFinishNoImplant))
             : std::string();
}

bool Bench::is_moving() const {
  const session::SessionView& view = session_->view();
  if (view.phase != session::Phase::kDrilling) {
    return false;
  }
  if (step_by_step_) {
    return is_stepping();
  }
  const bool is_recent =
      !session_->trace().empty() && view.step - last_command_step_ < kRestAfter_steps;
  return view.motor_rpm != 0.0 || press_mn_ > 0 || guide_press_mn_ > 0 || is_recent;
}

bool Bench::is_stepping() const {
  return owed_steps_ > 0 || peck_steps_ > 0 || press_mn_ > 0 || guide_press_mn_ > 0 ||
         session_->view().lifting;
}

std::int64_t Bench::advance(double elapsed_s) {
  const bool is_moving_now = is_moving();
  if (!is_moving_now) {
    was_moving_ = false;
    return 0;
  }
  if (!was_moving_) {
    // The time at rest does not count; the first frame of motion runs one frame's worth at most.
    pacing_.rebase();
    was_moving_ = true;
    constexpr double kOneFrame_s = 1.0 / 60.0;
    elapsed_s = kOneFrame_s;
  }
  const std::int64_t due = pacing_.steps_due(elapsed_s);
  if (!step_by_step_) {
    return session_->advance(due);
  }
  std::int64_t most = due;
  if (peck_steps_ > 0) {
    // The press comes with the next frame's command, and ends exactly when its time is over.
    most = press_mn_ > 0 ? peck_steps_ : owed_steps_;
  } else if (press_mn_ == 0 && guide_press_mn_ == 0 && !session_->view().lifting) {
    most = owed_steps_;
  }
  const std::int64_t ran = session_->advance(std::min(due, most));
  if (press_mn_ == 0 && owed_steps_ <= ran) {
    peck_steps_ = 0;
  }
  owed_steps_ = std::max<std::int64_t>(0, owed_steps_ - ran);
  if (press_mn_ > 0) {
    peck_steps_ = std::max<std::int64_t>(0, peck_steps_ - ran);
  }
  return ran;
}

}  // namespace driftbench::app
