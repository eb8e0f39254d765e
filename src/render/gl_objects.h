// Owners of OpenGL ES names: programs, meshes, textures to draw into.
#pragma once

#include "render/mesh.h"

#include <GLES3/gl3.h>
#include <glm/mat4x4.hpp>
#include <glm/vec3.hpp>
#include <glm/vec4.hpp>

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::render {

/// Linked shader program with its uniform locations.
class Program {
 public:
  /// Compiles and links; texture units are given to samplers in the order of `samplers`.
  /// Returns an empty text or the driver's message.
  [[nodiscard]] std::string create(std::string_view vertex_text, std::string_view fragment_text,
                                   std::initializer_list<const char*> samplers);

  void forget() {
    id_ = 0;
    uniforms_.clear();
  }

  void use() const { glUseProgram(id_); }

  // Setters for the program in use; a name that the driver optimised away is ignored.
  void set(std::string_view name, float value) const;
  void set(std::string_view name, int value) const;
  void set(std::string_view name, const glm::vec2& value) const;
  void set(std::string_view name, const glm::vec3& value) const;
  void set(std::string_view name, const glm::vec4& value) const;
  void set(std::string_view name, const glm::mat4& value) const;
  void set(std::string_view name, const glm::vec4* values, int count) const;

 private:
  struct Uniform {
    std::string name;
    GLint location;
  };

  [[nodiscard]] GLint location(std::string_view name) const;

  GLuint id_ = 0;
  std::vector<Uniform> uniforms_;
};

/// Triangles on the GPU.
class GpuMesh {
 public:
  void create(const MeshData& mesh);
  void destroy();

  void forget() { *this = GpuMesh{}; }

  void draw() const;
  void draw_instances(int count) const;

 private:
  GLuint array_ = 0;
  GLuint vertices_ = 0;
  GLuint indices_ = 0;
  GLsizei index_count_ = 0;
};

/// Colour texture with an optional depth buffer, remade when another size is asked for.
class Target {
 public:
  explicit Target(bool with_depth) : with_depth_(with_depth) {}

  /// Binds it for drawing with a full viewport; makes or remakes it first when needed.
  void begin(int width_px, int height_px);

  /// Binds what was drawn as the texture of unit 0.
  void bind_texture() const;

  void forget() { *this = Target(with_depth_); }

  [[nodiscard]] GLuint texture() const { return texture_; }

  [[nodiscard]] int width_px() const { return width_px_; }

  [[nodiscard]] int height_px() const { return height_px_; }

 private:
  bool with_depth_;
  GLuint frame_buffer_ = 0;
  GLuint texture_ = 0;
  GLuint depth_ = 0;
  int width_px_ = 0;
  int height_px_ = 0;
};

}  // namespace driftbench::render
