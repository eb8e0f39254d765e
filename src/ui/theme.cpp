#include "ui/theme.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace driftbench::ui {

namespace {

constexpr Rgb hex(std::uint32_t rgb) {
  return {static_cast<std::uint8_t>(rgb >> 16U), static_cast<std::uint8_t>((rgb >> 8U) & 0xFFU),
          static_cast<std::uint8_t>(rgb & 0xFFU)};
}

constexpr Palette kDark{
    .page = hex(0x0F161C),
    .surface = hex(0x18222B),
    .raised = hex(0x243440),
    .line = hex(0x31424F),
    .outline = hex(0x738A9C),
    .text = hex(0xF1F5F8),
    .muted = hex(0xB7C5D0),
    .accent = hex(0x6CCFC6),
    .on_accent = hex(0x06211F),
    .accent_hover = hex(0x8FE0D8),
    .raised_hover = hex(0x30444F),
    .focus = hex(0xFFD75E),
    .danger = hex(0xFFA59B),
    .good = hex(0x8FE3A8),
    .warn = hex(0xFFC46B),
    .ink = hex(0xFFFFFF),
    .press = hex(0x8FD0FF),
    .depth = hex(0xF1F5F8),
    .side = hex(0xFF9FBE),
    .steel = hex(0xC3CFD8),
    .steel_dark = hex(0x71828F),
};

constexpr Palette kLight{
    .page = hex(0xEFF3F5),
    .surface = hex(0xFFFFFF),
    .raised = hex(0xE3EAEE),
    .line = hex(0xC9D4DB),
    .outline = hex(0x5E707D),
    .text = hex(0x10181E),
    .muted = hex(0x43525D),
    .accent = hex(0x0A6464),
    .on_accent = hex(0xFFFFFF),
    .accent_hover = hex(0x0C7A7A),
    .raised_hover = hex(0xD3DEE4),
    .focus = hex(0x0A3FCC),
    .danger = hex(0xA31E18),
    .good = hex(0x17613A),
    .warn = hex(0x8A4B00),
    .ink = hex(0x000000),
    .press = hex(0x00568F),
    .depth = hex(0x10181E),
    .side = hex(0xA3195B),
    .steel = hex(0x8496A3),
    .steel_dark = hex(0x4B5A66),
};

// Black on white and full colours: a beamer in a lit room leaves little of anything between.
constexpr Palette kProjector{
    .page = hex(0xFFFFFF),
    .surface = hex(0xFFFFFF),
    .raised = hex(0xEEF2F4),
    .line = hex(0x8A979F),
    .outline = hex(0x2B363D),
    .text = hex(0x000000),
    .muted = hex(0x26323A),
    .accent = hex(0x004848),
    .on_accent = hex(0xFFFFFF),
    .accent_hover = hex(0x006060),
    .raised_hover = hex(0xDCE5EA),
    .focus = hex(0x0030B0),
    .danger = hex(0x8C0000),
    .good = hex(0x004D22),
    .warn = hex(0x6B3800),
    .ink = hex(0x000000),
    .press = hex(0x00457A),
    .depth = hex(0x000000),
    .side = hex(0x8A0048),
    .steel = hex(0x6F808C),
    .steel_dark = hex(0x2E3A44),
};

constexpr std::array kThemes{Theme::kDark, Theme::kLight, Theme::kProjector};
constexpr std::array<std::string_view, kThemes.size()> kCodes{"dark", "light", "projector"};
constexpr float kProjectorScale = 1.15F;

double linear(std::uint8_t channel) {
  const double value = channel / 255.0;
  return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

double luminance(Rgb color) {
  return 0.2126 * linear(color.red) + 0.7152 * linear(color.green) + 0.0722 * linear(color.blue);
}

}  // namespace

const Palette& palette(Theme theme) {
  return theme == Theme::kDark ? kDark : theme == Theme::kLight ? kLight : kProjector;
}

float scale_of(Theme theme) {
  return theme == Theme::kProjector ? kProjectorScale : 1.0F;
}

std::string_view code_of(Theme theme) {
  return kCodes[static_cast<std::size_t>(theme)];
}

std::optional<Theme> theme_of(std::string_view code) {
  for (const Theme theme : kThemes) {
    if (code_of(theme) == code) {
      return theme;
    }
  }
  return std::nullopt;
}

Theme next_theme(Theme theme) {
  return kThemes[(static_cast<std::size_t>(theme) + 1) % kThemes.size()];
}

double contrast(Rgb a, Rgb b) {
  const double first = luminance(a);
  const double second = luminance(b);
  return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

}  // namespace driftbench::ui
