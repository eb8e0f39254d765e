#include "ui/unfinished_banner.h"

#include "ui/ask_twice.h"
#include "ui/strings.h"
#include "ui/widgets.h"

namespace driftbench::ui {

float unfinished_banner(Frame& frame, const Rect& at) {
  if (!frame.model.unfinished.has_value()) {
    return 0.0F;
  }
  const Unfinished& open = *frame.model.unfinished;
  const std::string words =
      say(Str::kUnfinished, open.title, open.when, static_cast<int>(open.seconds));
  Button resume{std::string(tr(Str::kResume))};
  resume.kind = ButtonKind::kPrimary;
  Button discard = twice_button(frame, Str::kDiscard, Str::kDeleteReally, open.id);
  discard.id = "discard";
  TextStyle style = body(frame);
  style.role = Role::kStatus;
  const float pad = frame.px(kGap_px);
  const float gap = frame.px(kGapSmall_px);
  const float discard_width = button_width(frame, discard);
  const float resume_width = button_width(frame, resume);
  // Where the words would be squeezed the buttons stand below them.
  const float beside = at.width - 3.0F * pad - resume_width - gap - discard_width;
  const bool is_narrow = beside < frame.px(260.0F);
  const float width = is_narrow ? at.width - 2.0F * pad : beside;
  const float height = frame.px(kButton_px);
  const float words_height = text_size(style.face, words, width).y;
  const float inner_height =
      is_narrow ? words_height + gap + height : std::max(words_height, height);
  const Rect box{at.x, at.y, at.width, inner_height + 2.0F * frame.px(14.0F)};
  card(frame, box);
  ImGui::GetWindowDrawList()->AddRectFilled({box.x, box.y},
                                            {box.x + frame.px(6.0F), box.y + box.height},
                                            color_of(frame.colors.warn), frame.px(3.0F));
  const Rect inner = inset(box, pad, frame.px(14.0F));
  text(frame,
       {inner.x, inner.y + (is_narrow ? 0.0F : 0.5F * (inner_height - words_height)), width,
        words_height},
       style, words);
  const float y = inner.y + (is_narrow ? words_height + gap : 0.5F * (inner_height - height));
  const float x = is_narrow ? inner.x : inner.x + width + pad;
  if (button(frame, {x, y, resume_width, height}, resume)) {
    frame.emit(ResumeUnfinished{});
  }
  const bool pressed = button(frame, {x + resume_width + gap, y, discard_width, height}, discard);
  if (pressed_twice(frame, pressed, open.id)) {
    frame.emit(DiscardUnfinished{});
  }
  return box.height + frame.px(kGap_px);
}

}  // namespace driftbench::ui
