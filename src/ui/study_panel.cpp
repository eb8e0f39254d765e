#include "ui/study_panel.h"

#include "specimen/tooth_number.h"
#include "ui/crown.h"
#include "ui/panels.h"
#include "ui/strings.h"
#include "ui/study_guide.h"
#include "ui/study_rows.h"
#include "ui/study_words.h"
#include "ui/words.h"

#include <array>
#include <cmath>
#include <utility>

namespace driftbench::ui {
namespace {

void title(Frame& frame, Rect& column, Str words) {
  cut_top(column, frame.px(10.0F));
  text(frame, cut_top(column, frame.px(26.0F)), lead(frame), tr(words));
}

void paragraph(Frame& frame, Rect& column, const TextStyle& style, std::string_view words) {
  cut_top(column, text(frame, column, style, words) + frame.px(6.0F));
}

void shown_tab(Frame& frame, Rect& column, bool has_windows) {
  StudyState& state = frame.state.study;
  const lesson::SpecimenCase& shown = *frame.model.study->specimen;
  paragraph(frame, column, body(frame), in_language(shown.story));
  title(frame, column, Str::kSections);
  if (has_windows) {
    Rows rows(column, frame.px(kButtonSmall_px), 0.0F, 0.0F);
    window_choices(frame, rows);
    cut_top(column, frame.px(4.0F));
  }
  switch_row(frame, column, Str::kTissueColours, Str::kTissueColoursHelp, state.tissue_colours);
  switch_row(frame, column, Str::kSingleVoxels, Str::kSingleVoxelsHelp, state.single_voxels);
  state.cross.turn_deg = std::remainder(
      state.cross.turn_deg + number_row(frame, column, Str::kTurnViews,
                                        say(Str::kDegrees, amount(state.cross.turn_deg, 0)),
                                        Str::kTurnViewsHelp, {5.0, 1.0}),
      360.0);
  switch_row(frame, column, Str::kShowCrown, Str::kShowCrownHelp, state.show_crown);
  title(frame, column, Str::kStudyLook);
  switch_row(frame, column, Str::kShowGum, Str::kShowGumHelp, state.show_gum);
  switch_row(frame, column, Str::kCutOpen, Str::kCutOpenHelp, state.cut);
  switch_row(frame, column, Str::kClearBone, Str::kClearBoneHelp, state.clear);
  cut_top(column, frame.px(10.0F));
  if (!frame.model.touch) {
    paragraph(frame, column, caption(frame), tr(Str::kStudyKeys));
  }
}

// Signed values shown with a word for their side.
std::string sided(double value, Str unit, Str plus, Str minus) {
  const std::string number = say(unit, amount(std::abs(value), 1));
  return std::abs(value) < 0.05 ? number : say(Str::kSided, number, tr(value > 0.0 ? plus : minus));
}

void plan_numbers(Frame& frame, Rect& column) {
  const StudyView& study = *frame.model.study;
  const lesson::CasePlan& plan = study.plan->now();
  lesson::CasePlan next = plan;
  const int fdi = study.specimen->jaw.site_fdi;
  const Str lingual = specimen::is_upper(fdi) ? Str::kSidePalatal : Str::kSideLingual;
  const Str facial = specimen::position_of(fdi) <= 3 ? Str::kSideFacial : Str::kSideBuccal;
  const auto row = [&](Str name, std::string value, Str help, double step, double fine) {
    return number_row(frame, column, name, std::move(value), help, {step, fine});
  };
  next.diameter_mm += row(Str::kPlanDiameter, say(Str::kMm, amount(plan.diameter_mm, 1)),
                          Str::kPlanDiameterHelp, 0.5, 0.1);
  next.length_mm += row(Str::kPlanLength, say(Str::kMm, amount(plan.length_mm, 1)),
                        Str::kPlanLengthHelp, 1.0, 0.5);
  next.entry_mm.z -=
      row(Str::kPlanPlatform, sided(-plan.entry_mm.z, Str::kMm, Str::kSideBelow, Str::kSideAbove),
          Str::kPlanPlatformHelp, 0.5, 0.1);
  next.entry_mm.x +=
      row(Str::kPlanMd, sided(plan.entry_mm.x, Str::kMm, Str::kSideDistal, Str::kSideMesial),
          Str::kPlanMdHelp, 0.5, 0.1);
  next.entry_mm.y += row(Str::kPlanBl, sided(plan.entry_mm.y, Str::kMm, lingual, facial),
                         Str::kPlanBlHelp, 0.5, 0.1);
  next.lean_md_deg += row(
      Str::kPlanLeanMd, sided(plan.lean_md_deg, Str::kDegrees, Str::kSideDistal, Str::kSideMesial),
      Str::kPlanLeanHelp, 1.0, 0.2);
  next.lean_bl_deg += row(Str::kPlanLeanBl, sided(plan.lean_bl_deg, Str::kDegrees, lingual, facial),
                          Str::kPlanLeanHelp, 1.0, 0.2);
  if (!(next == plan)) {
    frame.emit(EditPlan{next, 0});
  }
}

bool plan_buttons(Frame& frame, Rect& column) {
  const StudyView& study = *frame.model.study;
  const ImGuiIO& io = ImGui::GetIO();
  cut_top(column, frame.px(8.0F));
  Rows rows(column, frame.px(kButtonSmall_px), frame.px(6.0F), frame.px(6.0F));
  const auto place = [&](const Button& spec) {
    return button(frame, rows.next(button_width(frame, spec)), spec);
  };
  Button undo{std::string(tr(Str::kUndo))};
  undo.enabled = study.plan->can_undo();
  undo.description = tr(Str::kUndoHelp);
  Button redo{std::string(tr(Str::kRedo))};
  redo.enabled = study.plan->can_redo();
  redo.description = tr(Str::kRedoHelp);
  const bool z = (io.KeyCtrl || io.KeySuper) && ImGui::IsKeyPressed(ImGuiKey_Z, false);
  const bool y = (io.KeyCtrl || io.KeySuper) && ImGui::IsKeyPressed(ImGuiKey_Y, false);
  if (place(undo) || (z && !io.KeyShift)) {
    frame.emit(StepPlan{false});
  }
  if (place(redo) || y || (z && io.KeyShift)) {
    frame.emit(StepPlan{true});
  }
  Button save{std::string(tr(Str::kSavePlan))};
  save.description = tr(Str::kSavePlanHelp);
  if (place(save)) {
    frame.emit(SavePlan{});
  }
  Button lesson{std::string(tr(Str::kSaveLesson))};
  lesson.description = tr(Str::kSaveLessonHelp);
  if (place(lesson)) {
    frame.emit(SavePlan{true});
  }
  Button along{std::string(tr(Str::kAlongImplant))};
  along.description = tr(Str::kAlongImplantHelp);
  return place(along);
}

// A sign and words say whether a margin is kept, not the colour alone.
void clearance_rows(Frame& frame, Rect& column) {
  const lesson::PlanReview& review = *frame.model.study->review;
  const int site_fdi = frame.model.study->specimen->jaw.site_fdi;
  title(frame, column, Str::kClearances);
  if (review.problem.has_value()) {
    TextStyle style = body(frame);
    style.color = frame.colors.danger;
    style.role = Role::kStatus;
    paragraph(frame, column, style, *review.problem);
  }
  for (const lesson::PlanClearance& row : review.clearances) {
    const Rect box = cut_top(column, frame.px(42.0F));
    const std::string name = structure_words(row.structure, site_fdi);
    ScreenItem about;
    about.role = Role::kText;
    about.label = name;
    about.value = say(Str::kClearanceBoth, clearance_amount(row.implant_mm),
                      clearance_amount(row.drill_mm), clearance_verdict(row));
    about.description = margin_source(row.structure);
    const Touch touch = item(frame, box, name, about);
    const Rgb tone = row.is_kept() ? frame.colors.good : frame.colors.warn;
    draw_text(frame.fonts.strong, tone, {box.x, box.y}, row.is_kept() ? "\u2713" : "\u26A0");
    const float indent = frame.px(24.0F);
    draw_text(frame.fonts.body, frame.colors.text, {box.x + indent, box.y}, name);
    const std::string least = clearance_amount(row.least_mm());
    draw_text(frame.fonts.strong, tone,
              {box.x + box.width - text_size(frame.fonts.strong, least).x, box.y}, least);
    draw_text(frame.fonts.caption, frame.colors.muted, {box.x + indent, box.y + frame.px(20.0F)},
              say(row.worse.body == 1 ? Str::kByDrill : Str::kByImplant, clearance_verdict(row)));
    if (touch.focused) {
      focus_ring(frame, box, kRadiusSmall_px);
    }
    tooltip(frame, touch, about.description);
  }
  paragraph(frame, column, caption(frame),
            say(Str::kBoneBelow, amount(review.bone_mm, 1), review.bone_ends_at));
}

// How the plan suits the crown, in words.
void crown_words(Frame& frame, Rect& column) {
  const StudyView& study = *frame.model.study;
  const lesson::CasePlan& plan = study.plan->now();
  const int fdi = study.specimen->jaw.site_fdi;
  const GhostCrown crown = ghost_crown(*study.specimen);
  const math::Vec3 exit = screw_exit_mm(crown, plan);
  title(frame, column, Str::kCrownTitle);
  paragraph(frame, column, body(frame),
            say(Str::kBelowMargin, amount(below_margin_mm(crown, plan), 1)));
  const Str lingual = specimen::is_upper(fdi) ? Str::kPalatally : Str::kLingually;
  const Str facial = specimen::position_of(fdi) <= 3 ? Str::kFacially : Str::kBuccally;
  paragraph(frame, column, body(frame),
            say(Str::kScrewExit, amount(std::abs(exit.y), 1), tr(exit.y > 0.0 ? lingual : facial),
                amount(std::abs(exit.x), 1), tr(exit.x > 0.0 ? Str::kDistally : Str::kMesially)));
}

void density_bars(Frame& frame, Rect& column, const lesson::DensityAlong& along) {
  constexpr double kFull = 2000.0;
  const Rect box = cut_top(column, frame.px(64.0F));
  cut_top(column, frame.px(4.0F));
  fill(frame, box, frame.colors.raised, kRadiusSmall_px);
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float width = box.width / static_cast<float>(along.mg_per_cm3.size());
  for (std::size_t i = 0; i < along.mg_per_cm3.size(); ++i) {
    const auto share = static_cast<float>(std::min(along.mg_per_cm3[i] / kFull, 1.0));
    const float x = box.x + static_cast<float>(i) * width;
    list->AddRectFilled({x + 1.0F, box.y + box.height * (1.0F - share)},
                        {x + width - 1.0F, box.y + box.height}, color_of(frame.colors.steel));
  }
}

void steps_and_density(Frame& frame, Rect& column) {
  const StudyView& study = *frame.model.study;
  const lesson::DensityAlong& along = *study.density;
  title(frame, column, Str::kDensityTitle);
  density_bars(frame, column, along);
  paragraph(
      frame, column, caption(frame),
      say(Str::kDensityWords, amount(along.mean, 0), static_cast<int>(along.density_class) + 1));
  title(frame, column, Str::kStepsTitle);
  std::string chain;
  for (const lesson::DrillStep& step : *study.steps) {
    chain += (chain.empty() ? "" : " \u2192 ") + amount(step.drill->diameter_mm, 1);
  }
  if (study.steps->empty()) {
    paragraph(frame, column, body(frame), tr(Str::kNoDrill));
    return;
  }
  const lesson::DrillStep& last = study.steps->back();
  paragraph(
      frame, column, body(frame),
      say(Str::kStepsWords, chain, amount(last.depth_mm, 1), amount(last.drill->tip_length_mm, 1)));
  const Str note = along.density_class == specimen::DensityClass::kD1   ? Str::kStepsDense
                   : along.density_class == specimen::DensityClass::kD4 ? Str::kStepsSoft
                                                                        : Str::kStepsMiddle;
  paragraph(frame, column, caption(frame), tr(note));
}

}  // namespace

bool study_panel(Frame& frame, const Rect& box, bool has_windows) {
  constexpr float kWidest_px = 540.0F;
  StudyState& state = frame.state.study;
  card(frame, box);
  Rect inner = inset(box, frame.px(14.0F), frame.px(12.0F));
  Rect tabs = cut_top(inner, frame.px(kButtonSmall_px));
  constexpr std::array kTabs{Str::kTabStudy, Str::kTabPlan, Str::kTabGuide};
  const float gap = frame.px(6.0F);
  const float width = (tabs.width - 2.0F * gap) / 3.0F;
  for (std::size_t i = 0; i < kTabs.size(); ++i) {
    const auto tab = static_cast<StudyTab>(i);
    if (choice(frame, cut_left(tabs, width), tr(kTabs[i]), state.tab == tab, "tab")) {
      state.tab = tab;
    }
    cut_left(tabs, gap);
  }
  cut_top(inner, frame.px(8.0F));
  bool looks_along = false;
  const Rect room = centred_column(inner, frame.px(kWidest_px));
  ImGui::SetCursorScreenPos({inner.x, inner.y});
  constexpr std::array kScrolls{"study", "plan", "guide"};  // each keeps its own place
  begin_scroll(kScrolls[static_cast<std::size_t>(state.tab)],
               {inner.width + frame.px(10.0F), inner.height});
  const ImVec2 start = ImGui::GetCursorScreenPos();
  Rect column{room.x + frame.px(3.0F), start.y + frame.px(3.0F), room.width - frame.px(12.0F),
              100000.0F};
  if (state.tab == StudyTab::kGuide) {
    guide_choices(frame, column);
    looks_along = plan_buttons(frame, column);
    guide_findings(frame, column);
  } else if (state.tab == StudyTab::kPlan) {
    plan_numbers(frame, column);
    looks_along = plan_buttons(frame, column);
    clearance_rows(frame, column);
    crown_words(frame, column);
    steps_and_density(frame, column);
  } else {
    shown_tab(frame, column, has_windows);
  }
  ImGui::SetCursorScreenPos(start);
  ImGui::Dummy({1.0F, column.y - start.y + frame.px(8.0F)});
  end_scroll(frame, frame.colors.surface);
  return looks_along;
}

}  // namespace driftbench::ui
