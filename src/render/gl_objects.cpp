#include "render/gl_objects.h"

#include <glm/gtc/type_ptr.hpp>

#include <cstddef>

namespace driftbench::render {
namespace {

std::string log_of(GLuint id, bool is_program) {
  std::array<char, 2048> text{};
  GLsizei length = 0;
  if (is_program) {
    glGetProgramInfoLog(id, static_cast<GLsizei>(text.size()), &length, text.data());
  } else {
    glGetShaderInfoLog(id, static_cast<GLsizei>(text.size()), &length, text.data());
  }
  std::string log(text.data(), static_cast<std::size_t>(length));
  return log.empty() ? std::string("the driver gave no reason") : log;
}

GLuint compile(GLenum kind, std::string_view text, std::string& problem) {
  const GLuint shader = glCreateShader(kind);
  const GLchar* characters = text.data();
  const GLint length = static_cast<GLint>(text.size());
  glShaderSource(shader, 1, &characters, &length);
  glCompileShader(shader);
  GLint succeeded = GL_FALSE;
  glGetShaderiv(shader, GL_COMPILE_STATUS, &succeeded);
  if (succeeded == GL_FALSE) {
    problem = log_of(shader, false);
  }
  return shader;
}

const void* offset_pointer(std::size_t offset) {
  return reinterpret_cast<const void*>(offset);
}

}  // namespace

std::string Program::create(std::string_view vertex_text, std::string_view fragment_text,
                            std::initializer_list<const char*> samplers) {
  forget();
  std::string problem;
  const GLuint vertex = compile(GL_VERTEX_SHADER, vertex_text, problem);
  const GLuint fragment = compile(GL_FRAGMENT_SHADER, fragment_text, problem);
  if (problem.empty()) {
    id_ = glCreateProgram();
    glAttachShader(id_, vertex);
    glAttachShader(id_, fragment);
    glLinkProgram(id_);
    GLint succeeded = GL_FALSE;
    glGetProgramiv(id_, GL_LINK_STATUS, &succeeded);
    if (succeeded == GL_FALSE) {
      problem = log_of(id_, true);
    }
  }
  glDeleteShader(vertex);
  glDeleteShader(fragment);
  if (!problem.empty()) {
    return problem;
  }

  GLint count = 0;
  glGetProgramiv(id_, GL_ACTIVE_UNIFORMS, &count);
  for (GLint i = 0; i < count; ++i) {
    std::array<char, 64> name{};
    GLsizei length = 0;
    GLint size = 0;
    GLenum type = 0;
    glGetActiveUniform(id_, static_cast<GLuint>(i), static_cast<GLsizei>(name.size()), &length,
                       &size, &type, name.data());
    std::string text(name.data(), static_cast<std::size_t>(length));
    text = text.substr(0, text.find('['));
    uniforms_.push_back({text, glGetUniformLocation(id_, name.data())});
  }

  const GLuint block = glGetUniformBlockIndex(id_, "Frame");
  if (block != GL_INVALID_INDEX) {
    glUniformBlockBinding(id_, block, 0);
  }
  use();
  GLint unit = 0;
  for (const char* sampler : samplers) {
    set(sampler, unit);
    ++unit;
  }
  return {};
}

GLint Program::location(std::string_view name) const {
  for (const Uniform& uniform : uniforms_) {
    if (uniform.name == name) {
      return uniform.location;
    }
  }
  return -1;
}

void Program::set(std::string_view name, float value) const {
  glUniform1f(location(name), value);
}

void Program::set(std::string_view name, int value) const {
  glUniform1i(location(name), value);
}

void Program::set(std::string_view name, const glm::vec2& value) const {
  glUniform2fv(location(name), 1, glm::value_ptr(value));
}

void Program::set(std::string_view name, const glm::vec3& value) const {
  glUniform3fv(location(name), 1, glm::value_ptr(value));
}

void Program::set(std::string_view name, const glm::vec4& value) const {
  glUniform4fv(location(name), 1, glm::value_ptr(value));
}

void Program::set(std::string_view name, const glm::mat4& value) const {
  glUniformMatrix4fv(location(name), 1, GL_FALSE, glm::value_ptr(value));
}

void Program::set(std::string_view name, const glm::vec4* values, int count) const {
  glUniform4fv(location(name), count, glm::value_ptr(*values));
}

void GpuMesh::create(const MeshData& mesh) {
  destroy();
  glGenVertexArrays(1, &array_);
  glBindVertexArray(array_);
  glGenBuffers(1, &vertices_);
  glBindBuffer(GL_ARRAY_BUFFER, vertices_);
  glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(mesh.vertices.size() * sizeof(Vertex)),
               mesh.vertices.data(), GL_STATIC_DRAW);
  glGenBuffers(1, &indices_);
  glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, indices_);
  glBufferData(GL_ELEMENT_ARRAY_BUFFER,
               static_cast<GLsizeiptr>(mesh.indices.size() * sizeof(mesh.indices[0])),
               mesh.indices.data(), GL_STATIC_DRAW);
  const GLsizei stride = sizeof(Vertex);
  glEnableVertexAttribArray(0);
  glVertexAttribPointer(0, 3, GL_FLOAT, GL_FALSE, stride,
                        offset_pointer(offsetof(Vertex, position)));
  glEnableVertexAttribArray(1);
  glVertexAttribPointer(1, 3, GL_FLOAT, GL_FALSE, stride, offset_pointer(offsetof(Vertex, normal)));
  glEnableVertexAttribArray(2);
  glVertexAttribPointer(2, 2, GL_FLOAT, GL_FALSE, stride, offset_pointer(offsetof(Vertex, mark)));
  glBindVertexArray(0);
  index_count_ = static_cast<GLsizei>(mesh.indices.size());
}

void GpuMesh::destroy() {
  if (array_ != 0) {
    glDeleteVertexArrays(1, &array_);
    glDeleteBuffers(1, &vertices_);
    glDeleteBuffers(1, &indices_);
  }
  forget();
}

void GpuMesh::draw() const {
  draw_instances(1);
}

void GpuMesh::draw_instances(int count) const {
  if (index_count_ == 0 || count <= 0) {
    return;
  }
  glBindVertexArray(array_);
  glDrawElementsInstanced(GL_TRIANGLES, index_count_, GL_UNSIGNED_SHORT, nullptr, count);
  glBindVertexArray(0);
}

void Target::begin(int width_px, int height_px) {
  if (frame_buffer_ == 0) {
    glGenFramebuffers(1, &frame_buffer_);
    glGenTextures(1, &texture_);
    if (with_depth_) {
      glGenRenderbuffers(1, &depth_);
    }
  }
  glBindFramebuffer(GL_FRAMEBUFFER, frame_buffer_);
  if (width_px != width_px_ || height_px != height_px_) {
    width_px_ = width_px;
    height_px_ = height_px;
    glBindTexture(GL_TEXTURE_2D, texture_);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width_px, height_px, 0, GL_RGBA, GL_UNSIGNED_BYTE,
                 nullptr);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, texture_, 0);
    if (with_depth_) {
      glBindRenderbuffer(GL_RENDERBUFFER, depth_);
      glRenderbufferStorage(GL_RENDERBUFFER, GL_DEPTH_COMPONENT24, width_px, height_px);
      glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_RENDERBUFFER, depth_);
    }
  }
  glViewport(0, 0, width_px, height_px);
}

void Target::bind_texture() const {
  glActiveTexture(GL_TEXTURE0);
  glBindTexture(GL_TEXTURE_2D, texture_);
}

}  // namespace driftbench::render
