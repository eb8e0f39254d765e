// F-based factors times the standard deviations along the principal axes.
#include "stats/ellipse.h"

#include "base/contract.h"
#include "math/angle.h"
#include "stats/distributions.h"
#include "stats/series.h"

#include <cmath>
#include <cstddef>

namespace driftbench::stats {
namespace {

// k^2 of the mean's ellipse.
double mean_factor_squared(std::size_t n, double level) {
  DRIFTBENCH_EXPECTS(n > 2);
  const double f = f_quantile(level, 2.0, real(n - 2));
  return 2.0 * real(n - 1) / (real(n) * real(n - 2)) * f;
}

base::Result<Ellipse> ellipse(const PlaneScatter& scatter, double (*factor)(std::size_t, double),
                              double level) {
  if (scatter.n < kMinEllipsePoints) {
    return too_few(scatter.n, kMinEllipsePoints, "hole");
  }
  const base::Result<PrincipalAxes> axes = filled_axes(scatter);
  if (!axes) {
    return tl::unexpected<base::Error>(axes.error());
  }
  const double k = factor(scatter.n, level);
  return Ellipse{k * std::sqrt(axes->major_variance), k * std::sqrt(axes->minor_variance),
                 math::to_degrees(math::Radians(axes->angle_rad)).value, k};
}

}  // namespace

double prediction_factor(std::size_t n, double level) {
  return std::sqrt(mean_factor_squared(n, level) * real(n + 1));
}

double mean_factor(std::size_t n, double level) {
  return std::sqrt(mean_factor_squared(n, level));
}

base::Result<Ellipse> prediction_ellipse(const PlaneScatter& scatter, double level) {
  return ellipse(scatter, prediction_factor, level);
}

base::Result<Ellipse> mean_ellipse(const PlaneScatter& scatter, double level) {
  return ellipse(scatter, mean_factor, level);
}

}  // namespace driftbench::stats
