// The linked sections and the study screen: planes, words, values, drags, keys, measurements.
#include "page.h"
#include "support/read_file.h"

#include "specimen/jaw_volume.h"
#include "specimen/tooth_number.h"
#include "ui/slice_view.h"
#include "ui/study_words.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace driftbench::ui_test {
namespace {

using ui::SliceKind;

constexpr std::array kKinds{SliceKind::kBuccoLingual, SliceKind::kMesioDistal, SliceKind::kAxial};

/// A shipped case with a coarse volume, as app/ would show it.
struct Case {
  lesson::SpecimenCase specimen;
  specimen::JawPose pose;
  volume::Volume volume;
  lesson::PlanHistory plan{lesson::CasePlan{}};
  lesson::PlanReview review;
  std::vector<lesson::DrillStep> steps;
  lesson::DensityAlong density;

  explicit Case(const std::string& id) {
    const auto read =
        lesson::read_specimen(support::read_file("assets/specimens/" + id + ".specimen.json"), id);
    EXPECT_TRUE(read.value.has_value()) << read.first_error();
    specimen = *read.value;
    specimen.jaw.voxel_mm = 0.5;
    pose = specimen::pose_of(specimen.jaw.site_fdi);
    const specimen::Jaw jaw(specimen.jaw);
    volume = specimen::build_jaw(jaw, pose, {});
    plan = lesson::PlanHistory(specimen.plan);
    review =
        lesson::review_plan(jaw, plan.now(), specimen.margins, lesson::implant_body(plan.now()));
    density.mg_per_cm3 = {1700.0, 900.0, 600.0};
  }

