// Times one simulated millisecond: the widest drill of the kit pressed into the hardest foam.
#include "timing.h"

#include "drilling/hand.h"
#include "drilling/removal.h"
#include "drilling/step.h"
#include "specimen/block.h"

#include <cstdint>
#include <utility>

namespace {

using namespace driftbench;

constexpr double kDiameter_mm = 4.0;
constexpr double kDepth_mm = 10.0;
constexpr double kPress_n = 30.0;
constexpr double kRevPerSecond = 13.3;
constexpr std::int64_t kLongest_steps = 40'000;

/// One drilling job from the surface to full depth, its hand wandering as in an attempt.
class Drilling {
 public:
  Drilling(const specimen::Drill& drill, volume::Volume block)
      : tool_(drilling::make_tool(drill)), volume_(std::move(block)), hand_(model_.hand, 1) {
    hand_.settle({});
    state_.pose.tip_mm = {0.0, 0.0, 0.1};
    command_.press_n = kPress_n;
    input_.tool = &tool_;
    input_.spin = {kRevPerSecond, -1.0};
  }

  /// The hand's part of a step, not timed.
  void move_hand() {
    input_.hand = hand_.advance(command_, model_.hand.grip_height_mm);
    input_.feed_n = input_.hand.press_n;
  }

  drilling::StepOutput advance() {
    return drilling::advance(model_, input_, state_, volume_, scratch_);
  }

  void find_contacts() {
    drilling::find_contacts(tool_, state_.pose, drilling::frame_of(state_.pose), input_.spin,
                            volume_, model_.cutting, model_.strength, state_.area_factor,
                            scratch_.contacts);
  }

  [[nodiscard]] std::size_t contact_count() const { return scratch_.contacts.size(); }

  [[nodiscard]] const drilling::Tool& tool() const { return tool_; }

  [[nodiscard]] const drilling::DrillState& state() const { return state_; }

  [[nodiscard]] double depth_mm() const {
    return -(state_.pose.tip_mm + tool_.point_height_mm * state_.pose.axis_out_unit).z;
  }

 private:
  drilling::StepModel model_;
  drilling::Tool tool_;
  volume::Volume volume_;
  drilling::Hand hand_;
  drilling::HandCommand command_;
  drilling::StepInput input_;
  drilling::DrillState state_;
  drilling::StepScratch scratch_;
};

/// The removals of a drilling again, in a copy of its block, so that they can be timed alone.
class Shadow {
 public:
  explicit Shadow(volume::Volume block) : volume_(std::move(block)) {}

  void follow(const Drilling& drilling) {
    state_.pose = drilling.state().pose;
    drilling::remove_material(drilling.tool(), state_, volume_, 0);
  }

 private:
  volume::Volume volume_;
  drilling::DrillState state_;
};

bool run() {
  specimen::Drill drill;
  drill.diameter_mm = kDiameter_mm;
  drill.body_length_mm = 20.0;
  const base::Result<volume::Volume> block = specimen::build_block({});
  if (!block) {
    return false;
  }

  Drilling whole(drill, *block);
  bench::Durations steps;
  for (std::int64_t i = 0; i < kLongest_steps && whole.depth_mm() < kDepth_mm; ++i) {
    whole.move_hand();
    const double begin_us = bench::now_us();
    const drilling::StepOutput output = whole.advance();
    const double us = bench::now_us() - begin_us;
    if (output.in_contact) {
      steps.add(us);
    }
  }

  Drilling parted(drill, *block);
  Shadow shadow(*block);
  bench::Durations contacts;
  bench::Durations removals;
  std::size_t most_contacts = 0;
  for (std::int64_t i = 0; i < kLongest_steps && parted.depth_mm() < kDepth_mm; ++i) {
    parted.move_hand();
    contacts.time([&] { parted.find_contacts(); });
    most_contacts = std::max(most_contacts, parted.contact_count());
    if (parted.advance().swept_mm3 > 0.0) {
      removals.time([&] { shadow.follow(parted); });
    }
  }

  steps.print("step");
  contacts.print("contacts");
  removals.print("removal");
  fmt::print("elements {}\nmost_contacts {}\ndepth_mm {:.3f}\n", whole.tool().elements.size(),
             most_contacts, whole.depth_mm());
  return whole.depth_mm() >= kDepth_mm;
}

}  // namespace

int main() {
  return run() ? 0 : 1;
}
