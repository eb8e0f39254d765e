// Text of the widgets: measuring, wrapping, drawing.
#include "ui/widgets.h"

#include <algorithm>
#include <cfloat>

namespace driftbench::ui {

ImU32 color_of(Rgb color, float alpha) {
  return IM_COL32(color.red, color.green, color.blue, static_cast<int>(alpha * 255.0F + 0.5F));
}

namespace {

float line_width(const Face& face, std::string_view line) {
  return face.font
      ->CalcTextSizeA(face.size_px, FLT_MAX, 0.0F, line.data(), line.data() + line.size())
      .x;
}

// Whether a line may end at this space: a figure keeps its unit, as in "0.2 mm".
bool may_break(std::string_view paragraph, std::size_t space) {
  constexpr std::size_t kLongestUnit = 4;  // with a comma or a bracket behind it
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  if (space == 0 || !is_digit(paragraph[space - 1])) {
    return true;
  }
  const std::string_view after = paragraph.substr(space + 1);
  return after.substr(0, kLongestUnit + 1).find(' ') == std::string_view::npos &&
         after.size() > kLongestUnit + 1;
}

std::size_t next_break(std::string_view paragraph, std::size_t from) {
  std::size_t space = paragraph.find(' ', from);
  while (space != std::string_view::npos && !may_break(paragraph, space)) {
    space = paragraph.find(' ', space + 1);
  }
  return space;
}

// Calls each(line) for the lines of a text; breaks at spaces and line ends only, so that a figure
// like 1.0 stays whole.
template <class Each>
void each_line(const Face& face, std::string_view content, float wrap_px, Each each) {
  while (!content.empty()) {
    const std::string_view paragraph = content.substr(0, content.find('\n'));
    std::size_t taken = paragraph.size();
    if (wrap_px > 0.0F && line_width(face, paragraph) > wrap_px) {
      taken = next_break(paragraph, 0);
      std::size_t next = taken;
      while (next != std::string_view::npos &&
             line_width(face, paragraph.substr(0, next)) <= wrap_px) {
        taken = next;
        next = next_break(paragraph, next + 1);
      }
      taken = std::min(taken, paragraph.size());
    }
    each(paragraph.substr(0, taken));
    const bool broken_at_space = taken < paragraph.size();
    const bool has_more = paragraph.size() < content.size();
    content.remove_prefix(taken + (broken_at_space || has_more ? 1 : 0));
  }
}

}  // namespace

ImVec2 text_size(const Face& face, std::string_view text, float wrap_px) {
  ImVec2 size{0.0F, 0.0F};
  each_line(face, text, wrap_px, [&](std::string_view line) {
    size.x = std::max(size.x, line_width(face, line));
    size.y += face.size_px;
  });
  return size;
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

float draw_lines(const Rect& box, const TextStyle& style, std::string_view content) {
  const Face& face = style.face;
  float y = box.y;
  each_line(face, content, box.width, [&](std::string_view line) {
    draw_text(face, style.color, {left_of(box, style.align, line_width(face, line)), y}, line);
    y += face.size_px;
  });
  return y - box.y;
}

}  // namespace

void draw_wrapped(ImDrawList& list, const Face& face, Rgb color, ImVec2 position, float wrap_px,
                  std::string_view content) {
  each_line(face, content, wrap_px, [&](std::string_view line) {
    list.AddText(face.font, face.size_px, position, color_of(color), line.data(),
                 line.data() + line.size());
    position.y += face.size_px;
  });
}

float text(Canvas& canvas, const Rect& box, const TextStyle& style, std::string_view content) {
  if (content.empty()) {
    return 0.0F;
  }
  const float height = draw_lines(box, style, content);
  const float width = text_size(style.face, content, box.width).x;
  canvas.items.add_text(style.role, content,
                        {left_of(box, style.align, width), box.y, width, height},
                        width > box.width + 1.0F);
  return height;
}

void text_middle(Canvas& canvas, const Rect& box, const TextStyle& style,
                 std::string_view content) {
  const ImVec2 size = text_size(style.face, content, box.width);
  text(canvas, {box.x, box.y + 0.5F * (box.height - size.y), box.width, size.y}, style, content);
}

TextStyle body(const Canvas& canvas) {
  return {canvas.fonts.body, canvas.colors.text};
}

TextStyle strong(const Canvas& canvas) {
  return {canvas.fonts.strong, canvas.colors.text};
}

TextStyle caption(const Canvas& canvas) {
  return {canvas.fonts.caption, canvas.colors.muted};
}

TextStyle heading(const Canvas& canvas) {
  return {canvas.fonts.heading, canvas.colors.text, Align::kLeft, Role::kHeading};
}

TextStyle lead(const Canvas& canvas) {
  return {canvas.fonts.lead, canvas.colors.text, Align::kLeft, Role::kHeading};
}

}  // namespace driftbench::ui
