// Time, loads and depth read from a load trace.
#include "scoring/process.h"

#include "synthetic_trace.h"

#include <gtest/gtest.h>

namespace driftbench::scoring {
namespace {

TEST(MeasureProcess, AnEmptyTraceIsAllZero) {
  const ProcessMeasures m = measure_process({}, specimen::Plan{}, two_drills());
  EXPECT_EQ(m.time_s, 0.0);
  EXPECT_EQ(m.deepest_shoulder_mm, 0.0);
  EXPECT_EQ(m.plunge_mm, 0.0);
}

TEST(MeasureProcess, TimeRunsFromFirstToLastContact) {
  TraceBuilder trace;
  trace.next.in_contact = false;
  trace.run(1.0, 0.0);
  trace.next.in_contact = true;
  trace.run(0.5, 1.0);
  trace.next.in_contact = false;
  trace.run(2.0, 0.0);
  trace.next.in_contact = true;
  trace.run(0.5, 1.0);
  trace.next.in_contact = false;
  trace.run(1.0, 0.0);
  EXPECT_NEAR(measure_process(trace.samples(), specimen::Plan{}, two_drills()).time_s, 2.99, 1e-9);
}

TEST(MeasureProcess, PeaksAreTheLargestValues) {
  TraceBuilder trace;
  trace.run(0.1, 1.0);
  trace.next.side_force_n = {0.0, -3.0, 4.0};
  trace.next.press_n = 22.0;
  trace.next.heat_degc = 41.5;
  trace.run(0.01, 1.0);
  trace.next.side_force_n = {1.0, 0.0, 0.0};
  trace.next.press_n = 10.0;
  trace.next.heat_degc = 30.0;
  trace.run(0.1, 1.0);
  const ProcessMeasures m = measure_process(trace.samples(), specimen::Plan{}, two_drills());
  EXPECT_EQ(m.peak_side_n, 5.0);
  EXPECT_EQ(m.peak_side_step, 100);
  EXPECT_EQ(m.peak_press_n, 22.0);
  EXPECT_EQ(m.peak_heat_degc, 41.5);
}

TEST(MeasureProcess, DepthIsToTheShoulderOfTheDrillInUse) {
  TraceBuilder trace;
  trace.next.drill_index = 1;  // 2.7 mm: the point is 1.35 / tan(59 deg) = 0.811 mm long
  trace.run(5.6, 2.0);         // tip 11.2 mm deep
  trace.run(0.5, -4.0);
  specimen::Plan plan;
  plan.depth_mm = 10.0;
  const ProcessMeasures m = measure_process(trace.samples(), plan, two_drills());
  EXPECT_NEAR(m.deepest_shoulder_mm, 11.2 - 0.8112, 1e-3);
  EXPECT_NEAR(m.plunge_mm, m.deepest_shoulder_mm - 10.0, 1e-12);
  plan.depth_mm = 11.0;
  EXPECT_EQ(measure_process(trace.samples(), plan, two_drills()).plunge_mm, 0.0);
}

TEST(MeasureProcess, ADrillThatNeverTouchedHasNoDepth) {
  TraceBuilder trace;
  trace.next.in_contact = false;
  trace.run(1.0, 2.0);
  EXPECT_EQ(measure_process(trace.samples(), specimen::Plan{}, two_drills()).deepest_shoulder_mm,
            0.0);
}

TEST(TipToShoulder, IsTheRadiusOfARoundBur) {
  specimen::Drill starter;
  starter.kind = specimen::DrillKind::kStarter;
  starter.diameter_mm = 2.3;
  EXPECT_EQ(tip_to_shoulder_mm(starter), 1.15);
}

}  // namespace
}  // namespace driftbench::scoring
