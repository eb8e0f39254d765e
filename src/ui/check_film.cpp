#include "ui/check_film.h"

#include "specimen/specimen.h"
#include "ui/panels.h"
#include "ui/strings.h"

#include <algorithm>

namespace driftbench::ui {
namespace {

// An intraoral film of the usual size. Source: ISO 3665, size 2, from memory.
constexpr float kFilmLong_mm = 41.0F;
constexpr float kFilmShort_mm = 31.0F;

}  // namespace

bool can_take_film(const Frame& frame) {
  return frame.model.view->pin.has_value() &&
         specimen::jaw_in(frame.model.setup->specimen) != nullptr;
}

void film_button(Frame& frame, Rect& bar) {
  bool& is_on = frame.state.bench.film;
  if (!can_take_film(frame)) {
    is_on = false;
    return;
  }
  Button film{std::string(tr(is_on ? Str::kFilmAway : Str::kFilm)), "F"};
  film.description = tr(Str::kFilmHelp);
  film.id = "film";
  if (bar_button(frame, bar, film) || key_hit(ImGuiKey_F)) {
    is_on = !is_on;
  }
}

void check_film(Frame& frame, const Rect& side) {
  if (!frame.state.bench.film || !can_take_film(frame)) {
    return;
  }
  card(frame, side);
  Rect inner = inset(side, frame.px(kGap_px));
  cut_top(inner, text(frame, inner, strong(frame), tr(Str::kFilmTitle)) + frame.px(kGapSmall_px));
  const float words = text_size(frame.fonts.caption, tr(Str::kFilmLimits), inner.width).y;
  const Rect below = cut_bottom(inner, words);
  cut_bottom(inner, frame.px(kGapSmall_px));
  const bool is_upright = inner.height > inner.width;
  const float width_mm = is_upright ? kFilmShort_mm : kFilmLong_mm;
  const float height_mm = is_upright ? kFilmLong_mm : kFilmShort_mm;
  const float px_per_mm =
      std::max(1.0F, std::min(inner.width / width_mm, inner.height / height_mm));
  const Rect film{inner.x + 0.5F * (inner.width - px_per_mm * width_mm), inner.y,
                  px_per_mm * width_mm, px_per_mm * height_mm};
  frame.rects.film = film;
  frame.rects.film_mm_per_px = 1.0 / static_cast<double>(px_per_mm);
  picture(frame, film, frame.model.film, tr(Str::kFilmTitle), tr(Str::kFilmLimits));
  text(frame, below, caption(frame), tr(Str::kFilmLimits));
}

}  // namespace driftbench::ui
