// The normal distribution over a disc: one integral by hand, one by quadrature, one root.
#include "stats/containing_radius.h"

#include "base/contract.h"
#include "math/angle.h"
#include "stats/distributions.h"
#include "stats/series.h"

#include <algorithm>
#include <cmath>

namespace driftbench::stats {
namespace {

// Mean and standard deviations in the principal axes; u along the larger scatter.
struct Principal {
  double mean_u = 0.0;
  double mean_v = 0.0;
  double sd_u = 0.0;
  double sd_v = 0.0;
};

Principal principal_of(const PlaneScatter& scatter) {
  const PrincipalAxes axes = principal_axes(scatter);
  const double c = std::cos(axes.angle_rad);
  const double s = std::sin(axes.angle_rad);
  return {c * scatter.mean.x + s * scatter.mean.y, c * scatter.mean.y - s * scatter.mean.x,
          std::sqrt(axes.major_variance), std::sqrt(axes.minor_variance)};
}

// Share of u between -half and +half.
double share_of_chord(const Principal& p, double half) {
  return normal_cdf((half - p.mean_u) / p.sd_u) - normal_cdf((-half - p.mean_u) / p.sd_u);
}

// Beyond this many standard deviations nothing is left (1e-19).
constexpr double kReach_sd = 9.0;

// Density of v times the share of its chord, over the angle theta with v = radius sin(theta): the
// substitution takes away the root at the rim.
class RimIntegrand {
 public:
  RimIntegrand(const Principal& principal, double radius) : p_(principal), radius_(radius) {}

  [[nodiscard]] double operator()(double theta) const {
    const double half = radius_ * std::cos(theta);
    const double z = (radius_ * std::sin(theta) - p_.mean_v) / p_.sd_v;
    const double density = std::exp(-0.5 * z * z) / (p_.sd_v * std::sqrt(2.0 * math::kPi));
    return density * half * share_of_chord(p_, half);
  }

 private:
  Principal p_;
  double radius_;
};

struct Panel {
  double left = 0.0;
  double right = 0.0;
  double at_left = 0.0;
  double at_middle = 0.0;
  double at_right = 0.0;

  [[nodiscard]] double area() const {
    constexpr double kSimpson = 6.0;
    return (right - left) / kSimpson * (at_left + 4.0 * at_middle + at_right);
  }
};

// Halves a panel until both halves agree with the whole.
double refined(const RimIntegrand& f, const Panel& panel, double tolerance, int depth) {
  constexpr double kRichardson = 15.0;
  const double middle = 0.5 * (panel.left + panel.right);
  const Panel low{panel.left, middle, panel.at_left, f(0.5 * (panel.left + middle)),
                  panel.at_middle};
  const Panel high{middle, panel.right, panel.at_middle, f(0.5 * (middle + panel.right)),
                   panel.at_right};
  const double halves = low.area() + high.area();
  const double error = (halves - panel.area()) / kRichardson;
  if (depth == 0 || std::abs(error) <= tolerance) {
    return halves + error;
  }
  return refined(f, low, 0.5 * tolerance, depth - 1) + refined(f, high, 0.5 * tolerance, depth - 1);
}

double integral(const RimIntegrand& f, double from, double to, double tolerance) {
  constexpr int kPanels = 16;
  constexpr int kMaxDepth = 12;
  double sum = 0.0;
  for (int i = 0; i < kPanels; ++i) {
    const double left = from + (to - from) * i / kPanels;
    const double right = from + (to - from) * (i + 1) / kPanels;
    sum +=
        refined(f, {left, right, f(left), f(0.5 * (left + right)), f(right)}, tolerance, kMaxDepth);
  }
  return sum;
}

double share(const Principal& p, double radius) {
  if (!(p.sd_u > 0.0)) {
    return std::hypot(p.mean_u, p.mean_v) <= radius ? 1.0 : 0.0;
  }
  // A scatter of less than a millionth across the line does not count.
  constexpr double kThin = 1e-6;
  if (p.sd_v <= kThin * p.sd_u) {
    const double inside = radius * radius - p.mean_v * p.mean_v;
    return inside > 0.0 ? share_of_chord(p, std::sqrt(inside)) : 0.0;
  }
  const double low = std::max(-radius, p.mean_v - kReach_sd * p.sd_v);
  const double high = std::min(radius, p.mean_v + kReach_sd * p.sd_v);
  if (!(low < high)) {
    return 0.0;
  }
  // Positions are known to a part in 1e16 of the radius: finer agreement cannot be had.
  constexpr double kTolerance = 1e-12;
  constexpr double kRounding = 4e-15;
  const double tolerance = kTolerance + kRounding * radius / p.sd_v;
  return integral(RimIntegrand(p, radius), std::asin(low / radius), std::asin(high / radius),
                  tolerance);
}

}  // namespace

double share_within(const PlaneScatter& scatter, double radius_mm) {
  DRIFTBENCH_EXPECTS(radius_mm >= 0.0);
  return radius_mm > 0.0 ? share(principal_of(scatter), radius_mm) : 0.0;
}

base::Result<double> containing_radius(const PlaneScatter& scatter, double probability) {
  DRIFTBENCH_EXPECTS(probability > 0.0 && probability < 1.0);
  const Principal p = principal_of(scatter);
  const double distance = std::hypot(p.mean_u, p.mean_v);
  if (!(p.sd_u > 0.0)) {
    return finite(distance);
  }
  double low = 0.0;
  double high = distance + kReach_sd * std::hypot(p.sd_u, p.sd_v);
  if (!std::isfinite(high)) {
    return finite(high);
  }
  // Bisection and the false-position rule (Illinois) in turn: safe, and quick near the root.
  constexpr double kPrecision = 1e-11;
  constexpr int kMaxRounds = 200;
  double at_low = -probability;
  double at_high = 1.0 - probability;
  for (int round = 0; round < kMaxRounds && high - low > kPrecision * high; ++round) {
    const bool is_bisection = round % 3 == 0;
    const double radius =
        is_bisection ? 0.5 * (low + high) : low - at_low * (high - low) / (at_high - at_low);
    const double excess = share(p, radius) - probability;
    if (excess < 0.0) {
      low = radius;
      at_low = excess;
      at_high = is_bisection ? at_high : 0.5 * at_high;
    } else {
      high = radius;
      at_high = excess;
      at_low = is_bisection ? at_low : 0.5 * at_low;
    }
  }
  return 0.5 * (low + high);
}

}  // namespace driftbench::stats
