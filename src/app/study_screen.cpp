// A piece of jaw under study: opening it, carrying out what was planned, its pictures and state.
#include "embedded/cases.h"

#include "app/app.h"
#include "base/json.h"
#include "lesson/plan_lesson.h"
#include "platform/host.h"
#include "ui/strings.h"
#include "ui/theme.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace driftbench::app {
namespace {

// Share of full size at which software draws the look, which costs most.
constexpr double kSoftwareLook = 0.6;

}  // namespace

void App::list_cases() {
  model_.cases.clear();
  for (const embedded::File& file : embedded::cases()) {
    ui::ShelfCase row;
    // The whole reading checks the anatomy and waits until the case is opened.
    if (const auto read = base::read_json(file.bytes); read.has_value()) {
      if (const base::JsonValue* title = read->find("title"); title != nullptr) {
        if (const base::JsonValue* words = title->find("en"); words != nullptr) {
          row.title = ui::in_language(words->as_string());
        }
      }
      if (const base::JsonValue* tooth = read->find("tooth"); tooth != nullptr) {
        row.fdi = static_cast<int>(tooth->as_int64());
      }
    }
    model_.cases.push_back(std::move(row));
  }
}

void App::open_study(std::string_view text, std::string_view file_name) {
  auto read = lesson::read_specimen(text, file_name);
  if (!read.value.has_value()) {
    notify(first_problem(read.problems, file_name), true);
    return;
  }
  if (library_.kits().empty()) {
    notify(std::string(ui::tr(ui::Str::kNoKit)), true);
    return;
  }
  go_to_shelf();
  study_ =
      std::make_unique<Study>(std::move(*read.value), library_.kits().front(), ++study_serial_);
  model_.screen = ui::Screen::kStudy;
}

template <class Edit>
void App::edit_study(const Edit& edit) {
  if (study_ != nullptr) {
    study_->edit(edit);
    pictures_.touch();
  }
}

template void App::edit_study(const ui::EditPlan& edit);
template void App::edit_study(const ui::EditGuide& edit);

void App::reckon_study_guide() {
  if (study_ == nullptr) {
    return;
  }
  auto setup =
      lesson::guided_setup(study_->planned(), study_->steps(), study_->kit(), study_->guide());
  study_->reckoned(setup.has_value() ? std::string() : setup.error().message);
  briefed_.reset();
  if (setup.has_value()) {
    briefed_ = std::move(*setup);
  }
  look_at_briefed();
}

void App::step_study(bool forward) {
  if (study_ != nullptr) {
    study_->step(forward);
    pictures_.touch();
  }
}

void App::save_study(bool as_lesson) {
  if (study_ == nullptr) {
    return;
  }
  const lesson::SpecimenCase planned = study_->planned();
  const std::string name = planned.id + ".specimen.json";
  const std::string text = lesson::write_specimen(planned);
  const auto refuse = [this](const std::string& why) {
    notify(ui::say(ui::Str::kPlanNotSaved, why), true);
  };
  // A plan that could not be opened again is not written.
  const auto again = lesson::read_specimen(text, name);
  if (!again.value.has_value()) {
    refuse(first_problem(again.problems, name));
    return;
  }
  if (!as_lesson) {
    platform::save_file(name, text);
    notify(ui::say(ui::Str::kPlanSaved, name), false);
    return;
  }
  const auto made = lesson::lesson_of(planned, study_->steps(), study_->kit(), study_->guide());
  if (!made.has_value()) {
    refuse(made.error().message);
    return;
  }
  const std::string lesson_name = made->id + ".lesson.json";
  const std::string lesson_text = lesson::write_lesson(*made);
  auto added = library_.add_case(text, name);
  const auto known = library_.add_lesson(lesson_text, lesson_name);
  if (!added.has_value() || !known.has_value()) {
    refuse(added.has_value() ? known.error().message : added.error().message);
    return;
  }
  refresh_shelf();
  platform::save_file(name, text);
  platform::save_file(lesson_name, lesson_text);
  notify(ui::say(ui::Str::kLessonMade, lesson_name, name), false);
}

void App::draw_study(double pixels_per_point) {
  const double share = platform::is_software_rendered() ? kSoftwareLook : PictureScale::kHighest;
  pictures_.draw_study(*study_, ui_.rects(), pixels_per_point, share, model_);
}

