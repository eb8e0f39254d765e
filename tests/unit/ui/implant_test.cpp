// The implant on the bench and in the debrief, used as a person would.
#include "example.h"
#include "page.h"

#include "ui/hint_words.h"
#include "ui/implant_debrief.h"

#include <gtest/gtest.h>

namespace driftbench::ui_test {
namespace {

scoring::ImplantMeasures placed(double final_torque_nmm, double grip_frac = 1.0) {
  scoring::ImplantMeasures implant;
  implant.deviation.entry_md_mm = 0.3;
  implant.deviation.apex_md_mm = 0.5;
  implant.depth_error_mm = -0.2;
  implant.peak_torque_nmm = final_torque_nmm + 12.0;
  implant.final_torque_nmm = final_torque_nmm;
  implant.grip_frac = grip_frac;
  implant.peak_side_n = 3.14;
  return implant;
}

std::string first_sentence(double final_torque_nmm, double grip_frac = 1.0) {
  scoring::Results results;
  results.implant = placed(final_torque_nmm, grip_frac);
  return ui::load_sentences(results).front();
}

std::vector<record::Command> sent(const ui::Actions& actions) {
  std::vector<record::Command> commands;
  for (const ui::Send& send : of_kind<ui::Send>(actions)) {
    if (send.command.op != record::Op::kHand) {
      commands.push_back(send.command);
    }
  }
  return commands;
}

struct Bench {
  Example example = make_example();
  lesson::AttemptSetup setup = example.freehand;
  Page page{1440, 900};

  Bench() { setup.place_implant = true; }

  ui::Model model() {
    const ui::Model shown = example.model(ui::Screen::kBench, setup);
    for (int i = 0; i < 3; ++i) {
      static_cast<void>(page.frame(shown));
    }
    return shown;
  }
};

TEST(Implant, StandsInTheRackOnlyWhereTheLessonAsksForIt) {
  Bench bench;
  const ui::Model model = bench.model();
  EXPECT_NE(bench.page.find("Implant 4.5 × 10 mm").id, 0U);
  const auto by_click = sent(bench.page.click(model, "Implant 4.5 × 10 mm"));
  ASSERT_EQ(by_click.size(), 1U);
  EXPECT_EQ(by_click[0].op, record::Op::kTakeImplant);
  const auto by_key = sent(bench.page.key(model, ImGuiKey_0));
  ASSERT_EQ(by_key.size(), 1U);
  EXPECT_EQ(by_key[0], by_click[0]);

  Bench without;
  without.setup.place_implant = false;
  const ui::Model plain = without.model();
  EXPECT_EQ(without.page.find("Implant 4.5 × 10 mm").id, 0U);
  EXPECT_TRUE(sent(without.page.key(plain, ImGuiKey_0)).empty());
}

TEST(Implant, InHandItHasItsButtonsKeysAndSpeed) {
  Bench bench;
  bench.example.view.drill_index = -1;
  bench.example.view.implant.index = 0;
  bench.example.view.implant.has_bitten = true;
  bench.example.view.implant.torque_limit_nmm = 350.0;
  bench.example.view.hint = session::Hint::kTurningImplant;
  const ui::Model model = bench.model();
  const auto only = [](const std::vector<record::Command>& commands) {
    return commands.size() == 1 ? commands[0] : record::Command{};
  };
  using record::Command;
  using record::Op;
  EXPECT_EQ(only(sent(bench.page.key(model, ImGuiKey_B))), (Command{Op::kMotor, {-25}}));
  EXPECT_EQ(only(sent(bench.page.click(model, "Back out"))), (Command{Op::kMotor, {-25}}));
  EXPECT_EQ(only(sent(bench.page.key(model, ImGuiKey_D))), (Command{Op::kReleaseImplant, {}}));
  EXPECT_EQ(only(sent(bench.page.click(model, "Driver off"))), (Command{Op::kReleaseImplant, {}}));
  EXPECT_EQ(only(sent(bench.page.key(model, ImGuiKey_L))), (Command{Op::kTorqueLimit, {500}}));
  EXPECT_EQ(only(sent(bench.page.click(model, "Motor"))), (Command{Op::kMotor, {25}}));
}

TEST(Implant, TheBenchLineShowsTorqueInNewtonCentimetres) {
  session::SessionView view;
  view.implant.index = 0;
  view.implant.torque_limit_nmm = 350.0;
  view.load.torque_nmm = 163.0;
  view.hint = session::Hint::kTurningImplant;
  EXPECT_EQ(ui::hint_line(view).now, "Torque 16 N·cm, motor limit 35.");
  view.hint = session::Hint::kImplantTight;
  EXPECT_NE(ui::hint_line(view).next.find("back out and widen"), std::string::npos);
}

// 15 and 50 N cm: common teaching values.
TEST(Implant, TheTorqueIsNamedWithWhatItStandsFor) {
  EXPECT_NE(first_sentence(140.0).find("14 N·cm"), std::string::npos);
  EXPECT_NE(first_sentence(140.0).find("low primary stability"), std::string::npos);
  EXPECT_NE(first_sentence(200.0).find("usual primary stability"), std::string::npos);
  EXPECT_NE(first_sentence(510.0).find("too tight"), std::string::npos);
  EXPECT_NE(first_sentence(200.0, 0.1).find("stripped"), std::string::npos);
}

TEST(Implant, TheDebriefMeasuresTheImplantAndNotTheHole) {
  Bench bench;
  bench.example.results.implant = placed(170.0);
  EXPECT_EQ(ui::measured_deviation(bench.example.results)->entry_md_mm, 0.3);
  EXPECT_EQ(ui::measured_depth_error_mm(bench.example.results), -0.2);
  const ui::Model model = bench.example.model(ui::Screen::kDebrief, bench.setup);
  for (int i = 0; i < 3; ++i) {
    static_cast<void>(bench.page.frame(model));
  }
  bool found = false;
  for (const Item& item : bench.page.items()) {
    found = found || item.label.find("Insertion torque 17 N·cm") != std::string::npos;
    EXPECT_EQ(item.label.find("°C"), std::string::npos) << "foam shows no temperature";
  }
  EXPECT_TRUE(found);
}

}  // namespace
}  // namespace driftbench::ui_test
