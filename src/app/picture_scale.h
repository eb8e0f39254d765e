// Chooses how finely pictures are drawn, so that slow machines stay usable and fast ones stay
// sharp.
#pragma once

namespace driftbench::app {

class PictureScale {
 public:
  static constexpr double kLowest = 0.25;
  static constexpr double kHighest = 1.0;

  explicit PictureScale(bool is_software_rendered)
      : scale_(is_software_rendered ? 0.4 : kHighest) {}

  /// One frame drawn directly after another, `interval_s` apart.
  void frame(double interval_s);

  /// After a pause the next interval says nothing.
  void skip() { frames_ = 0; }

  [[nodiscard]] double value() const { return scale_; }

 private:
  double scale_;
  double mean_s_ = 0.0;
  int frames_ = 0;
  int good_rounds_ = 0;
  int rounds_to_wait_ = 1;
};

}  // namespace driftbench::app
