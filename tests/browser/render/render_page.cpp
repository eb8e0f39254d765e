// What the render tests call from the page: draw a named scene, read it back, time it.
#include "scenes.h"

#include "render/projection.h"
#include "render/volume_texture.h"
#include "specimen/block.h"
#include "volume/carve.h"
#include "volume/sample.h"

#include <GLES3/gl3.h>
#include <emscripten/emscripten.h>
#include <emscripten/html5.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace driftbench;

struct Page {
  render::Renderer renderer;
  render_test::NamedScene named;
  std::string scene_name;
  std::string message;
  GLuint reader = 0;
  std::vector<std::uint8_t> pixels;
};

Page& page() {
  static Page instance;
  return instance;
}

constexpr double kPictureHeight_mm = 28.0;  // of slices, films and sections

/// Where a pixel of a slice lies in the site, from the bottom left.
math::Vec3 point_at(const render::SliceRequest& slice, int x_px, int y_px, int width_px,
                    int height_px) {
  const double mm_per_pixel = kPictureHeight_mm / height_px;
  return slice.centre_mm + (x_px + 0.5 - 0.5 * width_px) * mm_per_pixel * slice.right_unit +
         (y_px + 0.5 - 0.5 * height_px) * mm_per_pixel * slice.up_unit;
}

render::Picture draw(int width_px, int height_px) {
  Page& p = page();
  if (p.named.is_slice) {
    p.named.slice.mm_per_pixel = kPictureHeight_mm / height_px;
    return p.renderer.draw_slice(2, p.named.slice, width_px, height_px);
  }
  if (p.named.is_section) {
    render::SectionRequest request = p.named.section;
    request.light_theme = p.named.scene.light_theme;
    request.mm_per_pixel = kPictureHeight_mm / height_px;
    request.centre_v_mm = request.plane == render::SectionPlane::kAxial ? 0.0 : -11.0;
    return p.renderer.draw_section(2, p.named.scene, request, width_px, height_px);
  }
  return p.renderer.draw_look(0, p.named.scene, p.named.camera, width_px, height_px);
}

void attach(const render::Picture& picture) {
  Page& p = page();
  if (p.reader == 0) {
    glGenFramebuffers(1, &p.reader);
  }
  glBindFramebuffer(GL_FRAMEBUFFER, p.reader);
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, picture.id, 0);
}

}  // namespace

