#include "drilling/heat.h"

namespace driftbench::drilling {
namespace {

constexpr double kHeatCapacity_j_per_k = 0.08;  // a few tens of mm^3 of wall and drill
constexpr double kShareIntoWall = 0.3;          // the rest leaves with chips and drill
constexpr double kDryLoss_w_per_k = 0.004;
constexpr double kWetLoss_w_per_k = 0.05;

}  // namespace

double heated_degc(double wall_degc, double power_w, double ambient_degc, bool irrigation,
                   double step_s) {
  const double loss = irrigation ? kWetLoss_w_per_k : kDryLoss_w_per_k;
  const double net_w = kShareIntoWall * power_w - loss * (wall_degc - ambient_degc);
  return wall_degc + step_s * net_w / kHeatCapacity_j_per_k;
}

}  // namespace driftbench::drilling
