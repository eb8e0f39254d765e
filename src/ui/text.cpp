// Text of the widgets: measuring, wrapping, drawing.
#include "ui/widgets.h"

#include <cfloat>

namespace driftbench::ui {

ImU32 color_of(Rgb color, float alpha) {
  return IM_COL32(color.red, color.green, color.blue, static_cast<int>(alpha * 255.0F + 0.5F));
}

ImVec2 text_size(const Face& face, std::string_view text, float wrap_px) {
  return face.font->CalcTextSizeA(face.size_px, FLT_MAX, wrap_px, text.data(),
                                  text.data() + text.size());
}

void draw_text(const Face& face, Rgb color, ImVec2 position, std::string_view content) {
  ImGui::GetWindowDrawList()->AddText(face.font, face.size_px, position, color_of(color),
                                      content.data(), content.data() + content.size());
}

namespace {

float left_of(const Rect& box, Align align, float width) {
  switch (align) {
    case Align::kLeft:
      return box.x;
    case Align::kCentre:
      return box.x + 0.5F * (box.width - width);
    case Align::kRight:
      return box.x + box.width - width;
  }
  return box.x;
}

// The lines that wrapping gives, so that each can be aligned by itself.
float draw_lines(const Rect& box, const TextStyle& style, std::string_view content) {
  const Face& face = style.face;
  const float font_scale = face.size_px / face.font->FontSize;
  const char* at = content.data();
  const char* end = at + content.size();
  float y = box.y;
  while (at < end) {
    const char* line_end = face.font->CalcWordWrapPositionA(font_scale, at, end, box.width);
    if (line_end == at) {
      line_end = at + 1;  // narrower than one letter
    }
    const char* newline = at;
    while (newline < line_end && *newline != '\n') {
      ++newline;
    }
    line_end = newline;
    const std::string_view line(at, static_cast<std::size_t>(line_end - at));
    draw_text(face, style.color, {left_of(box, style.align, text_size(face, line).x), y}, line);
    y += face.size_px;
    at = line_end;
    while (at < end && (*at == ' ' || *at == '\n')) {
      const bool is_newline = *at == '\n';
      ++at;
      if (is_newline) {
        break;
      }
    }
  }
  return y - box.y;
}

}  // namespace

float text(Frame& frame, const Rect& box, const TextStyle& style, std::string_view content) {
  if (content.empty()) {
    return 0.0F;
  }
  const float height = draw_lines(box, style, content);
  frame.items.add_text(style.role, content, {box.x, box.y, box.width, height});
  return height;
}

void text_middle(Frame& frame, const Rect& box, const TextStyle& style, std::string_view content) {
  const ImVec2 size = text_size(style.face, content, box.width);
  text(frame, {box.x, box.y + 0.5F * (box.height - size.y), box.width, size.y}, style, content);
}

TextStyle body(const Frame& frame) {
  return {frame.fonts.body, frame.colors.text};
}

TextStyle strong(const Frame& frame) {
  return {frame.fonts.strong, frame.colors.text};
}

TextStyle caption(const Frame& frame) {
  return {frame.fonts.caption, frame.colors.muted};
}

TextStyle heading(const Frame& frame) {
  return {frame.fonts.heading, frame.colors.text, Align::kLeft, Role::kHeading};
}

TextStyle lead(const Frame& frame) {
  return {frame.fonts.lead, frame.colors.text, Align::kLeft, Role::kHeading};
}

}  // namespace driftbench::ui
