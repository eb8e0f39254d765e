// T^2 in the principal axes of the covariance, where it is a sum of two squares.
#include "stats/hotelling.h"

#include "stats/distributions.h"
#include "stats/series.h"

#include <cmath>
#include <cstddef>

namespace driftbench::stats {

base::Result<Hotelling> hotelling(const PlaneScatter& scatter, const math::Vec2& target) {
  constexpr std::size_t kMinPoints = 3;
  if (scatter.n < kMinPoints) {
    return too_few(scatter.n, kMinPoints, "hole");
  }
  const base::Result<PrincipalAxes> axes = filled_axes(scatter);
  if (!axes) {
    return tl::unexpected<base::Error>(axes.error());
  }
  const math::Vec2 bias = scatter.mean - target;
  const double c = std::cos(axes->angle_rad);
  const double s = std::sin(axes->angle_rad);
  const double along = c * bias.x + s * bias.y;
  const double across = c * bias.y - s * bias.x;
  const base::Result<double> t2 =
      finite(real(scatter.n) *
             (along * along / axes->major_variance + across * across / axes->minor_variance));
  if (!t2) {
    return tl::unexpected<base::Error>(t2.error());
  }
  Hotelling test;
  test.t2 = *t2;
  test.df1 = 2.0;
  test.df2 = real(scatter.n - 2);
  test.f = test.df2 / (2.0 * real(scatter.n - 1)) * test.t2;
  test.p = f_upper_p(test.f, test.df1, test.df2);
  return test;
}

}  // namespace driftbench::stats
