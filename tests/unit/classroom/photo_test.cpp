// Measuring photographs: exact constructions, published formulas for the uncertainty, coverage by
// simulation, tilts, probe, the row of a real hole.
#include "classroom/photo.h"

#include "base/csv.h"
#include "base/json.h"
#include "base/random.h"
#include "classroom/holes_rows.h"
#include "classroom/photo_plane.h"
#include "classroom/propagate.h"
#include "classroom/real_hole.h"
#include "math/random_normal.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <functional>
#include <string>

namespace driftbench::classroom {
namespace {

using math::Vec2;

constexpr double kPi = 3.14159265358979323846;

/// Where a point of the block (mm; x right, y up) lies in a picture.
using Camera = std::function<Vec2(const Vec2&)>;

Vec2 straight(const Vec2& mm) {
  return {500.0 + 20.0 * mm.x, 400.0 - 20.0 * mm.y};
}

/// The same turned by 30 degrees.
Vec2 turned(const Vec2& mm) {
  const double c = std::cos(kPi / 6.0);
  const double s = std::sin(kPi / 6.0);
  return straight({c * mm.x - s * mm.y, s * mm.x + c * mm.y});
}

/// A camera that stands askew.
Vec2 askew(const Vec2& mm) {
  const double w = 1.0 + 0.006 * mm.x + 0.004 * mm.y;
  return {500.0 + (19.0 * mm.x + 2.0 * mm.y) / w, 400.0 - (18.0 * mm.y - 1.5 * mm.x) / w};
}

/// A hole of 4 mm, 0.8 mm toward the soft half (right) and 0.3 mm to the left of that (up).
TopPhoto picture(const Camera& camera, int rim_points, bool is_straightened, double sd_px = 0.5) {
  TopPhoto photo;
  const auto click = [&](double x, double y) { return Click{camera({x, y}), sd_px}; };
  photo.is_straightened = is_straightened;
  if (is_straightened) {
    photo.corners = {click(-12.7, 12.7), click(12.7, 12.7), click(12.7, -12.7),
                     click(-12.7, -12.7)};
  } else {
    photo.edge = {click(-12.7, -12.7), click(12.7, -12.7)};
  }
  photo.boundary = {click(0.0, -10.0), click(0.0, 10.0)};
  photo.soft = {click(6.0, 1.0)};
  photo.plan = {click(0.0, 0.0)};
  for (int i = 0; i < rim_points; ++i) {
    const double t = 2.0 * kPi * i / rim_points;
    photo.rim.push_back(click(0.8 + 2.0 * std::cos(t), 0.3 + 2.0 * std::sin(t)));
  }
  return photo;
}

void expect_truth(const TopMeasure& found, double tolerance) {
  EXPECT_NEAR(found.entry_md_mm.value, 0.8, tolerance);
  EXPECT_NEAR(found.entry_bl_mm.value, 0.3, tolerance);
  EXPECT_NEAR(found.rim_diameter_mm.value, 4.0, tolerance);
}

TEST(MeasureTop, ExactPicturesGiveTheTruth) {
  expect_truth(measure_top(picture(straight, 5, false)).value(), 1e-9);
  expect_truth(measure_top(picture(turned, 9, false)).value(), 1e-9);
  expect_truth(measure_top(picture(straight, 8, true)).value(), 1e-9);
  // A perspective picture is undone by the corners.
  expect_truth(measure_top(picture(askew, 12, true)).value(), 1e-8);
  TopPhoto oval = picture(askew, 12, true);
  oval.is_ellipse = true;
  expect_truth(measure_top(oval).value(), 1e-5);
}

TEST(MeasureTop, CornersMayBeGivenEitherWayRound) {
  TopPhoto photo = picture(askew, 8, true);
  photo.corners = {photo.corners[0], photo.corners[3], photo.corners[2], photo.corners[1]};
  expect_truth(measure_top(photo).value(), 1e-8);
}

TEST(MeasureTop, TheSoftHalfGivesTheDirections) {
  // Marked on the other side, both components change their sign: bl stays left of md.
  TopPhoto photo = picture(turned, 8, false);
  photo.soft[0].at_px = turned({-6.0, 0.0});
  const TopMeasure found = measure_top(photo).value();
  EXPECT_NEAR(found.entry_md_mm.value, -0.8, 1e-9);
  EXPECT_NEAR(found.entry_bl_mm.value, -0.3, 1e-9);
  // +md and +bl in the picture: bl is a quarter turn to the left of md, seen from above.
  const Vec2 md = found.md_px - found.plan_px;
  const Vec2 bl = found.bl_px - found.plan_px;
  EXPECT_NEAR(dot(md, bl), 0.0, 1e-9);
  EXPECT_LT(md.x * bl.y - md.y * bl.x, 0.0);  // y runs down
}

TEST(MeasureTop, AnOvalRimHasTheDiameterOfItsArea) {
  TopPhoto photo = picture(straight, 0, false);
  photo.is_ellipse = true;
  for (int i = 0; i < 10; ++i) {
    const double t = 2.0 * kPi * i / 10;
    photo.rim.push_back({straight({0.8 + 2.4 * std::cos(t), 0.3 + 1.9 * std::sin(t)}), 0.5});
  }
  const TopMeasure found = measure_top(photo).value();
  EXPECT_NEAR(found.rim_diameter_mm.value, 2.0 * std::sqrt(2.4 * 1.9), 1e-5);
  EXPECT_NEAR(found.long_diameter_mm, 4.8, 1e-5);
  EXPECT_NEAR(found.short_diameter_mm, 3.8, 1e-5);
}

// Source: for n points spread evenly round a circle, each with sd s along and across, the centre
// has the variance 2 s^2 / n in each direction and the radius s^2 / n (Chernov, Circular and Linear
// Regression, 2010, section 7.4). Everything else is without error here.
TEST(MeasureTop, UncertaintyOfEvenlySpreadPointsIsTheFormulas) {
  TopPhoto photo = picture(straight, 16, false, 0.0);
  for (Click& click : photo.rim) {
    click.sd_px = 0.6;
  }
  photo.size_sd_mm = 0.0;
  const TopMeasure found = measure_top(photo).value();
  const double s_mm = 0.6 / 20.0;
  const double scale = 0.01;  // of a picture that is not straightened
  EXPECT_NEAR(found.entry_md_mm.u95, 2.0 * std::hypot(s_mm * std::sqrt(2.0 / 16.0), 0.8 * scale),
              1e-4);
  EXPECT_NEAR(found.entry_bl_mm.u95, 2.0 * std::hypot(s_mm * std::sqrt(2.0 / 16.0), 0.3 * scale),
              1e-4);
  EXPECT_NEAR(found.rim_diameter_mm.u95, 2.0 * std::hypot(2.0 * s_mm / 4.0, 4.0 * scale), 1e-4);
}

// An edge of L pixels with sd s at both ends has a relative error of sqrt(2) s / L, the known
// length one of its own.
TEST(MeasureTop, CalibrationEntersTheDiameter) {
  TopPhoto photo = picture(straight, 12, false, 0.0);
  for (Click& click : photo.edge) {
    click.sd_px = 3.0;
  }
  photo.size_sd_mm = 0.2;
  const double relative =
      std::sqrt(2.0 * 9.0 / (508.0 * 508.0) + 0.2 * 0.2 / (25.4 * 25.4) + 0.01 * 0.01);
  EXPECT_NEAR(measure_top(photo).value().rim_diameter_mm.u95, 2.0 * 4.0 * relative, 1e-4);
}

TEST(MeasureTop, ScatterOfTheRimWidensTheUncertainty) {
  TopPhoto photo = picture(straight, 8, false);
  const double quiet = measure_top(photo).value().entry_md_mm.u95;
  for (std::size_t i = 0; i < photo.rim.size(); ++i) {
    photo.rim[i].at_px += Vec2(i % 2 == 0 ? 4.0 : -4.0, 0.0);
  }
  const TopMeasure rough = measure_top(photo).value();
  EXPECT_GT(rough.entry_md_mm.u95, 2.0 * quiet);
  EXPECT_GT(rough.residual_mm, 0.05);
}

// What "95 %" promises, tried: shaken clicks, the scale as exact as assumed.
TEST(MeasureTop, TheStatedIntervalHoldsTheTruth) {
  base::Rng rng(2026);
  for (const bool is_straightened : {false, true}) {
    int inside = 0;
    constexpr int kRounds = 1500;
    for (int round = 0; round < kRounds; ++round) {
      const double stretch = 1.0 + math::normal(rng, 0.0, is_straightened ? 0.005 : 0.01);
      const auto camera = [&](const Vec2& mm) { return askew(mm * stretch); };
      const Camera flat = [&](const Vec2& mm) { return turned(mm * stretch); };
      TopPhoto photo = picture(is_straightened ? Camera(camera) : flat, 7, is_straightened, 0.8);
      const double corner = 12.7;
      const std::array<Vec2, 4> corners{
          {{-corner, corner}, {corner, corner}, {corner, -corner}, {-corner, -corner}}};
      for (std::size_t i = 0; i < photo.corners.size(); ++i) {
        photo.corners[i].at_px = askew(corners[i]);
      }
      for (std::size_t i = 0; i < photo.edge.size(); ++i) {
        photo.edge[i].at_px = turned({i == 0 ? -corner : corner, -corner});
      }
      for (std::vector<Click>* clicks :
           {&photo.edge, &photo.corners, &photo.boundary, &photo.plan, &photo.rim}) {
        for (Click& click : *clicks) {
          const double dx = math::normal(rng, 0.0, click.sd_px);
          const double dy = math::normal(rng, 0.0, click.sd_px);
          click.at_px += Vec2(dx, dy);
        }
      }
      const TopMeasure found = measure_top(photo).value();
      inside += std::abs(found.entry_md_mm.value - 0.8) <= found.entry_md_mm.u95 ? 1 : 0;
      inside += std::abs(found.entry_bl_mm.value - 0.3) <= found.entry_bl_mm.u95 ? 1 : 0;
      inside += std::abs(found.rim_diameter_mm.value - 4.0) <= found.rim_diameter_mm.u95 ? 1 : 0;
    }
    // The larger of clicks and scatter counts, so the interval may hold a little more.
    EXPECT_GT(inside, 0.94 * 3 * kRounds);
    EXPECT_LT(inside, 0.995 * 3 * kRounds);
  }
}

TEST(MeasureTop, SaysWhatIsMissing) {
  const auto message = [](const std::function<void(TopPhoto&)>& spoil) {
    TopPhoto photo = picture(straight, 6, false);
    spoil(photo);
    const auto found = measure_top(photo);
    return found ? std::string("measured") : found.error().message;
  };
  EXPECT_EQ(message([](TopPhoto& p) { p.edge.pop_back(); }),
            "found 1 point of the known edge, expected 2");
  EXPECT_EQ(message([](TopPhoto& p) { p.rim.resize(4); }),
            "found 4 points of the rim, expected 5 at least");
  EXPECT_EQ(message([](TopPhoto& p) {
              p.is_ellipse = true;
              p.rim.resize(5);
            }),
            "found 5 points of the rim, expected 6 at least");
  EXPECT_EQ(message([](TopPhoto& p) { p.plan.clear(); }),
            "found 0 points of the planned centre, expected 1 at least");
  EXPECT_NE(message([](TopPhoto& p) { p.soft[0] = p.boundary[0]; }).find("soft half"),
            std::string::npos);
  EXPECT_NE(message([](TopPhoto& p) { p.edge[1] = p.edge[0]; }).find("one place"),
            std::string::npos);
  EXPECT_NE(message([](TopPhoto& p) { p.is_straightened = true; }).find("corners"),
            std::string::npos);
  EXPECT_NE(message([](TopPhoto& p) {
              const TopPhoto q = picture(straight, 5, true);
              p.is_straightened = true;
              p.corners = {q.corners[0], q.corners[2], q.corners[1], q.corners[3]};
            }).find("cross"),
            std::string::npos);
  EXPECT_NE(message([](TopPhoto& p) {
              for (Click& c : p.rim)
                c.at_px.y = 100.0;
            }).find("one line"),
            std::string::npos);
}

TEST(PhotoPlane, ThereAndBack) {
  const PhotoPlane plane =
      PhotoPlane::from_corners({askew({0, 0}), askew({20, 0}), askew({20, -30}), askew({0, -30})},
                               20.0, 30.0)
          .value();
  for (const Vec2& mm : {Vec2(0.0, 0.0), Vec2(20.0, -30.0), Vec2(7.0, -11.0), Vec2(-3.0, 4.0)}) {
    EXPECT_NEAR(length(plane.to_mm(askew(mm)) - mm), 0.0, 1e-9);
    EXPECT_NEAR(length(plane.to_px(mm) - askew(mm)), 0.0, 1e-8);
  }
}

LeanPhoto lean_of(double pin_deg, double edge_deg, bool positive_is_right = true) {
  const auto line = [](double deg, double x) {
    const Vec2 down(std::sin(deg * kPi / 180.0), std::cos(deg * kPi / 180.0));
    return std::vector<Click>{{Vec2(x, 100.0), 0.0}, {Vec2(x, 100.0) + down * 600.0, 0.0}};
  };
  LeanPhoto photo;
  photo.pin = line(pin_deg, 300.0);
  photo.edge = line(edge_deg, 50.0);
  photo.positive_is_right = positive_is_right;
  return photo;
}

TEST(MeasureLean, TheDeepEndGivesTheSign) {
  EXPECT_NEAR(measure_lean_deg(lean_of(4.0, 0.0))->value, 4.0, 1e-9);
  EXPECT_NEAR(measure_lean_deg(lean_of(4.0, 1.5))->value, 2.5, 1e-9);
  EXPECT_NEAR(measure_lean_deg(lean_of(-3.0, 0.0))->value, -3.0, 1e-9);
  EXPECT_NEAR(measure_lean_deg(lean_of(4.0, 0.0, false))->value, -4.0, 1e-9);
  LeanPhoto upside = lean_of(4.0, 0.0);
  std::swap(upside.pin[0], upside.pin[1]);
  EXPECT_NEAR(measure_lean_deg(upside)->value, 4.0, 1e-9);
}

// Rectangular play: u = atan(play / engaged) / sqrt(3) (GUM 4.3.7); two ends of sd s apart by L:
// sqrt(2) s / L.
TEST(MeasureLean, PlayCameraAndClicksEnter) {
  LeanPhoto photo = lean_of(2.0, 0.0);
  photo.play_mm = 0.3;
  photo.engaged_mm = 9.0;
  const double play_deg = std::atan(0.3 / 9.0) * 180.0 / kPi / std::sqrt(3.0);
  EXPECT_NEAR(measure_lean_deg(photo)->u95, 2.0 * std::hypot(play_deg, 0.3), 1e-9);
  for (Click& click : photo.pin) {
    click.sd_px = 2.0;
  }
  const double clicks_deg = std::sqrt(2.0) * 2.0 / 600.0 * 180.0 / kPi;
  EXPECT_NEAR(measure_lean_deg(photo)->u95, 2.0 * std::hypot(std::hypot(play_deg, 0.3), clicks_deg),
              1e-4);
  photo.engaged_mm = 0.0;
  EXPECT_FALSE(measure_lean_deg(photo).has_value());
  LeanPhoto flat = lean_of(90.0, 0.0);
  EXPECT_FALSE(measure_lean_deg(flat).has_value());
}

// Source: GUM 4.2.3 (mean of repeated readings) and 4.3.7 (division a wide: a / sqrt(12)); t(0.975;
// 2) = 4.303.
TEST(MeasureDepth, ReadingsDivisionPointAndLean) {
  const Uncertain once = measure_depth_mm({{10.6}, 0.5, 0.0, 10.0}).value();
  EXPECT_NEAR(once.value, 0.6, 1e-12);
  EXPECT_NEAR(once.u95, 2.0 * 0.5 / std::sqrt(12.0), 1e-12);
  const Uncertain thrice = measure_depth_mm({{10.4, 10.6, 10.8}, 0.0, 0.6, 10.0}).value();
  EXPECT_NEAR(thrice.value, 0.0, 1e-12);
  EXPECT_NEAR(thrice.u95, 0.2 / std::sqrt(3.0) * 4.303, 1e-4);
  EXPECT_NEAR(measure_depth_mm({{10.0}, 0.5, 0.0, 10.0}, 0.1)->value, 10.0 * (std::cos(0.1) - 1.0),
              1e-12);
  EXPECT_FALSE(measure_depth_mm({{}, 0.5, 0.0, 10.0}).has_value());
}

TEST(MeasureApex, FollowsFromEntryTiltAndDepth) {
  // A tilt of a at the length L moves the end by L tan a: 10.5 mm, 3 degrees.
  const auto apex = apex_mm(Uncertain{0.4, 0.0}, Uncertain{3.0, 0.0}, Uncertain{0.5, 0.0}, 10.0);
  EXPECT_NEAR(apex->value, 0.4 + 10.5 * std::tan(3.0 * kPi / 180.0), 1e-12);
  EXPECT_NEAR(apex_mm(Uncertain{0.4, 0.3}, Uncertain{0.0, 0.0}, Uncertain{0.5, 0.2}, 10.0)->u95,
              0.3, 1e-12);
  EXPECT_FALSE(apex_mm(Uncertain{0.4, 0.0}, std::nullopt, Uncertain{0.5, 0.0}, 10.0).has_value());
  EXPECT_NEAR(
      *angle_deg(Uncertain{3.0, 0.0}, Uncertain{-4.0, 0.0}),
      std::atan(std::hypot(std::tan(3.0 * kPi / 180.0), std::tan(4.0 * kPi / 180.0))) * 180.0 / kPi,
      1e-12);
  EXPECT_FALSE(angle_deg(std::nullopt, Uncertain{1.0, 0.0}).has_value());
}

// Source: a sum of independent terms, u^2 = sum of (c u)^2 (GUM 5.1.2), exact for a linear
// function.
TEST(Propagation, OfALinearFunctionIsExact) {
  double a = 2.0;
  double b = -1.0;
  const std::array<UncertainInput, 2> inputs{{{&a, 0.3}, {&b, 0.1}}};
  const auto sd = standard_uncertainties<1>(inputs, [&]() -> std::optional<std::array<double, 1>> {
    return std::array<double, 1>{3.0 * a - 4.0 * b};
  });
  EXPECT_NEAR((*sd)[0], std::hypot(0.9, 0.4), 1e-12);
  EXPECT_EQ(a, 2.0);
  EXPECT_EQ(b, -1.0);
}

std::string json_points(const std::vector<Click>& clicks) {
  std::string text;
  for (const Click& click : clicks) {
    text += fmt::format("{}[{},{},2]", text.empty() ? "" : ",", click.at_px.x, click.at_px.y);
  }
  return "[" + text + "]";
}

std::string request_of(const TopPhoto& photo, const std::string& more) {
  return fmt::format(
      R"({{"operator":"k1","approach":"freehand","planned_depth_mm":10,"top":{{"is_straightened":false,"edge":{},"width_mm":25.4,"height_mm":25.4,"size_sd_mm":0.05,"boundary":{},"soft":{},"plan":{},"rim":{},"is_ellipse":false}}{}}})",
      json_points(photo.edge), json_points(photo.boundary), json_points(photo.soft),
      json_points(photo.plan), json_points(photo.rim), more);
}

Entry entry_of(const base::JsonValue& answer) {
  Entry found;
  const auto read = visit_holes(
      answer.find("header")->as_string() + answer.find("row")->as_string(), "row.csv",
      [&found](Entry&& entry) -> base::Result<void> {
        found = std::move(entry);
        return {};
      },
      [](const std::string& sentence) { ADD_FAILURE() << sentence; });
  EXPECT_TRUE(read.has_value());
  return found;
}

TEST(RealHole, APhotographOfTheTopGivesEntryAndRimOnly) {
  const base::JsonValue answer =
      base::read_json(measure_real_hole(request_of(picture(straight, 8, false), ""))).value();
  ASSERT_NE(answer.find("row"), nullptr);
  EXPECT_NEAR(answer.find("top")->find("entry_md_mm")->find("value")->as_double(), 0.8, 1e-9);
  const Entry entry = entry_of(answer);
  EXPECT_EQ(entry.source, Source::kBench);
  EXPECT_EQ(entry.measured, "hole");
  EXPECT_NEAR(*entry.measures.entry_md_mm, 0.8, 1e-9);
  EXPECT_NEAR(*entry.measures.entry_bl_mm, 0.3, 1e-9);
  for (const auto& [name, member] : kMeasureColumns) {
    const bool is_entry = name == "entry_md_mm" || name == "entry_bl_mm";
    EXPECT_EQ((entry.measures.*member).has_value(), is_entry) << name;
  }
  const base::CsvTable table =
      base::parse_csv(answer.find("header")->as_string() + answer.find("row")->as_string(), "row")
          .value();
  EXPECT_EQ(table.rows[0].cells[*table.column("rim_diameter_mm")], "4.000");
}

TEST(RealHole, PinAndProbeFillTheRest) {
  const std::string more =
      R"(,"front":{"pin":[[300,100,2],[310,600,2]],"upright":[[50,100,2],[50,600,2]],"positive_is_right":true,"play_mm":0.05,"engaged_mm":10})"
      R"(,"side":{"pin":[[300,100,2],[300,600,2]],"upright":[[50,100,2],[50,600,2]],"positive_is_right":false,"play_mm":0.05,"engaged_mm":10})"
      R"(,"probe":{"readings_mm":[10.5,10.7],"division_mm":0.5,"tip_mm":0})";
  const base::JsonValue answer =
      base::read_json(measure_real_hole(request_of(picture(straight, 8, false), more))).value();
  const Entry entry = entry_of(answer);
  const double tilt = std::atan(10.0 / 500.0) * 180.0 / kPi;
  EXPECT_NEAR(*entry.measures.tilt_md_deg, tilt, 1e-3);
  EXPECT_NEAR(*entry.measures.tilt_bl_deg, 0.0, 1e-3);
  EXPECT_NEAR(*entry.measures.angle_deg, tilt, 1e-3);
  EXPECT_NEAR(*entry.measures.depth_mm, 10.6 * std::cos(tilt * kPi / 180.0) - 10.0, 1e-3);
  EXPECT_NEAR(*entry.measures.apex_md_mm, 0.8 + (10.0 + *entry.measures.depth_mm) * 10.0 / 500.0,
              2e-3);
  EXPECT_FALSE(entry.measures.hole_diameter_mm.has_value());
}

TEST(RealHole, SaysWhatIsMissingOrWrong) {
  const auto answer = [](const std::string& request) { return measure_real_hole(request); };
  EXPECT_NE(answer(R"({"planned_depth_mm":10})").find("found no code name"), std::string::npos);
  EXPECT_NE(answer(R"({"operator":"a","approach":"freehand","planned_depth_mm":10})")
                .find("nothing measured yet"),
            std::string::npos);
  TopPhoto few = picture(straight, 3, false);
  EXPECT_NE(answer(request_of(few, "")).find("found 3 points of the rim"), std::string::npos);
  EXPECT_NE(answer(R"({"operator":"a","planned_depth_mm":100})").find("planned_depth_mm"),
            std::string::npos);
  EXPECT_NE(answer(R"({"planned_depth_mm":10,"top":{"edge":[[1,2]]}})").find("[x, y, zoom]"),
            std::string::npos);
  EXPECT_NE(answer("no json").find("problems"), std::string::npos);
}

}  // namespace
}  // namespace driftbench::classroom
