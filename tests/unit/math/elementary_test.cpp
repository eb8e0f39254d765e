// Sweeps against libm, exact values, identities, and one hash that pins the bits in every build.
#include "math/elementary.h"

#include "support/contract_guard.h"

#include "base/hash64.h"
#include "base/random.h"
#include "math/angle.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <functional>

namespace driftbench::math {
namespace {

constexpr int kSweep = 200'000;

// Distance in units of the last place of the reference.
double ulps(double value, double reference) {
  if (value == reference) {
    return 0.0;
  }
  int exponent = 0;
  std::frexp(reference, &exponent);
  return std::fabs(value - reference) / std::ldexp(1.0, exponent - 53);
}

// Largest distance over random arguments. libm itself is within 1 ulp, so 4 + 1 is the bound.
double worst_ulps(double low, double high, const std::function<double(double)>& ours,
                  const std::function<double(double)>& reference) {
  base::Rng rng(1);
  double worst = 0.0;
  for (int i = 0; i < kSweep; ++i) {
    const double x = rng.uniform(low, high);
    worst = std::max(worst, ulps(ours(x), reference(x)));
  }
  return worst;
}

double libm_sin(double x) {
  return std::sin(x);
}

double libm_cos(double x) {
  return std::cos(x);
}

TEST(Sin, AgreesWithLibm) {
  EXPECT_LE(worst_ulps(-7.0, 7.0, sin, libm_sin), 5.0);
  EXPECT_LE(worst_ulps(-1e5, 1e5, sin, libm_sin), 5.0);
  EXPECT_LE(worst_ulps(-1e-6, 1e-6, sin, libm_sin), 5.0);
}

TEST(Cos, AgreesWithLibm) {
  EXPECT_LE(worst_ulps(-7.0, 7.0, cos, libm_cos), 5.0);
  EXPECT_LE(worst_ulps(-1e5, 1e5, cos, libm_cos), 5.0);
}

TEST(Tan, AgreesWithLibm) {
  const auto reference = [](double x) { return std::tan(x); };
  EXPECT_LE(worst_ulps(-1.57, 1.57, tan, reference), 5.0);
}

TEST(Exp, AgreesWithLibm) {
  const auto reference = [](double x) { return std::exp(x); };
  EXPECT_LE(worst_ulps(-3.0, 3.0, exp, reference), 3.0);
  EXPECT_LE(worst_ulps(-708.0, 709.0, exp, reference), 3.0);
}

TEST(Log, AgreesWithLibm) {
  const auto reference = [](double x) { return std::log(x); };
  EXPECT_LE(worst_ulps(0.3, 3.0, log, reference), 3.0);
  EXPECT_LE(worst_ulps(0.999, 1.001, log, reference), 3.0);
  EXPECT_LE(worst_ulps(1e-300, 1e300, log, reference), 3.0);
  EXPECT_LE(ulps(log(5e-324), std::log(5e-324)), 3.0) << "smallest subnormal number";
  EXPECT_LE(ulps(log(1e-310), std::log(1e-310)), 3.0);
}

TEST(Atan, AgreesWithLibm) {
  const auto reference = [](double x) { return std::atan(x); };
  EXPECT_LE(worst_ulps(-1.0, 1.0, atan, reference), 4.0);
  EXPECT_LE(worst_ulps(-1e3, 1e3, atan, reference), 4.0);
  EXPECT_LE(worst_ulps(-1e-5, 1e-5, atan, reference), 4.0);
}

TEST(Atan2, AgreesWithLibmInAllQuadrants) {
  base::Rng rng(2);
  double worst = 0.0;
  for (int i = 0; i < kSweep; ++i) {
    // Magnitudes from 1e-8 to 1e8, so that thin and steep angles are met as well.
    const double y = rng.uniform(-1.0, 1.0) * std::exp(rng.uniform(-18.0, 18.0));
    const double x = rng.uniform(-1.0, 1.0) * std::exp(rng.uniform(-18.0, 18.0));
    worst = std::max(worst, ulps(atan2(y, x), std::atan2(y, x)));
  }
  EXPECT_LE(worst, 5.0);
}

TEST(Atan2, AxesAndZerosFollowTheStatedPolicy) {
  EXPECT_EQ(atan2(0.0, 1.0), 0.0);
  EXPECT_EQ(atan2(0.0, -1.0), kPi);
  EXPECT_EQ(atan2(-0.0, -1.0), kPi) << "zeros have no sign";
  EXPECT_EQ(atan2(1.0, 0.0), kPi / 2);
  EXPECT_EQ(atan2(-1.0, 0.0), -kPi / 2);
  EXPECT_EQ(atan2(0.0, 0.0), 0.0);
  EXPECT_EQ(atan2(1.0, 1.0), kPi / 4);
  EXPECT_EQ(atan2(-1e-300, -1e300), -kPi) << "the quotient underflows";
  EXPECT_EQ(atan2(1e300, 1e-300), kPi / 2) << "the quotient overflows";
}

TEST(Acos, AgreesWithLibm) {
  base::Rng rng(3);
  for (int i = 0; i < kSweep; ++i) {
    const double x = rng.uniform(-1.0, 1.0);
    EXPECT_NEAR(acos(x), std::acos(x), 1e-15);
    const double near_one = 1.0 - 1e-9 * (1.0 + x);
    EXPECT_LE(ulps(acos(near_one), std::acos(near_one)), 5.0);
  }
  EXPECT_EQ(acos(1.0), 0.0);
  EXPECT_EQ(acos(-1.0), kPi);
}

TEST(Pow, AgreesWithLibmWithinItsBound) {
  base::Rng rng(4);
  for (int i = 0; i < kSweep; ++i) {
    const double x = rng.uniform(0.01, 10.0);
    const double y = rng.uniform(-4.0, 4.0);
    const double reference = std::pow(x, y);
    const double bound = 1e-15 * (1.0 + std::fabs(y * std::log(x)));
    EXPECT_LE(std::fabs(pow(x, y) / reference - 1.0), bound) << x << " to the power " << y;
  }
  EXPECT_EQ(pow(7.5, 0.0), 1.0);
  EXPECT_EQ(pow(1.0, 123.0), 1.0);
}

TEST(Elementary, ExactPlaces) {
  EXPECT_EQ(sin(0.0), 0.0);
  EXPECT_EQ(cos(0.0), 1.0);
  EXPECT_EQ(exp(0.0), 1.0);
  EXPECT_EQ(log(1.0), 0.0);
  EXPECT_EQ(atan(0.0), 0.0);
  EXPECT_EQ(exp(-1000.0), 0.0);
}

TEST(Elementary, SymmetriesAreExact) {
  base::Rng rng(5);
  for (int i = 0; i < 10'000; ++i) {
    const double x = rng.uniform(-50.0, 50.0);
    EXPECT_EQ(sin(-x), -sin(x));
    EXPECT_EQ(cos(-x), cos(x));
    EXPECT_EQ(atan(-x), -atan(x));
  }
}

TEST(Elementary, IdentitiesHold) {
  base::Rng rng(6);
  for (int i = 0; i < 10'000; ++i) {
    const double x = rng.uniform(-20.0, 20.0);
    const SinCos both = sincos(x);
    EXPECT_NEAR(both.sin * both.sin + both.cos * both.cos, 1.0, 1e-15);
    EXPECT_NEAR(log(exp(x)), x, 1e-15 * (1.0 + std::fabs(x)));
    const double angle = rng.uniform(-3.0, 3.0);
    EXPECT_NEAR(atan2(sin(angle), cos(angle)), angle, 1e-15);
  }
}

TEST(Elementary, ExpNeverFallsAlongAFineGrid) {
  double previous = exp(-5.0);
  for (int i = 1; i <= 100'000; ++i) {
    const double current = exp(-5.0 + 1e-4 * i);
    EXPECT_GT(current, previous);
    previous = current;
  }
}

TEST(Elementary, OutsideTheDomainBreaksTheContract) {
  const support::ContractGuard guard;
  EXPECT_THROW(static_cast<void>(sin(1.1e5)), support::BrokenContract);
  EXPECT_THROW(static_cast<void>(sin(std::nan(""))), support::BrokenContract);
  EXPECT_THROW(static_cast<void>(exp(710.0)), support::BrokenContract);
  EXPECT_THROW(static_cast<void>(log(0.0)), support::BrokenContract);
  EXPECT_THROW(static_cast<void>(log(-1.0)), support::BrokenContract);
  EXPECT_THROW(static_cast<void>(acos(1.0000001)), support::BrokenContract);
}

// The same bits in g++, clang++ and WebAssembly, optimised or not.
// Source: this implementation; libm of glibc and of wasm differ from each other in this sweep.
TEST(Elementary, BitsAreTheSameInEveryBuild) {
  base::Rng rng(7);
  base::Hash64 hash;
  for (int i = 0; i < 100'000; ++i) {
    const double x = rng.uniform(-100.0, 100.0);
    const double y = rng.uniform(-2.0, 2.0);
    const double positive = rng.uniform(1e-3, 50.0);
    hash.add(sin(x));
    hash.add(cos(x));
    hash.add(tan(y));
    hash.add(exp(y));
    hash.add(log(positive));
    hash.add(pow(positive, y));
    hash.add(atan(x));
    hash.add(atan2(x, y));
    hash.add(acos(0.5 * y));
  }
  EXPECT_EQ(base::to_hex16(hash.value()), "827984b4b8796e67");
}

TEST(Angle, ConversionsAgreeWithTheDefinition) {
  EXPECT_EQ(to_radians(Degrees(180.0)).value, kPi);
  EXPECT_EQ(to_degrees(Radians(kPi)).value, 180.0);
  EXPECT_NEAR(to_degrees(to_radians(Degrees(37.5))).value, 37.5, 1e-14);
  EXPECT_EQ((Radians(0.5) + Radians(0.25)).value, 0.75);
  EXPECT_LT(Radians(0.1), Radians(0.2));
}

}  // namespace
}  // namespace driftbench::math