extern "C" {

/// Makes the context (or takes the restored one) and the renderer; empty text or what failed.
EMSCRIPTEN_KEEPALIVE const char* render_start(int is_restored) {
  Page& p = page();
  if (is_restored == 0) {
    EmscriptenWebGLContextAttributes attributes;
    emscripten_webgl_init_context_attributes(&attributes);
    attributes.majorVersion = 2;
    attributes.antialias = EM_FALSE;
    const EMSCRIPTEN_WEBGL_CONTEXT_HANDLE context =
        emscripten_webgl_create_context("#canvas", &attributes);
    emscripten_webgl_make_context_current(context);
  } else {
    p.renderer.forget();
    p.reader = 0;
  }
  if (!p.scene_name.empty()) {
    p.renderer.upload(p.named.volume);
  }
  p.message = p.renderer.problem();
  return p.message.c_str();
}

/// Chooses a scene; false when there is none of that name.
EMSCRIPTEN_KEEPALIVE int render_scene(const char* name, int light_theme, int fine) {
  Page& p = page();
  if (p.scene_name != name) {
    if (!render_test::make_scene(name, p.named)) {
      return 0;
    }
    p.scene_name = name;
    p.renderer.upload(p.named.volume);
  }
  p.named.scene.light_theme = light_theme != 0;
  p.renderer.set_smoothing(fine != 0 ? render::Smoothing::kFine : render::Smoothing::kFast);
  return 1;
}

/// Puts a block of another fineness, with one hole at the drill, in place of the scene's until the
/// next scene is chosen; the voxels along an edge, or 0 when it cannot be.
EMSCRIPTEN_KEEPALIVE int render_voxels(double voxel_mm) {
  Page& p = page();
  specimen::BlockSpec spec;
  spec.voxel_mm = voxel_mm;
  base::Result<volume::Volume> block = specimen::build_block(spec);
  if (!block) {
    return 0;
  }
  p.named.volume = std::move(*block);
  p.scene_name.clear();
  volume::RevolvedSolid solid;
  solid.radius_mm = 0.5 * p.named.drill.diameter_mm;
  const drilling::DrillPose& pose = p.named.scene.pose;
  volume::carve(p.named.volume, solid, pose.tip_mm, pose.axis_out_unit, 0.0, 30.0, 2);
  p.renderer.upload(p.named.volume);
  return p.named.volume.grid.nx;
}

/// Looks from elsewhere until the next scene is chosen.
EMSCRIPTEN_KEEPALIVE void render_camera(double heading_deg, double elevation_deg,
                                        double distance_mm, double x_mm, double y_mm, double z_mm) {
  page().named.camera = {heading_deg, elevation_deg, distance_mm, {x_mm, y_mm, z_mm}, 28.0};
}

/// Drills one more hole and brings the picture's specimen up to date, by its changed box or whole.
EMSCRIPTEN_KEEPALIVE void render_drill(double x_mm, double y_mm, double depth_mm, int by_box) {
  Page& p = page();
  volume::RevolvedSolid solid;
  solid.radius_mm = 1.3;
  volume::carve(p.named.volume, solid, {x_mm, y_mm, -depth_mm}, {0.0, 0.0, 1.0}, 0.0, 30.0, 2);
  const volume::VoxelBox box = p.named.volume.take_dirty();
  if (by_box != 0) {
    p.renderer.update(p.named.volume, box);
  } else {
    p.renderer.upload(p.named.volume);
  }
}

/// Where a point of the site lies in the look, from the bottom left; axis 0: x, 1: y.
EMSCRIPTEN_KEEPALIVE double render_pixel(int axis, int width_px, int height_px, double x_mm,
                                         double y_mm, double z_mm) {
  const std::optional<math::Vec2> pixel = render::to_pixel(
      page().named.camera, {static_cast<double>(width_px), static_cast<double>(height_px)},
      {x_mm, y_mm, z_mm});
  if (!pixel) {
    return -1.0;
  }
  return axis == 0 ? pixel->x : height_px - pixel->y;
}

/// What the volume itself holds where a pixel of the slice lies, from the bottom left: density
/// times coverage. Unit: mg/cm^3.
EMSCRIPTEN_KEEPALIVE double render_slice_value(int x_px, int y_px, int width_px, int height_px) {
  const render::SliceRequest& slice = page().named.slice;
  const volume::Volume& volume = page().named.volume;
  const math::Vec3 p = point_at(slice, x_px, y_px, width_px, height_px);
  if (!slice.single_voxels) {
    return volume::density_at(volume, p) * volume::coverage_at(volume, p);
  }
  const math::Vec3 at = (p - volume.grid.first_centre_mm) / volume.grid.spacing_mm + 0.5;
  const int x = static_cast<int>(std::floor(at.x));
  const int y = static_cast<int>(std::floor(at.y));
  const int z = static_cast<int>(std::floor(at.z));
  if (x < 0 || y < 0 || z < 0 || x >= volume.grid.nx || y >= volume.grid.ny ||
      z >= volume.grid.nz) {
    return 0.0;
  }
  const std::size_t i = volume.grid.index(x, y, z);
  return volume.density_mg_per_cm3[i] * (volume.coverage[i] / 255.0);
}

/// Density, as far as the texture holds it, times what is left, added up along the ray of a film
/// through a pixel, from the bottom left. Unit: mg/cm^3 mm.
EMSCRIPTEN_KEEPALIVE double render_film_mass(int x_px, int y_px, int width_px, int height_px) {
  constexpr double kStep_mm = 0.02;
  const render::SliceRequest& film = page().named.slice;
  const volume::Volume& volume = page().named.volume;
  const math::Vec3 along = math::cross(film.right_unit, film.up_unit);
  const math::Vec3 p = point_at(film, x_px, y_px, width_px, height_px);
  double mass = 0.0;
  for (double t_mm = -0.5 * film.beam_mm; t_mm < 0.5 * film.beam_mm; t_mm += kStep_mm) {
    const math::Vec3 q = p + t_mm * along;
    const double density = std::min(volume::density_at(volume, q),
                                    static_cast<double>(render::kLargestDensity_mg_per_cm3));
    mass += kStep_mm * density * volume::coverage_at(volume, q);
  }
  return mass;
}

/// Why a part could not be made when it was first needed; empty text when all could.
EMSCRIPTEN_KEEPALIVE const char* render_problem() {
  return page().renderer.problem().c_str();
}

/// GL's oldest unread error, 0 when there was none.
EMSCRIPTEN_KEEPALIVE int render_error() {
  return static_cast<int>(glGetError());
}

/// Draws and returns RGBA bytes, bottom row first; null when nothing was drawn.
EMSCRIPTEN_KEEPALIVE const std::uint8_t* render_picture(int width_px, int height_px) {
  Page& p = page();
  const render::Picture picture = draw(width_px, height_px);
  if (picture.id == 0) {
    return nullptr;
  }
  p.pixels.resize(static_cast<std::size_t>(width_px) * static_cast<std::size_t>(height_px) * 4);
  attach(picture);
  glReadPixels(0, 0, width_px, height_px, GL_RGBA, GL_UNSIGNED_BYTE, p.pixels.data());
  return p.pixels.data();
}

/// Mean time of a frame in ms, each forced to end by reading one pixel.
EMSCRIPTEN_KEEPALIVE double render_time_ms(int width_px, int height_px, int frames) {
  std::uint8_t pixel[4] = {};
  double begin = 0.0;
  for (int i = -1; i < frames; ++i) {
    if (i == 0) {
      begin = emscripten_get_now();
    }
    page().named.scene.spin_rad += 0.3;
    attach(draw(width_px, height_px));
    glReadPixels(0, 0, 1, 1, GL_RGBA, GL_UNSIGNED_BYTE, pixel);
  }
  return (emscripten_get_now() - begin) / frames;
}
}
