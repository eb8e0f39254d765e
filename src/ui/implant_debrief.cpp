#include "ui/implant_debrief.h"

#include "base/text.h"
#include "lesson/instruments.h"
#include "scoring/implant.h"
#include "ui/hint_words.h"
#include "ui/marks.h"
#include "ui/strings.h"
#include "ui/widgets.h"

#include <algorithm>
#include <array>

namespace driftbench::ui {

namespace {

constexpr float kChart_px = 96.0F;
constexpr double kUsualLimit_nmm = session::kUsualTorqueLimit_nmm;
constexpr std::array kLines_nmm{scoring::kLowTorque_nmm, kUsualLimit_nmm,
                                scoring::kTightTorque_nmm};

Str stability_words(const scoring::ImplantMeasures& implant) {
  constexpr double kStripped_frac = 0.2;
  if (implant.grip_frac < kStripped_frac) {
    return Str::kStripped;
  }
  switch (scoring::stability_of(implant.final_torque_nmm)) {
    case scoring::Stability::kLow:
      return Str::kLowStability;
    case scoring::Stability::kTight:
      return Str::kTightStability;
    case scoring::Stability::kUsual:
      break;
  }
  return Str::kUsualStability;
}

// Torque over how deep the platform was, left to right as it went in.
void torque_chart(Frame& frame, const Rect& box) {
  const auto samples = frame.model.view->implant.samples;
  const specimen::Implant* implant = lesson::implant_of(*frame.model.setup);
  if (samples.empty() || implant == nullptr) {
    return;
  }
  Rect plot = box;
  cut_left(plot, frame.px(34.0F));
  cut_bottom(plot, frame.px(6.0F));
  cut_top(plot, frame.px(6.0F));
  double top_nmm = kUsualLimit_nmm;
  for (const drilling::LoadSample& sample : samples) {
    top_nmm = std::max(top_nmm, 1.05 * sample.torque_nmm);
  }
  const specimen::Plan& plan = frame.model.setup->plan;
  const double length_mm = implant->length_mm;
  const auto point = [&](double depth_mm, double torque_nmm) {
    const double x = std::clamp(depth_mm / length_mm + 1.0, 0.0, 1.0);
    return ImVec2{plot.x + plot.width * static_cast<float>(x),
                  plot.y + plot.height * static_cast<float>(1.0 - torque_nmm / top_nmm)};
  };
  ScreenItem about;
  about.role = Role::kImage;
  about.value = say(Str::kTorqueChartValue, torque_ncm(top_nmm));
  const Touch touch = item(frame, plot, tr(Str::kTorqueChart), about);
  ImDrawList* list = ImGui::GetWindowDrawList();
  for (const double line_nmm : kLines_nmm) {
    if (line_nmm <= top_nmm) {
      const ImVec2 at = point(-length_mm, line_nmm);
      list->AddLine(at, {plot.x + plot.width, at.y}, color_of(frame.colors.line), frame.px(1.0F));
      const std::string label = torque_ncm(line_nmm);
      const ImVec2 size = text_size(frame.fonts.caption, label);
      draw_text(frame.fonts.caption, frame.colors.muted,
                {at.x - size.x - frame.px(6.0F), at.y - 0.5F * size.y}, label);
    }
  }
  std::vector<ImVec2> curve;
  for (const drilling::LoadSample& sample : samples) {
    const math::Vec3 platform = sample.pose.tip_mm + length_mm * sample.pose.axis_out_unit;
    curve.push_back(
        point(math::dot(plan.entry_mm - platform, plan.axis_out_unit), sample.torque_nmm));
  }
  list->AddPolyline(curve.data(), static_cast<int>(curve.size()), color_of(frame.colors.press),
                    ImDrawFlags_None, frame.px(2.0F));
  if (touch.focused) {
    focus_ring(frame, plot, kRadiusSmall_px);
  }
  tooltip(frame, touch, tr(Str::kTorqueChartHelp));
}

}  // namespace

const scoring::Deviation* measured_deviation(const scoring::Results& results) {
  if (results.implant) {
    return &results.implant->deviation;
  }
  return results.hole ? &results.hole->deviation : nullptr;
}

double measured_depth_error_mm(const scoring::Results& results) {
  return results.implant ? results.implant->depth_error_mm : results.hole->depth_error_mm;
}

std::vector<std::string> load_sentences(const scoring::Results& results) {
  std::vector<std::string> sentences;
  if (results.implant) {
    const scoring::ImplantMeasures& implant = *results.implant;
    sentences.push_back(say(Str::kInsertionTorque, torque_ncm(implant.final_torque_nmm),
                            torque_ncm(implant.peak_torque_nmm), tr(stability_words(implant))));
    sentences.push_back(say(Str::kImplantSide, base::fixed(implant.peak_side_n, 1)));
  } else if (!results.no_implant_reason.empty()) {
    sentences.push_back(in_language(results.no_implant_reason));
  }
  if (results.process.peak_side_n > 0.0) {
    sentences.push_back(say(Str::kDrillSide, base::fixed(results.process.peak_side_n, 1)));
  }
  if (results.process.peak_torque_nmm.value_or(0.0) > 0.0) {
    sentences.push_back(say(Str::kDrillTorque, torque_ncm(*results.process.peak_torque_nmm, 1)));
  }
  return sentences;
}

float loads(Frame& frame, const Rect& at) {
  const std::vector<std::string> sentences = load_sentences(*frame.model.results);
  if (sentences.empty()) {  // nothing was cut
    return 0.0F;
  }
  Rect rest = at;
  text(frame, cut_top(rest, frame.px(26.0F)), strong(frame), tr(Str::kLoads));
  for (const std::string& sentence : sentences) {
    cut_top(rest, text(frame, rest, body(frame), sentence) + frame.px(5.0F));
  }
  if (frame.model.results->implant && frame.model.view != nullptr &&
      !frame.model.view->implant.samples.empty()) {
    text(frame, cut_top(rest, frame.px(20.0F)), caption(frame), tr(Str::kTorqueChart));
    torque_chart(frame, cut_top(rest, frame.px(kChart_px)));
  }
  return rest.y - at.y;
}

}  // namespace driftbench::ui
