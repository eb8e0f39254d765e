#include "ui/motor_sound.h"

#include "specimen/material.h"
#include "ui/frame.h"
#include "ui/widgets.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::ui {
namespace {

// Power at which the pitch has fallen all the way; own assumption (a small motor of some tens of
// watts).
constexpr double kFullLoad_w = 20.0;

// Own assumptions about what an ear tells apart.
constexpr double kFollow = 0.2;   // share of a change that one frame takes over
constexpr double kDenser = 1.35;  // times as rough
constexpr double kSofter = 0.7;
constexpr double kLeastStep = 0.03;

constexpr float kWidth_px = 150.0F;
constexpr float kHeight_px = 36.0F;
constexpr std::size_t kPoints = 61;

/// A fixed number between -1 and 1 for each point of the wave.
float torn(std::size_t i) {
  return static_cast<float>(static_cast<int>(i * 7919 % 41) - 20) / 20.0F;
}

}  // namespace

MotorSound motor_sound(const session::SessionView& view, const lesson::AttemptSetup& setup) {
  MotorSound sound;
  if (!setup.show.sound || view.phase != session::Phase::kDrilling || view.drill_index < 0) {
    return sound;
  }
  const specimen::Drill& drill = setup.kit.drills[static_cast<std::size_t>(view.drill_index)];
  const double usual_rpm = std::max(drill.speed_rpm, 1.0);
  sound.motor_share = std::clamp(std::abs(view.motor_rpm) / usual_rpm, 0.0, 2.0);
  if (view.load.in_contact) {
    const double densest_g_per_cm3 =
        specimen::foam_grade(specimen::DensityClass::kD1).density_mg_per_cm3 / 1000.0;
    sound.load_share = std::clamp(view.load.power_w / kFullLoad_w, 0.0, 1.0);
    sound.roughness_share = std::clamp(
        view.load.strength_mpa / specimen::foam_strength_mpa(densest_g_per_cm3), 0.0, 1.0);
  }
  return sound;
}

void sound_trace(const Frame& frame, const Rect& look) {
  const MotorSound sound = motor_sound(*frame.model.view, *frame.model.setup);
  if (sound.motor_share <= 0.0) {
    return;
  }
  const Rect plate{look.x + frame.px(12.0F), look.y + look.height - frame.px(64.0F + kHeight_px),
                   std::min(frame.px(kWidth_px), 0.6F * look.width), frame.px(kHeight_px)};
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddRectFilled({plate.x, plate.y}, {plate.x + plate.width, plate.y + plate.height},
                      color_of(kBlack, 0.72F), frame.px(4.0F));
  const auto load = static_cast<float>(sound.load_share);
  const auto rough = load * static_cast<float>(sound.roughness_share);
  const float waves = static_cast<float>(sound.motor_share) * (14.0F - 9.0F * load);
  const float half = 0.5F * plate.height - frame.px(4.0F);
  std::array<ImVec2, kPoints> line{};
  for (std::size_t i = 0; i < kPoints; ++i) {
    const float share = static_cast<float>(i) / static_cast<float>(kPoints - 1);
    const float smooth = 0.4F * std::sin(6.2832F * waves * share);
    line[i] = {plate.x + frame.px(6.0F) + share * (plate.width - frame.px(12.0F)),
               plate.y + 0.5F * plate.height - half * (smooth + 1.5F * rough * torn(i))};
  }
  list->PushClipRect({plate.x, plate.y}, {plate.x + plate.width, plate.y + plate.height}, true);
  list->AddPolyline(line.data(), static_cast<int>(kPoints), color_of(kWhite), 0, frame.px(1.5F));
  list->PopClipRect();
}

std::optional<Str> Listener::hear(const MotorSound& sound) {
  const double heard = sound.roughness_share;
  if (sound.load_share <= 0.0 || heard <= 0.0) {
    told_ = 0.0;
    return std::nullopt;
  }
  if (told_ == 0.0) {
    told_ = now_ = heard;
    return std::nullopt;
  }
  now_ += kFollow * (heard - now_);
  if (now_ > kDenser * told_ + kLeastStep) {
    told_ = now_;
    return Str::kSayDenser;
  }
  if (now_ < kSofter * told_ - kLeastStep) {
    told_ = now_;
    return Str::kSaySofter;
  }
  return std::nullopt;
}

}  // namespace driftbench::ui
