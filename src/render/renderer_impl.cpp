// What every picture needs: programs, textures and shapes that all of them share, and how they are
// bound.
#include "render/renderer_impl.h"

#include "render/fixture_meshes.h"
#include "render/foam_noise.h"
#include "render/glyphs.h"

namespace driftbench::render {
namespace {

GLuint new_texture(GLenum target, GLint smallest, GLint wrap) {
  GLuint id = 0;
  glGenTextures(1, &id);
  glBindTexture(target, id);
  glTexParameteri(target, GL_TEXTURE_MIN_FILTER, smallest);
  glTexParameteri(target, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  for (const GLenum direction :
       std::array<GLenum, 3>{GL_TEXTURE_WRAP_S, GL_TEXTURE_WRAP_T, GL_TEXTURE_WRAP_R}) {
    glTexParameteri(target, direction, wrap);
  }
  return id;
}

void bind_texture(GLenum unit, GLenum target, GLuint id) {
  glActiveTexture(GL_TEXTURE0 + unit);
  glBindTexture(target, id);
}

}  // namespace

void Renderer::Impl::create_textures() {
  glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  foam = new_texture(GL_TEXTURE_3D, GL_LINEAR_MIPMAP_NEAREST, GL_REPEAT);
  glTexImage3D(GL_TEXTURE_3D, 0, GL_RGBA8, kFoamNoiseSize, kFoamNoiseSize, kFoamNoiseSize, 0,
               GL_RGBA, GL_UNSIGNED_BYTE, foam_noise().data());
  glGenerateMipmap(GL_TEXTURE_3D);
  glyphs = new_texture(GL_TEXTURE_2D, GL_LINEAR, GL_CLAMP_TO_EDGE);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, kGlyphCount * kGlyphWidth_px, kGlyphHeight_px, 0, GL_RED,
               GL_UNSIGNED_BYTE, glyph_atlas().data());
}

void Renderer::Impl::share(const FrameUniforms& frame) const {
  glBindBufferBase(GL_UNIFORM_BUFFER, 0, frame_buffer);
  glBufferSubData(GL_UNIFORM_BUFFER, 0, sizeof(frame), &frame);
}

void Renderer::Impl::bind_volume() const {
  bind_texture(0, GL_TEXTURE_3D, volume.coverage());
  bind_texture(1, GL_TEXTURE_3D, volume.material());
  bind_texture(2, GL_TEXTURE_3D, foam);
  bind_texture(3, GL_TEXTURE_2D, glyphs);
  bind_texture(4, GL_TEXTURE_3D, volume.tissue());
  glActiveTexture(GL_TEXTURE0);
}

void Renderer::Impl::draw_full() const {
  glBindVertexArray(full_array);
  glDrawArrays(GL_TRIANGLES, 0, 3);
  glBindVertexArray(0);
}

void Renderer::Impl::make() {
  is_made = true;
  programs.make_basic();
  if (!programs.problem().empty()) {
    return;
  }
  create_textures();
  glGenVertexArrays(1, &full_array);
  glGenBuffers(1, &frame_buffer);
  glBindBuffer(GL_UNIFORM_BUFFER, frame_buffer);
  glBufferData(GL_UNIFORM_BUFFER, sizeof(FrameUniforms), nullptr, GL_DYNAMIC_DRAW);
  handpiece.create(handpiece_mesh());
  cube.create(cube_mesh());
  crumb.create(crumb_mesh());
  line_quad.create(line_mesh());
}

}  // namespace driftbench::render
