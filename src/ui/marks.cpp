#include "ui/marks.h"

#include <array>
#include <cmath>
#include <numbers>

namespace driftbench::ui {

namespace {

constexpr float kPi = std::numbers::pi_v<float>;

ImVec2 between(ImVec2 from, ImVec2 to, float share) {
  return {from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)};
}

float distance(ImVec2 from, ImVec2 to) {
  return std::sqrt((to.x - from.x) * (to.x - from.x) + (to.y - from.y) * (to.y - from.y));
}

// Calls draw(from, to) for each dash.
template <class Draw>
void each_dash(ImVec2 from, ImVec2 to, float dash_px, Draw draw) {
  const float length = distance(from, to);
  if (!(length > 0.0F)) {
    return;
  }
  for (float at = 0.0F; at < length; at += 2.0F * dash_px) {
    draw(between(from, to, at / length),
         between(from, to, std::min(1.0F, (at + dash_px) / length)));
  }
}

void diamond(ImDrawList* list, ImVec2 at, float radius, ImU32 color) {
  const std::array points{ImVec2{at.x, at.y - radius}, ImVec2{at.x + radius, at.y},
                          ImVec2{at.x, at.y + radius}, ImVec2{at.x - radius, at.y}};
  list->AddConvexPolyFilled(points.data(), static_cast<int>(points.size()), color);
}

}  // namespace

Rgb mark_color(specimen::Approach approach) {
  return approach == specimen::Approach::kFreehand ? kFreehandMark : kSleeveMark;
}

void hole_mark(const Frame& frame, ImVec2 at, specimen::Approach approach, float radius_px,
               bool is_current) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float r = frame.px(is_current ? radius_px : radius_px * 0.8F);
  const ImU32 core = color_of(mark_color(approach), is_current ? 1.0F : 0.8F);
  const float edge = frame.px(1.5F);
  if (approach == specimen::Approach::kFreehand) {
    list->AddCircleFilled(at, r + 2.0F * edge, color_of(kBlack));
    list->AddCircleFilled(at, r + edge, color_of(kWhite));
    list->AddCircleFilled(at, r, core);
  } else {
    const float longer = 1.25F * r;
    diamond(list, at, longer + 3.0F * edge, color_of(kBlack));
    diamond(list, at, longer + 1.6F * edge, color_of(kWhite));
    diamond(list, at, longer, core);
  }
}

void estimate_mark(const Frame& frame, ImVec2 at, float radius_px) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float r = frame.px(radius_px);
  list->AddRect({at.x - r, at.y - r}, {at.x + r, at.y + r}, color_of(kBlack), 0.0F, 0,
                frame.px(5.0F));
  list->AddRect({at.x - r, at.y - r}, {at.x + r, at.y + r}, color_of(kWhite), 0.0F, 0,
                frame.px(2.5F));
}

void dashes(const Frame& frame, ImVec2 from, ImVec2 to, Rgb color, float width_px) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  each_dash(from, to, frame.px(6.0F),
            [&](ImVec2 a, ImVec2 b) { list->AddLine(a, b, color_of(color), frame.px(width_px)); });
}

void dashed_circle(const Frame& frame, ImVec2 centre, float radius, Rgb color, float width_px) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const int count = std::max(8, static_cast<int>(2.0F * kPi * radius / frame.px(10.0F)));
  for (int i = 0; i < count; ++i) {
    const float start = 2.0F * kPi * static_cast<float>(i) / static_cast<float>(count);
    const float end = start + 1.1F * kPi / static_cast<float>(count);
    list->PathArcTo(centre, radius, start, end, 6);
    list->PathStroke(color_of(color), ImDrawFlags_None, frame.px(width_px));
  }
}

void plan_mark(const Frame& frame, ImVec2 at, float radius_px) {
  const float r = frame.px(radius_px);
  dashed_circle(frame, at, r, kBlack, 4.5F);
  dashed_circle(frame, at, r, kWhite, 2.0F);
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float reach = r + frame.px(5.0F);
  const auto cross = [&](Rgb color, float width) {
    list->AddLine({at.x - reach, at.y}, {at.x + reach, at.y}, color_of(color), frame.px(width));
    list->AddLine({at.x, at.y - reach}, {at.x, at.y + reach}, color_of(color), frame.px(width));
  };
  cross(kBlack, 4.0F);
  cross(kWhite, 1.5F);
}

void cased_dashes(const Frame& frame, ImVec2 from, ImVec2 to, float dash_px) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  each_dash(from, to, frame.px(dash_px),
            [&](ImVec2 a, ImVec2 b) { list->AddLine(a, b, color_of(kBlack), frame.px(4.5F)); });
  each_dash(from, to, frame.px(dash_px),
            [&](ImVec2 a, ImVec2 b) { list->AddLine(a, b, color_of(kWhite), frame.px(2.0F)); });
}

void cased_line(const Frame& frame, ImVec2 from, ImVec2 to, Rgb core) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  list->AddLine(from, to, color_of(kBlack), frame.px(6.5F));
  list->AddLine(from, to, color_of(kWhite), frame.px(4.5F));
  list->AddLine(from, to, color_of(core), frame.px(2.5F));
}

void turned_text(const Face& face, Rgb color, ImVec2 centre, std::string_view content,
                 bool upward) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const ImVec2 size = text_size(face, content);
  const int first = list->VtxBuffer.Size;
  // Drawn where nothing of it is cut off, then turned and put in its place.
  const ImVec2 corner = list->GetClipRectMin();
  draw_text(face, color, corner, content);
  for (int i = first; i < list->VtxBuffer.Size; ++i) {
    ImVec2& p = list->VtxBuffer[i].pos;
    const float dx = p.x - corner.x - 0.5F * size.x;
    const float dy = p.y - corner.y - 0.5F * size.y;
    p = upward ? ImVec2{centre.x + dy, centre.y - dx} : ImVec2{centre.x - dy, centre.y + dx};
  }
}

void plate_text(const Frame& frame, ImVec2 at, std::string_view content, Align align,
                float wrap_px) {
  const Face& face = frame.fonts.caption;
  const ImVec2 size = text_size(face, content, wrap_px);
  const float pad = frame.px(6.0F);
  float x = at.x;
  if (align == Align::kCentre) {
    x -= 0.5F * size.x;
  } else if (align == Align::kRight) {
    x -= size.x;
  }
  ImGui::GetWindowDrawList()->AddRectFilled({x - pad, at.y}, {x + size.x + pad, at.y + size.y},
                                            color_of(kBlack, 0.72F), frame.px(4.0F));
  draw_wrapped(*ImGui::GetWindowDrawList(), face, kWhite, {x, at.y}, wrap_px, content);
}

}  // namespace driftbench::ui
