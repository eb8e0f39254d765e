#include "session/session.h"

#include "geometry/anatomical_frame.h"
#include "lesson/instruments.h"
#include "scoring/hole.h"
#include "scoring/implant.h"
#include "scoring/jaw_measures.h"
#include "scoring/judge.h"
#include "scoring/process.h"
#include "session/attempt_state.h"
#include "session/attempt_step.h"
#include "session/commands.h"
#include "session/hint.h"
#include "session/implant_work.h"

#include <algorithm>
#include <utility>

namespace driftbench::session {
namespace {

// Streams of the attempt's seed.
constexpr std::uint64_t kHandStream = 1;
constexpr std::uint64_t kGuideStream = 2;

AttemptModel make_model(const lesson::AttemptSetup& setup) {
  AttemptModel model;
  model.setup = setup;
  model.step.hand = setup.hand;
  model.step.cutting = setup.cutting;
  model.step.strength = drilling::StrengthTable(specimen::material_of(setup.specimen));
  for (const specimen::Drill& drill : setup.kit.drills) {
    model.tools.push_back(drilling::make_tool(drill));
  }
  for (const specimen::Implant& implant : setup.kit.implants) {
    model.implants.push_back(drilling::make_implant_body(implant));
  }
  return model;
}

AttemptState fresh_state(const AttemptModel& model, volume::Volume volume) {
  const std::uint64_t seed = model.setup.seed;
  AttemptState state{.volume = std::move(volume),
                     .touched = {},
                     .hand = drilling::Hand(model.setup.hand, base::split(seed, kHandStream, 0)),
                     .guide = std::nullopt,
                     .drill = {},
                     .implant = {},
                     .scratch = {},
                     .output = {},
                     .command = {},
                     .finger_mm = math::Vec2(0.0),
                     .used_drills = {},
                     .deepest = {},
                     .probe = std::nullopt,
                     .pin = std::nullopt,
                     .samples = {},
                     .trace = {},
                     .hashes = {}};
  if (model.setup.guide) {
    state.guide.emplace(*model.setup.guide, base::split(seed, kGuideStream, 0));
  }
  return state;
}

/// Highest z that still holds material.
double surface_top_mm(const volume::Volume& volume) {
  const volume::Grid& grid = volume.grid;
  for (int z = grid.nz; z-- > 0;) {
    const std::size_t slab = static_cast<std::size_t>(grid.nx) * static_cast<std::size_t>(grid.ny);
    const auto* first = volume.coverage.data() + grid.index(0, 0, z);
    if (std::any_of(first, first + slab,
                    [](std::uint8_t c) { return 2 * c > volume::kFullCoverage; })) {
      return grid.centre_mm(0, 0, z).z;
    }
  }
  return 0.0;
}

/// Clearances and events of a jaw; nothing in a block.
std::optional<scoring::JawMeasures> measure_jaw(const lesson::AttemptSetup& setup,
                                                const AttemptState& state) {
  const specimen::JawSite* site = specimen::jaw_in(setup.specimen);
  if (site == nullptr) {
    return std::nullopt;
  }
  const specimen::Jaw jaw(site->jaw, specimen::Jaw::Texture::kNone);
  const ImplantState& implant = state.implant;
  scoring::JawWork work;
  work.site = site;
  work.jaw = &jaw;
  work.plan = setup.plan;
  work.drills = setup.kit.drills;
  work.samples = state.samples;
  work.last_drill = setup.plan.drill_ids.empty()
                        ? -1
                        : lesson::drill_index_of(setup, setup.plan.drill_ids.back());
  work.planned = setup.place_implant ? lesson::implant_of(setup) : nullptr;
  if (implant.is_seated) {
    work.placed = lesson::item_at(setup.kit.implants, implant.seat_index);
    work.seat = implant.seat;
    work.placed_step = implant.samples.empty() ? state.step : implant.samples.back().step;
  }
  return scoring::measure_in_jaw(work);
}

void judge_into(scoring::Judgement judgement, scoring::Results& results) {
  if (results.jaw) {
    scoring::judge_events(*results.jaw, judgement);
  }
  results.inside_tolerance = judgement.inside_tolerance;
  results.reasons = std::move(judgement.reasons);
}

/// Adds the implant and, where one was asked for, judges it and not the hole.
void measure_implant_into(const lesson::AttemptSetup& setup, const ImplantState& implant,
                          scoring::Results& results) {
  if (!implant.is_seated) {
    results.no_implant_reason = "No implant was left in the block.";
    judge_into({}, results);
    return;
  }
  base::Result<scoring::ImplantMeasures> found = scoring::measure_implant(
      implant.seat, setup.kit.implants[static_cast<std::size_t>(implant.seat_index)], setup.plan,
      implant.samples);
  if (!found) {
    results.no_implant_reason = found.error().message;
    judge_into({}, results);
    return;
  }
  found->peak_torque_nmm = implant.peak_torque_nmm;
  found->final_torque_nmm = implant.final_torque_nmm;
  found->grip_frac = implant.thread.grip;
  judge_into(scoring::judge(*found, setup.tolerance), results);
  results.implant = *found;
}

}  // namespace

struct Session::Impl {
  AttemptModel model;
  AttemptState state;
  SessionView view;
  std::optional<scoring::Results> results;  ///< once finished they stay what they are

  Impl(AttemptModel m, AttemptState s) : model(std::move(m)), state(std::move(s)) {}

