#include "classroom_ui/picture_view.h"

#include "classroom_ui/picture_style.h"

#include "base/text.h"
#include "ui/language.h"
#include "ui/widgets.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>
#include <vector>

namespace driftbench::classroom_ui {
namespace {

using classroom::Anchor;
using classroom::Picture;
using classroom::Shape;
using ui::color_of;

float single(double value) {
  return static_cast<float>(value);
}

/// From picture units to the screen.
struct Place {
  ImVec2 origin;
  float unit_px = 1.0F;
  std::vector<ui::Rect>& labels;  ///< small words drawn so far

  [[nodiscard]] ImVec2 at(double x, double y) const {
    return {origin.x + single(x) * unit_px, origin.y + single(y) * unit_px};
  }
};

void dashed(ImDrawList& list, std::span<const ImVec2> points, bool is_closed, ImU32 color,
            float width, float dash, float gap) {
  const std::size_t count = points.size();
  float along = 0.0F;  // within the pattern
  for (std::size_t i = 0; i + 1 < count + (is_closed ? 1U : 0U); ++i) {
    const ImVec2 from = points[i];
    const ImVec2 to = points[(i + 1) % count];
    const float length = std::hypot(to.x - from.x, to.y - from.y);
    float at = 0.0F;
    while (at < length) {
      const bool is_ink = along < dash;
      const float step = std::min(length - at, (is_ink ? dash : dash + gap) - along);
      if (is_ink && length > 0.0F) {
        const float a = at / length;
        const float b = (at + step) / length;
        list.AddLine({from.x + a * (to.x - from.x), from.y + a * (to.y - from.y)},
                     {from.x + b * (to.x - from.x), from.y + b * (to.y - from.y)}, color, width);
      }
      at += step;
      along += step;
      along = along >= dash + gap - 1e-3F ? 0.0F : along;
    }
  }
}

void outline(ImDrawList& list, std::vector<ImVec2>& points, bool is_closed, const Paint& paint,
             float unit_px) {
  if (points.size() < 2) {
    return;
  }
  if (paint.fill_alpha > 0.0F && is_closed) {
    list.AddConvexPolyFilled(points.data(), static_cast<int>(points.size()),
                             color_of(paint.fill, paint.fill_alpha));
  }
  if (paint.stroke_alpha <= 0.0F) {
    return;
  }
  const ImU32 color = color_of(paint.stroke, paint.stroke_alpha);
  const float width = std::max(1.0F, paint.width * unit_px);
  if (paint.dash > 0.0F) {
    dashed(list, points, is_closed, color, width, paint.dash * unit_px, paint.gap * unit_px);
  } else {
    list.AddPolyline(points.data(), static_cast<int>(points.size()), color,
                     is_closed ? ImDrawFlags_Closed : 0, width);
  }
}

std::vector<ImVec2> round_points(const Place& place, const Shape& shape, double rx, double ry) {
  const int count = std::clamp(static_cast<int>(std::max(rx, ry) * 0.8) + 12, 12, 96);
  const double turn = shape.angle_deg * std::numbers::pi / 180.0;
  std::vector<ImVec2> points;
  for (int i = 0; i < count; ++i) {
    const double angle = 2.0 * std::numbers::pi * i / count;
    const double x = rx * std::cos(angle);
    const double y = ry * std::sin(angle);
    points.push_back(place.at(shape.x + x * std::cos(turn) - y * std::sin(turn),
                              shape.y + x * std::sin(turn) + y * std::cos(turn)));
  }
  return points;
}

/// The face whose own size is nearest above the wanted one: letters stay sharp.
const ui::Face& face_for(const ui::Canvas& canvas, bool is_strong, float size_px) {
  const ui::Fonts& fonts = canvas.fonts;
  if (size_px > fonts.lead.size_px) {
    return size_px > fonts.heading.size_px ? fonts.title : fonts.heading;
  }
  if (size_px > fonts.body.size_px) {
    return fonts.lead;
  }
  return is_strong ? fonts.strong : fonts.body;
}

bool overlap(const ui::Rect& a, const ui::Rect& b) {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

/// Words of a chart. Of small labels that would lie over one another only the first is drawn; all
/// go to the item tree.
void draw_words(ui::Canvas& canvas, const Place& place, const Shape& shape) {
  constexpr float kUsual = 18.0F;
  constexpr float kSmall = 15.0F;
  constexpr float kLeast_px = 16.0F;
  const bool is_small = shape.style == "small";
  const float size_px =
      std::max(canvas.px(kLeast_px), (is_small ? kSmall : kUsual) * place.unit_px);
  ui::Face face = face_for(canvas, shape.style == "name", size_px);
  face.size_px = size_px;
  const std::string words = ui::in_language(shape.words);
  const float width = ui::text_size(face, words).x;
  ImVec2 at = place.at(shape.x, shape.y);
  at.x -= shape.anchor == Anchor::kStart    ? 0.0F
          : shape.anchor == Anchor::kMiddle ? 0.5F * width
                                            : width;
  constexpr float kAscent = 0.80F;  // the baseline, as a share of the line's height
  at.y -= kAscent * size_px;
  const ui::Rgb ink = shape.style == "faint" ? canvas.colors.muted : canvas.colors.text;
  const ui::Rect box{at.x, at.y, width, size_px};
  const bool is_covered =
      is_small && std::any_of(place.labels.begin(), place.labels.end(),
                              [&box](const ui::Rect& other) { return overlap(box, other); });
  if (!is_covered) {
    ui::draw_text(face, ink, at, words);
    if (is_small) {
      place.labels.push_back(box);
    }
  }
  if (!base::parse_number(shape.words).has_value()) {
    canvas.items.add_text(ui::Role::kText, words, box);
  }
}

void draw_shape(ui::Canvas& canvas, const Place& place, const Shape& shape) {
  ImDrawList& list = *ImGui::GetWindowDrawList();
  Paint paint = paint_of(shape.style, canvas.colors);
  std::vector<ImVec2> points;
  bool is_closed = true;
  switch (shape.kind) {
    case Shape::Kind::kLine:
      points = {place.at(shape.x, shape.y), place.at(shape.a, shape.b)};
      is_closed = false;
      if (shape.style.starts_with("plan")) {
        paint.dash = 0.0F;  // the ring is dashed, the cross-hair is not
      }
      break;
    case Shape::Kind::kCircle:
      points = round_points(place, shape, shape.a, shape.a);
      break;
    case Shape::Kind::kEllipse:
      points = round_points(place, shape, shape.a, shape.b);
      break;
    case Shape::Kind::kRect:
      points = {place.at(shape.x, shape.y), place.at(shape.x + shape.a, shape.y),
                place.at(shape.x + shape.a, shape.y + shape.b),
                place.at(shape.x, shape.y + shape.b)};
      break;
    case Shape::Kind::kPath:
      for (const math::Vec2& point : shape.points) {
        points.push_back(place.at(point.x, point.y));
      }
      is_closed = shape.is_closed;
      break;
    case Shape::Kind::kText:
      draw_words(canvas, place, shape);
      return;
    case Shape::Kind::kBeginClip: {
      const ImVec2 low = place.at(shape.x, shape.y);
      const ImVec2 high = place.at(shape.x + shape.a, shape.y + shape.b);
      ImGui::PushClipRect(low, high, true);
      return;
    }
    case Shape::Kind::kEndClip:
      ImGui::PopClipRect();
      return;
  }
  outline(list, points, is_closed, paint, place.unit_px);
}

}  // namespace

void draw_picture(ui::Canvas& canvas, ImVec2 origin, float unit_px, const Picture& picture) {
  canvas.items.add_text(
      ui::Role::kImage, ui::in_language(picture.title()) + ". " + ui::in_language(picture.words()),
      {origin.x, origin.y, single(picture.width()) * unit_px, single(picture.height()) * unit_px});
  std::vector<ui::Rect> labels;
  const Place place{origin, unit_px, labels};
  for (const Shape& shape : picture.shapes()) {
    draw_shape(canvas, place, shape);
  }
}

}  // namespace driftbench::classroom_ui
