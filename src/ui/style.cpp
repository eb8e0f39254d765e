#include "ui/style.h"

#include "ui/theme.h"
#include "ui/widgets.h"

#include <imgui.h>
#include <imgui_internal.h>

namespace driftbench::ui {

void set_style(Theme theme, float scale) {
  ImGuiStyle style;
  const Palette& c = palette(theme);
  const auto set = [&style](ImGuiCol slot, Rgb color, float alpha = 1.0F) {
    style.Colors[slot] = ImGui::ColorConvertU32ToFloat4(color_of(color, alpha));
  };
  set(ImGuiCol_WindowBg, c.page);
  set(ImGuiCol_ChildBg, c.page, 0.0F);
  set(ImGuiCol_Text, c.text);
  set(ImGuiCol_ScrollbarBg, c.page, 0.0F);
  set(ImGuiCol_ScrollbarGrab, c.outline);
  set(ImGuiCol_ScrollbarGrabHovered, c.accent);
  set(ImGuiCol_ScrollbarGrabActive, c.accent);
  set(ImGuiCol_NavHighlight, c.focus, 0.0F);  // the widgets draw their own ring
  style.WindowPadding = {0.0F, 0.0F};
  style.WindowBorderSize = 0.0F;
  style.ChildBorderSize = 0.0F;
  style.WindowRounding = 0.0F;
  style.ItemSpacing = {0.0F, 0.0F};
  style.DisabledAlpha = 1.0F;
  style.ScrollbarSize = 14.0F * scale;
  style.ScrollbarRounding = 7.0F * scale;
  style.AntiAliasedLines = true;
  style.AntiAliasedFill = true;
  ImGui::GetStyle() = style;
  ImGui::GetIO().ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
  ImGui::GetIO().IniFilename = nullptr;
}

void begin_page() {
  ImGui::SetNextWindowPos({0.0F, 0.0F});
  ImGui::SetNextWindowSize(ImGui::GetIO().DisplaySize);
  ImGui::Begin(kWindowName, nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoBringToFrontOnFocus |
                   ImGuiWindowFlags_NoScrollWithMouse);
}

void focus_item(std::uint32_t item_id) {
  ImGuiWindow* window = ImGui::FindWindowByName(kWindowName);
  if (window != nullptr) {
    ImGui::SetNavWindow(window);
    ImGui::SetNavID(item_id, ImGuiNavLayer_Main, 0, ImRect());
    ImGui::GetCurrentContext()->NavDisableHighlight = false;
  }
}

void forget_gone_focus() {
  ImGuiContext& context = *ImGui::GetCurrentContext();
  if (context.NavId != 0 && !context.NavIdIsAlive) {
    context.NavId = 0;
    context.NavDisableHighlight = true;  // the next Tab goes to the first item
  }
}

}  // namespace driftbench::ui