void App::write_study(base::JsonWriter& out) const {
  if (study_ == nullptr) {
    return;
  }
  out.key("study").begin_object();
  out.field("built", study_->volume() != nullptr);
  const lesson::CasePlan& plan = study_->plan();
  out.field("entry_x_mm", plan.entry_mm.x).field("entry_y_mm", plan.entry_mm.y);
  out.field("entry_z_mm", plan.entry_mm.z);
  out.field("lean_md_deg", plan.lean_md_deg).field("lean_bl_deg", plan.lean_bl_deg);
  out.field("diameter_mm", plan.diameter_mm).field("length_mm", plan.length_mm);
  const math::Vec3& centre = ui_.rects().study.cut_at_mm;
  out.field("cross_x_mm", centre.x).field("cross_y_mm", centre.y).field("cross_z_mm", centre.z);
  out.field("mm_per_px", ui_.rects().study.slices[0].mm_per_px);
  // Where the cross-hair stands on the page, by section.
  out.key("cross_px").begin_array();
  for (std::size_t i = 0; i < ui::kSliceCount; ++i) {
    const ui::Rect& p = ui_.rects().slices[i];
    const ui::SlicePicture& slice = ui_.rects().study.slices[i];
    const math::Vec3 at = slice.plane.in_plane(centre) / slice.mm_per_px;
    out.begin_array();
    out.value(static_cast<double>(p.x + 0.5F * p.width) + at.x);
    out.value(static_cast<double>(p.y + 0.5F * p.height) - at.y);
    out.end_array();
  }
  out.end_array();
  if (study_->volume() != nullptr) {
    out.field("value", ui::slice_value(*study_->volume(), centre, false));
    out.field("voxel_value", ui::slice_value(*study_->volume(), centre, true));
  }
  out.key("clearances").begin_object();
  for (const lesson::PlanClearance& row : study_->review().clearances) {
    out.field(std::string(specimen::name_of(row.structure)), row.least_mm());
  }
  out.end_object().end_object();
}

void Pictures::draw_study(const Study& study, const ui::PictureRects& rects,
                          double pixels_per_point, double look_share, ui::Model& model) {
  if (study.volume() == nullptr) {
    return;
  }
  if (study.volume() != uploaded_) {
    renderer_.upload(*study.volume());
    uploaded_ = study.volume();
    changed_ = true;
  }
  const ui::StudyPictures& wanted = rects.study;
  const bool is_same = !changed_ && wanted == drawn_study_ && rects.front == drawn_rects_.front &&
                       rects.slices == drawn_rects_.slices && pixels_per_point == drawn_scale_;
  if (is_same) {
    return;
  }
  const auto bodies = study.bodies();
  for (std::size_t i = 0; i < ui::kSliceCount; ++i) {
    const ui::Rect& room = rects.slices[i];
    if (room.width < 1.0F) {
      continue;
    }
    render::SliceRequest request;
    const ui::SlicePicture& slice = wanted.slices[i];
    request.centre_mm = slice.plane.centre_mm;
    request.right_unit = slice.plane.right_unit;
    request.up_unit = slice.plane.up_unit;
    request.mm_per_pixel = slice.mm_per_px / pixels_per_point;
    request.low_mg_per_cm3 = wanted.levels.low_mg_per_cm3;
    request.high_mg_per_cm3 = wanted.levels.high_mg_per_cm3;
    request.single_voxels = wanted.single_voxels;
    request.tissue_colours = wanted.tissue_colours ? 0.75 : 0.0;
    request.bodies = bodies;
    model.slices[i] = image_of(renderer_.draw_slice(static_cast<int>(i), request,
                                                    pixels(room.width, pixels_per_point),
                                                    pixels(room.height, pixels_per_point)));
  }
  if (rects.front.width >= 1.0F) {
    draw_study_look(study, rects, pixels_per_point * look_share, model);
  }
  drawn_study_ = wanted;
  drawn_rects_ = rects;
  drawn_scale_ = pixels_per_point;
  changed_ = false;
}

void Pictures::draw_study_look(const Study& study, const ui::PictureRects& rects,
                               double pixels_per_point, ui::Model& model) {
  const ui::StudyPictures& wanted = rects.study;
  const specimen::RevolvedBody placed = study.bodies().front();
  specimen::Plan at_cross;
  at_cross.entry_mm = wanted.cut_at_mm;
  specimen::Implant implant;
  implant.diameter_mm = study.plan().diameter_mm;
  implant.length_mm = study.plan().length_mm;
  render::Scene scene;
  scene.volume = study.volume();
  scene.plan = &at_cross;
  scene.implant = &implant;
  scene.implant_pose = {placed.top_mm + implant.length_mm * placed.down_unit, -placed.down_unit};
  scene.show_start_mark = false;
  scene.see_through = wanted.cut;
  scene.cut_heading_deg = wanted.heading_deg;
  scene.show_gum = wanted.show_gum;
  scene.clear = wanted.clear;
  scene.light_theme = ui::is_light(model.theme);
  render::Camera camera;
  camera.heading_deg = wanted.heading_deg;
  camera.elevation_deg = wanted.elevation_deg;
  camera.distance_mm = 84.0;
  camera.target_mm = wanted.look_at_mm;
  renderer_.set_smoothing(render::Smoothing::kFast);
  model.front =
      image_of(renderer_.draw_look(3, scene, camera, pixels(rects.front.width, pixels_per_point),
                                   pixels(rects.front.height, pixels_per_point)));
}

}  // namespace driftbench::app
