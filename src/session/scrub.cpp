#include "session/scrub.h"

#include <algorithm>

namespace driftbench::session {

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
  const auto samples = session_->view().samples;
  const auto after = std::upper_bound(
      samples.begin(), samples.end(), step_,
      [](std::int64_t step, const drilling::LoadSample& s) { return step < s.step; });
  return after == samples.begin() ? nullptr : &*(after - 1);
}

}  // namespace driftbench::session
