// One chart of the class under its heading, as large as the room allows, with its caption.
#include "classroom_ui/frame.h"
#include "classroom_ui/picture_view.h"
#include "classroom_ui/scroll.h"
#include "classroom_ui/strings.h"

#include "classroom/views.h"
#include "classroom/words.h"

#include <algorithm>

namespace driftbench::classroom_ui {
namespace {

using classroom::Picture;
using classroom::ViewId;
using ui::Rect;

ViewId view_of(Page page) {
  switch (page) {
    case Page::kBiasMap:
      return ViewId::kBiasMap;
    case Page::kSmallTargets:
      return ViewId::kSmallTargets;
    case Page::kPooledTarget:
      return ViewId::kPooledTarget;
    case Page::kPairs:
      return ViewId::kPairs;
    case Page::kCurves:
      return ViewId::kCurves;
    case Page::kEstimates:
      return ViewId::kEstimates;
    case Page::kHoleSizes:
      return ViewId::kHoleSizes;
    default:
      return ViewId::kGrid;
  }
}

float single(double value) {
  return static_cast<float>(value);
}

/// One picture fills the room; of several each fills the width, and they scroll. Gives the height
/// taken.
float draw_all(Frame& frame, const Rect& room, const std::vector<Picture>& pictures) {
  const float wide = single(pictures.front().width());
  if (pictures.size() == 1) {
    const float high = single(pictures.front().height());
    const float unit = std::min(room.width / wide, room.height / high);
    draw_picture(frame, {room.x + 0.5F * (room.width - unit * wide), room.y}, unit,
                 pictures.front());
    return unit * high;
  }
  Column column(frame, "chart", room);
  constexpr float kLargest = 1.6F;
  const float unit = std::min(column.width() / wide, frame.px(kLargest));
  for (const Picture& picture : pictures) {
    const Rect box = column.cut(unit * single(picture.height()));
    draw_picture(frame, {box.x + 0.5F * (box.width - unit * wide), box.y}, unit, picture);
  }
  return room.height;
}

}  // namespace

void chart_page(Frame& frame, const Rect& page_room) {
  Rect room = page_room;
  const classroom::View& view = classroom::view(view_of(frame.state.page));
  const classroom::Part* part = shown_part(frame);
  const bool is_large = frame.state.is_one_at_a_time;
  ui::TextStyle heading = ui::heading(frame);
  if (is_large) {
    heading.face = frame.fonts.title;
  }
  ui::cut_top(room, ui::text(frame, room, heading, ui::in_language(view.heading)) + frame.px(6.0F));
  if (part == nullptr) {
    ui::text(frame, room, ui::body(frame), tr(Str::kNothingLeft));
    return;
  }
  if (is_large) {
    ui::cut_top(room, ui::text(frame, room, ui::lead(frame),
                               ui::in_language(classroom::result_sentence(*part))) +
                          frame.px(ui::kGapSmall_px));
  }
  State& state = frame.state;
  const std::pair now{state.page, part->source};
  if (state.pictured != now) {
    state.pictures = view.draw(*frame.model.whole, *part);
    state.pictured = now;
  }
  if (state.pictures.empty()) {
    ui::text(frame, room, ui::body(frame),
             ui::in_language(classroom::nothing_sentence(view, *part)));
    return;
  }
  ui::TextStyle caption{is_large ? frame.fonts.body : frame.fonts.caption, frame.colors.muted};
  const float gap = frame.px(ui::kGapSmall_px);
  const std::string words = ui::in_language(view.caption);
  const float height = ui::text_size(caption.face, words, room.width).y;
  Rect picture_room = room;
  ui::cut_bottom(picture_room, height + gap);
  ui::cut_top(room, draw_all(frame, picture_room, state.pictures) + gap);
  ui::text(frame, room, caption, words);
}

}  // namespace driftbench::classroom_ui
