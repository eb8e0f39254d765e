// The texts of the shaders, put together from the embedded files.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

namespace driftbench::render {

/// '#version', a line of definitions, then the named files of shaders/ in order. Empty when one of
/// them is missing.
[[nodiscard]] std::string shader_text(std::string_view definitions,
                                      std::initializer_list<std::string_view> files);

}  // namespace driftbench::render
