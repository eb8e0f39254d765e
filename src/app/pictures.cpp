#include "app/pictures.h"

#include "lesson/instruments.h"
#include "render/drill_mesh.h"
#include "render/projection.h"
#include "ui/theme.h"

#include <algorithm>
#include <cmath>

namespace driftbench::app {
namespace {

// A film is taken on the bench, where the section across is not shown.
enum Slot { kFront = 0, kSide = 1, kSectionMd = 2, kSectionBl = 3, kFilm = 4, kSectionAcross = 4 };

constexpr double kSideHeading_deg = 90.0;
constexpr double kGuidedTarget_mm = 7.0;
constexpr double kGuidedDistance_mm = 92.0;
constexpr double kLeastAspect = 1.1;  // width over height at which the block just fits
// Advance at which the stream of chips is at its thickest; for drawing only.
constexpr double kFullChips_mm_per_s = 3.0;

bool same(const ui::Rect& a, const ui::Rect& b) {
  return std::abs(a.width - b.width) < 0.5F && std::abs(a.height - b.height) < 0.5F;
}

bool same(const ui::PictureRects& a, const ui::PictureRects& b) {
  return same(a.front, b.front) && same(a.side, b.side) && a.front_turn == b.front_turn &&
         a.side_turn == b.side_turn && same(a.section_md, b.section_md) &&
         same(a.section_bl, b.section_bl) && a.section.centre_u_mm == b.section.centre_u_mm &&
         a.section.centre_v_mm == b.section.centre_v_mm &&
         a.section.mm_per_px == b.section.mm_per_px && same(a.section_across, b.section_across) &&
         same(a.film, b.film) && a.film_mm_per_px == b.film_mm_per_px &&
         a.across_mm_per_px == b.across_mm_per_px && a.across_depth_mm == b.across_depth_mm;
}

/// The beam goes from the cheek to the tongue, the film stands along the arch; the pin is metal.
render::SliceRequest film_of(const render::Scene& scene, double mm_per_pixel) {
  const volume::Grid& grid = scene.volume->grid;
  render::SliceRequest film;
  film.centre_mm = scene.pin_pose.tip_mm;
  film.centre_mm.y = grid.first_centre_mm.y + 0.5 * grid.ny * grid.spacing_mm;
  film.mm_per_pixel = mm_per_pixel;
  film.beam_mm = grid.ny * grid.spacing_mm;
  specimen::RevolvedBody pin;
  pin.length_mm = scene.pin_depth_mm + render::kPinAbove_mm;
  pin.top_mm = scene.pin_pose.tip_mm + pin.length_mm * scene.pin_pose.axis_out_unit;
  pin.down_unit = -scene.pin_pose.axis_out_unit;
  pin.radius_mm = 0.5 * scene.pin_diameter_mm;
  film.bodies = {pin};
  return film;
}

/// Where a point of the site frame stands on the page.
std::optional<ui::PagePoint> place_of(const math::Vec3& point_mm, const render::Camera& camera,
                                      const ui::Rect& rect) {
  const auto at = render::to_pixel(
      camera, {static_cast<double>(rect.width), static_cast<double>(rect.height)}, point_mm);
  if (!at.has_value()) {
    return std::nullopt;
  }
  return ui::PagePoint{static_cast<double>(rect.x) + at->x, static_cast<double>(rect.y) + at->y};
}

}  // namespace

ui::Image image_of(const render::Picture& picture) {
  return {picture.id, static_cast<float>(picture.width_px), static_cast<float>(picture.height_px)};
}

int pixels(float points, double pixels_per_point) {
  constexpr int kLargest_px = 4096;
  return std::clamp(static_cast<int>(std::lround(static_cast<double>(points) * pixels_per_point)),
                    1, kLargest_px);
}

void Pictures::forget() {
  renderer_.forget();
  uploaded_ = nullptr;
  changed_ = true;
}

void Pictures::reset_looks(bool is_tall) {
  front_ = render::Camera();
  if (is_tall) {
    // A guide and the long drill in it stand high above the block, and so do neighbouring teeth.
    front_.target_mm.z = kGuidedTarget_mm;
    front_.distance_mm = kGuidedDistance_mm;
  }
  side_ = front_;
  side_.heading_deg = kSideHeading_deg;
  changed_ = true;
}

void Pictures::bring_material(Subject subject, session::Session& session, session::Scrub* scrub) {
  const volume::Volume* wanted = session.view().volume;
  volume::VoxelBox dirty;
  if (subject == Subject::kCovered) {
    if (covered_ == nullptr) {
      covered_ = std::make_unique<volume::Volume>(*session.view().volume);
      covered_->restore();
    }
    wanted = covered_.get();
  } else {
    covered_.reset();
    if (subject == Subject::kLookBack && scrub != nullptr) {
      wanted = &scrub->volume();
      dirty = scrub->take_dirty();
    } else {
      dirty = session.take_dirty();
    }
  }
  if (wanted != uploaded_) {
    renderer_.upload(*wanted);
    uploaded_ = wanted;
    changed_ = true;
  } else if (!dirty.empty()) {
    renderer_.update(*wanted, dirty);
    changed_ = true;
  }
}

render::Scene Pictures::scene_of(Subject subject, const session::Session& session,
                                 const session::Scrub* scrub, const ui::Model& model) const {
  const session::SessionView& view = session.view();
  const lesson::AttemptSetup& setup = session.setup();
  render::Scene scene;
  scene.volume = uploaded_;
  scene.plan = &setup.plan;
  scene.show_start_mark = setup.show.start_mark;
  scene.show_plan = setup.show.plan;
  scene.light_theme = ui::is_light(model.theme);
  scene.planned_diameter_mm = lesson::last_drill_mm(setup);
  scene.sleeve = lesson::sleeve_of(setup);
  scene.seat = setup.guide_seat.has_value() ? &*setup.guide_seat : nullptr;
  if (subject == Subject::kLive) {
    scene.pose = view.pose;
    scene.drill = lesson::item_at(setup.kit.drills, view.drill_index);
    const session::ImplantView& implant = view.implant;
    scene.implant_in_hand = implant.index >= 0;
    scene.implant = lesson::item_at(setup.kit.implants, scene.implant_in_hand ? implant.index
                                                        : implant.is_seated   ? implant.seat_index
                                                                              : -1);
    scene.implant_pose = scene.implant_in_hand ? view.pose : implant.seat;
    if (view.pin.has_value()) {
      // The hand with its drill is away while the pin is looked at.
      scene.drill = nullptr;
      scene.pin_pose = view.pin->pose;
      scene.pin_diameter_mm = view.pin->diameter_mm;
      scene.pin_depth_mm = view.pin->depth_mm;
    }
    scene.stop_length_mm = view.stop_length_mm;
    scene.spin_rad = view.spin_rad;
    scene.irrigation = view.irrigation;
    scene.chips = view.load.in_contact && view.motor_rpm != 0.0
                      ? std::clamp(view.load.feed_mm_per_s / kFullChips_mm_per_s, 0.0, 1.0)
                      : 0.0;
    scene.guide_state = view.guide;
    scene.guide = view.guide.placed && setup.guide.has_value() ? &*setup.guide : nullptr;
    scene.key = lesson::item_at(setup.kit.keys, view.guide.key_index);
  } else if (subject == Subject::kLookBack) {
    scene.see_through = true;
    scene.show_plan = true;
    if (model.example != nullptr && setup.guide.has_value() && view.guide.placed) {
      scene.guide = &*setup.guide;
      scene.guide_state = view.guide;
    }
    if (const drilling::LoadSample* placing =
            session::sample_at(view.implant.samples, model.scrub_step)) {
      scene.implant = lesson::implant_of(setup);
      scene.implant_pose = placing->pose;
    } else if (scrub != nullptr && scrub->sample() != nullptr) {
      scene.pose = scrub->sample()->pose;
      scene.drill = lesson::item_at(setup.kit.drills, scrub->sample()->drill_index);
    }
  }
  return scene;
}

void Pictures::draw(Subject subject, session::Session& session, session::Scrub* scrub,
                    const ui::PictureRects& rects, double pixels_per_point, bool fine,
                    ui::Model& model) {
  if (subject == Subject::kNone) {
    return;
  }
  bring_material(subject, session, scrub);
  if (!changed_ && subject == drawn_subject_ && pixels_per_point == drawn_scale_ &&
      same(rects, drawn_rects_)) {
    return;
  }
  const auto look = [&](int slot, const ui::Rect& rect, const render::Camera& camera,
                        const ui::LookTurn& turn, render::Scene& scene, ui::Image& image,
                        std::optional<ui::PagePoint>& tip) {
    tip.reset();
    if (rect.width < 1.0F || rect.height < 1.0F) {
      return;
    }
    render::Camera fitted = camera;
    fitted.heading_deg += turn.heading_deg;
    fitted.elevation_deg += turn.elevation_deg;
    scene.cut_heading_deg = fitted.heading_deg;
    // The field of view is vertical: in a narrow picture the block would lose its sides.
    fitted.distance_mm *=
        std::max(1.0, kLeastAspect * static_cast<double>(rect.height / rect.width)) / turn.zoom;
    image = image_of(renderer_.draw_look(slot, scene, fitted, pixels(rect.width, pixels_per_point),
                                         pixels(rect.height, pixels_per_point)));
    if (subject == Subject::kLive && session.view().drill_index >= 0) {
      tip = place_of(session.view().pose.tip_mm, fitted, rect);
    }
  };
  const auto section = [&](int slot, const ui::Rect& rect, render::SectionRequest request,
                           const render::Scene& scene, ui::Image& image) {
    if (rect.width < 1.0F || rect.height < 1.0F) {
      return;
    }
    request.mm_per_pixel /= pixels_per_point;
    request.light_theme = scene.light_theme;
    image =
        image_of(renderer_.draw_section(slot, scene, request, pixels(rect.width, pixels_per_point),
                                        pixels(rect.height, pixels_per_point)));
  };
  const auto along = [&](render::SectionPlane plane) {
    render::SectionRequest request;
    request.plane = plane;
    request.centre_u_mm = rects.section.centre_u_mm;
    request.centre_v_mm = rects.section.centre_v_mm;
    request.mm_per_pixel = rects.section.mm_per_px;
    return request;
  };
  render::SectionRequest across;
  across.plane = render::SectionPlane::kAxial;
  across.offset_mm = rects.across_depth_mm;
  across.centre_v_mm = 0.0;
  across.mm_per_pixel = rects.across_mm_per_px;
  renderer_.set_smoothing(fine ? render::Smoothing::kFine : render::Smoothing::kFast);
  render::Scene scene = scene_of(subject, session, scrub, model);
  look(kFront, rects.front, front_, rects.front_turn, scene, model.front, model.front_tip);
  look(kSide, rects.side, side_, rects.side_turn, scene, model.side, model.side_tip);
  section(kSectionMd, rects.section_md, along(render::SectionPlane::kMesioDistal), scene,
          model.section_md);
  section(kSectionBl, rects.section_bl, along(render::SectionPlane::kBuccoLingual), scene,
          model.section_bl);
  section(kSectionAcross, rects.section_across, across, scene, model.section_across);
  if (rects.film.width >= 1.0F && scene.pin_diameter_mm > 0.0) {
    model.film = image_of(renderer_.draw_slice(
        kFilm, film_of(scene, rects.film_mm_per_px / pixels_per_point),
        pixels(rects.film.width, pixels_per_point), pixels(rects.film.height, pixels_per_point)));
  }
  drawn_rects_ = rects;
  drawn_scale_ = pixels_per_point;
  drawn_subject_ = subject;
  changed_ = false;
}

}  // namespace driftbench::app
