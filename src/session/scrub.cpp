#include "session/scrub.h"

#include <algorithm>

namespace driftbench::session {

const drilling::LoadSample* sample_at(std::span<const drilling::LoadSample> samples,
                                      std::int64_t step) {
  const auto after = std::upper_bound(
      samples.begin(), samples.end(), step,
      [](std::int64_t at, const drilling::LoadSample& sample) { return at < sample.step; });
  return after == samples.begin() ? nullptr : &*(after - 1);
}

Scrub::Scrub(const Session& session) : session_(&session), volume_(*session.view().volume) {
  const volume::Grid& grid = volume_.grid;
  for (int z = 0; z < grid.nz; ++z) {
    for (int y = 0; y < grid.ny; ++y) {
      for (int x = 0; x < grid.nx; ++x) {
        if (volume_.removal_tick[grid.index(x, y, z)] != volume::kNeverRemoved) {
          touched_.include({x, y, z, x + 1, y + 1, z + 1});
        }
      }
    }
  }
  volume_.dirty = {};
  step_ = session.view().step;
}

void Scrub::wind_to(std::int64_t step) {
  step_ = std::clamp<std::int64_t>(step, 0, session_->view().step);
  const auto tick = static_cast<std::uint16_t>(
      std::min<std::int64_t>(step_ / volume::kStepsPerRemovalTick, volume::kNeverRemoved - 1));
  const volume::Volume& last = *session_->view().volume;
  for (int z = touched_.z_begin; z < touched_.z_end; ++z) {
    for (int y = touched_.y_begin; y < touched_.y_end; ++y) {
      for (int x = touched_.x_begin; x < touched_.x_end; ++x) {
        const std::size_t at = volume_.grid.index(x, y, z);
        volume_.coverage[at] =
            volume_.removal_tick[at] <= tick ? last.coverage[at] : last.initial_coverage[at];
      }
    }
  }
  volume_.dirty.include(touched_);
}

volume::VoxelBox Scrub::take_dirty() {
  return volume_.take_dirty();
}

const drilling::LoadSample* Scrub::sample() const {
  return sample_at(session_->view().samples, step_);
}

}  // namespace driftbench::session