  void renew_view();
};

void Session::Impl::renew_view() {
  view.phase = state.phase;
  view.status = state.status;
  view.step = state.step;
  view.time_s = static_cast<double>(state.step) * drilling::kStep_s;
  view.volume = &state.volume;
  view.pose = state.drill.pose;
  view.hand_tip_mm = {state.command.tip_mm.x, state.command.tip_mm.y, 0.0};
  view.drill_index = state.drill_index;
  view.stop_length_mm = state.stop_length_mm;
  view.used_drills = state.used_drills;
  view.motor_rpm = state.motor_rpm;
  view.spin_rad = state.spin_rad;
  view.irrigation = state.irrigation;
  view.lifting = state.lifting;
  view.is_out = is_out(model, state);
  view.shoulder_depth_mm = shoulder_depth_mm(model, state);
  view.at_stop = state.output.at_stop;
  view.load = sample_of(state);
  view.guide = GuideView{};
  if (state.guide) {
    view.guide.placed = state.guide->is_placed();
    view.guide.held = state.guide_held;
    view.guide.gap_mm = state.guide->gap_mm();
    view.guide.key_index = state.key_index;
    view.guide.sleeve = state.guide->sleeve();
  }
  view.implant = implant_view(model, state);
  view.probe = state.probe;
  view.pin = state.pin;
  view.hint = next_hint(model, state);
  view.samples = state.samples;
}

base::Result<Session> Session::create(const lesson::AttemptSetup& setup) {
  base::Result<volume::Volume> volume = specimen::build_specimen(setup.specimen);
  if (!volume) {
    return tl::make_unexpected(volume.error());
  }
  if (const base::Result<void> checked = lesson::check_drilling_instruments(setup); !checked) {
    return tl::make_unexpected(checked.error());
  }
  AttemptModel model = make_model(setup);
  model.surface_top_mm = surface_top_mm(*volume);
  AttemptState state = fresh_state(model, std::move(*volume));
  auto impl = std::make_unique<Impl>(std::move(model), std::move(state));
  impl->model.sleeve = lesson::sleeve_of(impl->model.setup);
  impl->renew_view();
  return Session(std::move(impl));
}

Session::Session(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}

Session::Session(Session&&) noexcept = default;
Session& Session::operator=(Session&&) noexcept = default;
Session::~Session() = default;

base::Result<void> Session::submit(const record::Command& command) {
  if (impl_->state.phase != Phase::kDrilling) {
    return base::fail(base::ErrorCode::kUnsupported, "This attempt has ended.");
  }
  const base::Result<void> taken = apply(command, impl_->model, impl_->state);
  if (taken) {
    impl_->state.trace.push_back({impl_->state.step, command});
    if (impl_->state.phase == Phase::kFinished) {
      impl_->state.hashes.push_back({impl_->state.step, hash_of(impl_->state)});
    }
    impl_->renew_view();
  }
  return taken;
}

std::int64_t Session::advance(std::int64_t step_count) {
  AttemptState& state = impl_->state;
  const std::int64_t before = state.step;
  for (std::int64_t i = 0; i < step_count && state.phase == Phase::kDrilling; ++i) {
    step_once(impl_->model, state);
  }
  impl_->renew_view();
  return state.step - before;
}

void Session::reset() {
  volume::Volume volume = std::move(impl_->state.volume);
  volume.restore();
  impl_->state = fresh_state(impl_->model, std::move(volume));
  impl_->results.reset();
  impl_->renew_view();
}

const SessionView& Session::view() const {
  return impl_->view;
}

const lesson::AttemptSetup& Session::setup() const {
  return impl_->model.setup;
}

const record::Trace& Session::trace() const {
  return impl_->state.trace;
}

std::uint64_t Session::state_hash() const {
  return hash_of(impl_->state);
}

const std::vector<record::StateHash>& Session::state_hashes() const {
  return impl_->state.hashes;
}

scoring::Results Session::measure() const {
  if (impl_->results) {
    return *impl_->results;
  }
  const lesson::AttemptSetup& setup = impl_->model.setup;
  scoring::Results results;
  results.process = scoring::measure_process(impl_->state.samples, setup.plan, setup.kit.drills);
  results.jaw = measure_jaw(setup, impl_->state);
  const base::Result<scoring::HoleMeasures> hole =
      scoring::measure_hole(impl_->state.volume, setup.plan, lesson::last_drill_mm(setup));
  if (hole) {
    judge_into(scoring::judge(*hole, setup.tolerance), results);
    results.hole = *hole;
  } else {
    results.no_hole_reason = hole.error().message;
    judge_into({}, results);
  }
  if (setup.place_implant) {
    measure_implant_into(setup, impl_->state.implant, results);
  }
  if (impl_->state.phase == Phase::kFinished) {
    impl_->results = results;
  }
  return results;
}

std::vector<scoring::Moment> Session::explain() const {
  const specimen::Plan& plan = impl_->model.setup.plan;
  const base::Result<geometry::AnatomicalFrame> frame =
      geometry::make_anatomical_frame(plan.entry_mm, plan.apex_mm(), plan.md_hint, plan.bl_hint);
  if (!frame) {
    return {};
  }
  return scoring::find_moments(impl_->state.samples, *frame, plan.entry_mm, plan.depth_mm,
                               impl_->model.setup.kit.drills);
}

volume::VoxelBox Session::take_dirty() {
  return impl_->state.volume.take_dirty();
}

record::Attempt Session::record() const {
  record::Attempt attempt;
  attempt.engine = kEngine;
  attempt.setup = impl_->model.setup;
  attempt.trace = impl_->state.trace;
  attempt.end_step = impl_->state.step;
  attempt.state_hashes = impl_->state.hashes;
  if (impl_->state.phase == Phase::kFinished) {
    attempt.results = measure();
  }
  return attempt;
}

}  // namespace driftbench::session