  [[nodiscard]] ui::Model model() const {
    ui::Model model;
    model.screen = ui::Screen::kStudy;
    ui::StudyView view;
    view.specimen = &specimen;
    view.pose = &pose;
    view.volume = &volume;
    view.built_share = 1.0;
    view.plan = &plan;
    view.review = &review;
    view.steps = &steps;
    view.density = &density;
    model.study = view;
    return model;
  }
};

void settle(Page& page, const ui::Model& model) {
  for (int i = 0; i < 3; ++i) {
    static_cast<void>(page.frame(model));
  }
}

ui::SliceCross some_cross() {
  ui::SliceCross cross;
  cross.point_mm = {1.5, -0.7, -6.0};
  cross.axis_out_unit = math::unit(math::Vec3(0.15, -0.1, 1.0));
  cross.turn_deg = 37.0;
  return cross;
}

TEST(SlicePlane, AllPlanesHoldTheCrossHairAndAreNeverMirrored) {
  const ui::SliceCross cross = some_cross();
  for (const SliceKind kind : kKinds) {
    const ui::SlicePlane plane = ui::slice_plane(cross, kind, {3.0, 2.0, -9.0});
    // Rounding only.
    EXPECT_NEAR(plane.in_plane(cross.point_mm).z, 0.0, 1e-12);
    EXPECT_NEAR(math::dot(plane.right_unit, plane.up_unit), 0.0, 1e-12);
    // Right, up and toward the eye are right-handed.
    const math::Vec3 toward = math::cross(plane.right_unit, plane.up_unit);
    EXPECT_NEAR(math::dot(toward, plane.away_unit), -1.0, 1e-12);
  }
  const auto plane = [&](SliceKind kind) { return ui::slice_plane(cross, kind, {}); };
  // The three are at right angles, and the upright ones hold the axis.
  EXPECT_NEAR(math::dot(plane(SliceKind::kBuccoLingual).away_unit,
                        plane(SliceKind::kMesioDistal).away_unit),
              0.0, 1e-12);
  EXPECT_NEAR(math::dot(plane(SliceKind::kAxial).away_unit, cross.axis_out_unit), -1.0, 1e-12);
}

TEST(SliceWords, TheWordAtAnEdgeIsTheSideThatLiesThere) {
  for (const char* id : {"lower-36-healed", "lower-46-sloped", "upper-16-sinus", "upper-24-healed",
                         "upper-11-thin-plate", "upper-21-fresh-socket"}) {
    const Case shown(id);
    const int fdi = shown.specimen.jaw.site_fdi;
    ui::SliceCross cross;
    const auto side = [&](SliceKind kind, const math::Vec3& direction_in_jaw) {
      const ui::SlicePlane plane = ui::slice_plane(cross, kind, {});
      return plane.in_plane(shown.pose.direction_to_core(direction_in_jaw));
    };
    const auto md = ui::slice_words(SliceKind::kMesioDistal, fdi, shown.pose.is_mirrored);
    const bool distal_is_right = side(SliceKind::kMesioDistal, {1.0, 0.0, 0.0}).x > 0.0;
    EXPECT_EQ(distal_is_right ? md.right : md.left, "Distal") << id;
    EXPECT_EQ(distal_is_right ? md.left : md.right, "Mesial") << id;
    const auto bl = ui::slice_words(SliceKind::kBuccoLingual, fdi, shown.pose.is_mirrored);
    const std::string lingual = specimen::is_upper(fdi) ? "Palatal" : "Lingual";
    EXPECT_GT(side(SliceKind::kBuccoLingual, {0.0, 1.0, 0.0}).x, 0.9) << id;
    EXPECT_EQ(bl.right, lingual) << id;
    EXPECT_EQ(bl.left, fdi % 10 <= 3 ? "Facial" : "Buccal") << id;
    const auto axial = ui::slice_words(SliceKind::kAxial, fdi, shown.pose.is_mirrored);
    EXPECT_GT(side(SliceKind::kAxial, {0.0, 1.0, 0.0}).y, 0.9) << id;
    EXPECT_EQ(axial.top, lingual) << id;
    EXPECT_EQ(axial.right, md.right) << id;
  }
}

TEST(SliceValue, IsTheVoxelAtItsCentreInBothReadings) {
  const Case shown("lower-36-healed");
  const volume::Grid& grid = shown.volume.grid;
  for (int z = 4; z < grid.nz - 4; z += 7) {
    for (int y = 4; y < grid.ny - 4; y += 3) {
      const int x = grid.nx / 2;
      const std::size_t i = grid.index(x, y, z);
      const double expected =
          shown.volume.density_mg_per_cm3[i] * (shown.volume.coverage[i] / 255.0);
      const math::Vec3 p = grid.centre_mm(x, y, z);
      EXPECT_NEAR(ui::slice_value(shown.volume, p, true), expected, 1e-9);
      EXPECT_NEAR(ui::slice_value(shown.volume, p, false), expected, 1e-6);
      EXPECT_EQ(ui::tissue_label(shown.volume, p), shown.volume.tissue[i]);
    }
  }
  EXPECT_EQ(ui::slice_value(shown.volume, {500.0, 0.0, 0.0}, true), 0.0);
  EXPECT_EQ(ui::slice_value(shown.volume, {500.0, 0.0, 0.0}, false), 0.0);
}

TEST(Measurements, AreDistanceAndAngleOfTheirPoints) {
  ui::Measurement distance;
  distance.points_mm = {{1.0, 2.0, 3.0}, {1.0, 5.0, 7.0}};
  EXPECT_NEAR(ui::length_mm(distance), 5.0, 1e-12);
  ui::Measurement angle;
  angle.tool = ui::StudyTool::kAngle;
  angle.points_mm = {{2.0, 0.0, 0.0}, {0.0, 0.0, 0.0}, {1.0, std::sqrt(3.0), 0.0}};
  EXPECT_NEAR(ui::angle_deg(angle), 60.0, 1e-9);
}

TEST(Study, EverythingIsInsideThePageAndNamed) {
  const Case shown("upper-16-sinus");
  for (const auto& [width, height] :
       {std::pair{1440.0F, 900.0F}, std::pair{1280.0F, 720.0F}, std::pair{1024.0F, 768.0F}}) {
    Page page(width, height);
    settle(page, shown.model());
    for (const char* tab : {"Study", "Plan"}) {
      static_cast<void>(page.click(shown.model(), tab));
      settle(page, shown.model());
      for (const Item& item : page.items()) {
        EXPECT_FALSE(item.label.empty());
        if (item.visible) {
          EXPECT_GE(item.x, -0.5F) << item.label;
          EXPECT_LE(item.x + item.w, width + 0.5F) << item.label;
          EXPECT_LE(item.y + item.h, height + 0.5F) << item.label;
        }
      }
    }
    for (const char* name : {"Bucco-lingual section", "Mesio-distal section", "Axial section"}) {
      EXPECT_GT(page.find(name).w, 200.0F) << name;
    }
  }
}

TEST(Study, ADragOfTheImplantMovesThePlanByAsMuchAndTheEndTurnsIt) {
  const Case shown("lower-36-healed");
  Page page(1440.0F, 900.0F);
  settle(page, shown.model());
  const Item section = page.find("Bucco-lingual section");
  const ui::SlicePicture& picture = page.interface().rects().study.slices[0];
  const auto place = [&](const math::Vec3& jaw) {
    const math::Vec3 q = picture.plane.in_plane(shown.pose.to_core(jaw));
    return ImVec2{section.x + 0.5F * section.w + static_cast<float>(q.x / picture.mm_per_px),
                  section.y + 0.5F * section.h - static_cast<float>(q.y / picture.mm_per_px)};
  };
  const auto drag = [&](ImVec2 from, ImVec2 to) {
    ImGuiIO& io = ImGui::GetIO();
    ui::Actions last;
    const auto step = [&] {
      const ui::Actions actions = page.frame(shown.model());
      last.insert(last.end(), actions.begin(), actions.end());
    };
    io.AddMousePosEvent(from.x, from.y);
    step();
    io.AddMouseButtonEvent(0, true);
    step();
    io.AddMousePosEvent(to.x, to.y);
    step();
    io.AddMouseButtonEvent(0, false);
    step();
    return of_kind<ui::EditPlan>(last);
  };
  const auto moved = drag(place({0.0, 0.4, -4.0}), place({0.0, 1.9, -5.0}));
  ASSERT_FALSE(moved.empty());
  // The pointer moves by whole pixels of about 0.1 mm.
  EXPECT_NEAR(moved.back().plan.entry_mm.y, 1.5, 0.1);
  EXPECT_NEAR(moved.back().plan.entry_mm.z, -1.0, 0.1);
  EXPECT_NEAR(moved.back().plan.entry_mm.x, 0.0, 0.01);
  EXPECT_NE(moved.back().gesture, 0U);

  const auto turned = drag(place({0.0, 0.0, -10.0}), place({0.0, 2.0, -10.0}));
  ASSERT_FALSE(turned.empty());
  EXPECT_NEAR(turned.back().plan.lean_bl_deg, std::atan2(2.0, 10.0) * 180.0 / 3.14159265, 0.6);
  EXPECT_NEAR(turned.back().plan.entry_mm.y, 0.0, 1e-9);
  EXPECT_NE(turned.back().gesture, moved.back().gesture);

  // Beside the implant the drag moves the cross-hair and leaves the plan.
  EXPECT_TRUE(drag(place({0.0, 4.5, -14.0}), place({0.0, 4.0, -12.0})).empty());
  EXPECT_NEAR(page.interface().rects().study.cut_at_mm.z, -12.0, 0.1);
  EXPECT_NEAR(page.interface().rects().study.cut_at_mm.y, 4.0, 0.1);
}

TEST(Study, ADistanceIsMeasuredByTwoClicksAndTakenAwayByAKey) {
  const Case shown("lower-36-healed");
  Page page(1440.0F, 900.0F);
  settle(page, shown.model());
  static_cast<void>(page.click(shown.model(), "Distance"));
  const Item section = page.find("Mesio-distal section");
  const double mm_per_px = page.interface().rects().study.slices[1].mm_per_px;
  const float far = std::round(static_cast<float>(6.0 / mm_per_px));
  const float x = section.x + 0.25F * section.w;
  const float y = section.y + 0.25F * section.h;
  static_cast<void>(page.click(shown.model(), x, y));
  static_cast<void>(page.click(shown.model(), x + far, y));
  settle(page, shown.model());
  EXPECT_NE(page.find("6.0 mm").label, "");
  ASSERT_TRUE(page.tab_to(shown.model(), "Mesio-distal section"));
  static_cast<void>(page.key(shown.model(), ImGuiKey_Delete));
  settle(page, shown.model());
  EXPECT_EQ(page.find("6.0 mm").label, "");
}

TEST(Study, KeysMoveTheCrossHairAndTheSection) {
  const Case shown("lower-36-healed");
  Page page(1440.0F, 900.0F);
  settle(page, shown.model());
  ASSERT_TRUE(page.tab_to(shown.model(), "Bucco-lingual section"));
  const math::Vec3 before = page.interface().rects().study.cut_at_mm;
  static_cast<void>(page.key(shown.model(), ImGuiKey_RightArrow));
  static_cast<void>(page.key(shown.model(), ImGuiKey_UpArrow));
  static_cast<void>(page.key(shown.model(), ImGuiKey_PageUp));
  settle(page, shown.model());
  const math::Vec3 after = page.interface().rects().study.cut_at_mm;
  const ui::SlicePlane& plane = page.interface().rects().study.slices[0].plane;
  const math::Vec3 by = after - before;
  EXPECT_NEAR(math::dot(by, plane.right_unit), 0.5, 1e-9);
  EXPECT_NEAR(math::dot(by, plane.up_unit), 0.5, 1e-9);
  EXPECT_NEAR(math::dot(by, plane.away_unit), 0.5, 1e-9);
}

TEST(Study, NumbersEditThePlanAndClearancesAreReadOut) {
  const Case shown("lower-36-healed");
  Page page(1440.0F, 900.0F);
  settle(page, shown.model());
  static_cast<void>(page.click(shown.model(), "Plan"));
  settle(page, shown.model());
  const auto edits = of_kind<ui::EditPlan>(page.click(shown.model(), "Length: more"));
  ASSERT_EQ(edits.size(), 1U);
  EXPECT_EQ(edits.front().plan.length_mm, shown.plan.now().length_mm + 1.0);
  const Item canal = page.find("Nerve canal");
  EXPECT_NE(canal.value.find("mm"), std::string::npos);
  EXPECT_NE(canal.value.find("keeps 2.0 mm"), std::string::npos) << canal.value;
  EXPECT_FALSE(page.find("Undo").enabled);
}

}  // namespace
}  // namespace driftbench::ui_test
