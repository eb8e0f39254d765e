// A finished attempt under discussion: what was measured, what happened when, a look back, and
// others beside it.
#pragma once

#include "record/attempt.h"
#include "session/scrub.h"
#include "session/session.h"
#include "ui/model.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::app {

class Debrief {
 public:
  /// Measures the finished session, which must outlive this object. `recorded`, when given, is
  /// shown instead: the results of an attempt that cannot be repeated here.
  explicit Debrief(const session::Session& session,
                   const std::optional<scoring::Results>& recorded = std::nullopt);

  /// Makes the look back; not needed before anything may be shown.
  void reveal();

  void scrub_to(std::int64_t step);
  void play(bool playing);

  /// Moves a running replay on by wall time; it plays at the speed of the attempt.
  void advance(double elapsed_s);

  void add_compared(ui::Compared compared);
  void remove_compared(const std::string& id);

  [[nodiscard]] const scoring::Results& results() const { return results_; }

  [[nodiscard]] const std::vector<scoring::Moment>& moments() const { return moments_; }

  [[nodiscard]] const std::vector<ui::Compared>& compared() const { return compared_; }

  [[nodiscard]] session::Scrub* scrub() { return scrub_.get(); }

  [[nodiscard]] bool is_playing() const { return playing_; }

  [[nodiscard]] std::int64_t step() const;

  [[nodiscard]] std::int64_t end_step() const { return end_step_; }

 private:
  const session::Session* session_;
  scoring::Results results_;
  std::vector<scoring::Moment> moments_;
  std::unique_ptr<session::Scrub> scrub_;
  std::vector<ui::Compared> compared_;
  std::int64_t end_step_ = 0;
  double play_step_ = 0.0;
  bool playing_ = false;
};

/// An attempt as the debrief lays it beside another; nothing when it has no results.
[[nodiscard]] std::optional<ui::Compared> compared_of(const record::Attempt& attempt);

}  // namespace driftbench::app
