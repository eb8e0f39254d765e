#include "ui/fonts.h"

#include "embedded/fonts.h"

#include "base/contract.h"
#include "ui/theme.h"

#include <string_view>

namespace driftbench::ui {

namespace {

// Ranges live as long as the atlas.
constexpr ImWchar kAllText[] = {0x20, 0x17F, 0x391, 0x3C9, 0x2010, 0x22FF, 0};
constexpr ImWchar kLatin[] = {0x20, 0xFF, 0x2010, 0x2026, 0};
constexpr ImWchar kSymbols[] = {0x2190, 0x21FF, 0x2300, 0x2300, 0x25A0, 0x27BF, 0};

ImFont* add(std::string_view file, float size_px, const ImWchar* ranges, bool merge) {
  const std::string_view bytes = embedded::fonts(file);
  DRIFTBENCH_EXPECTS(bytes.data() != nullptr);
  ImFontConfig config;
  config.FontDataOwnedByAtlas = false;
  config.MergeMode = merge;
  config.OversampleH = 2;
  config.OversampleV = 1;
  config.GlyphRanges = ranges;
  // The atlas takes a non-const pointer but only reads.
  auto* data = const_cast<char*>(bytes.data());
  return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(data, static_cast<int>(bytes.size()), size_px,
                                                    &config);
}

Face face(std::string_view file, float size_px, const ImWchar* ranges, float pixel_ratio) {
  ImFont* font = add(file, size_px * pixel_ratio, ranges, false);
  add("symbols.ttf", size_px * pixel_ratio * 0.92F, kSymbols, true);
  return {font, size_px};
}

}  // namespace

Fonts build_fonts(float scale, float pixel_ratio) {
  ImGuiIO& io = ImGui::GetIO();
  io.Fonts->Clear();
  io.Fonts->Flags |= ImFontAtlasFlags_NoMouseCursors;
  Fonts fonts;
  fonts.body = face("text_regular.ttf", kBody_px * scale, kAllText, pixel_ratio);
  fonts.strong = face("text_semibold.ttf", kBody_px * scale, kAllText, pixel_ratio);
  fonts.caption = face("text_regular.ttf", kCaption_px * scale, kAllText, pixel_ratio);
  fonts.caption_strong = face("text_semibold.ttf", kCaption_px * scale, kLatin, pixel_ratio);
  fonts.lead = face("text_semibold.ttf", kLead_px * scale, kLatin, pixel_ratio);
  fonts.heading = face("text_semibold.ttf", kHeading_px * scale, kLatin, pixel_ratio);
  fonts.title = face("text_semibold.ttf", kTitle_px * scale, kLatin, pixel_ratio);
  io.Fonts->Build();
  io.FontGlobalScale = 1.0F / pixel_ratio;
  return fonts;
}

}  // namespace driftbench::ui
