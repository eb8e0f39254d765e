#include "render/shader_text.h"

#include "embedded/shaders.h"

namespace driftbench::render {

std::string shader_text(std::string_view definitions,
                        std::initializer_list<std::string_view> files) {
  std::string text = "#version 300 es\n";
  text.append(definitions);
  for (const std::string_view file : files) {
    const std::string_view part = embedded::shaders(file);
    if (part.data() == nullptr) {
      return {};
    }
    text.append(part);
  }
  return text;
}

}  // namespace driftbench::render
