# Targets for everything that is not ours: header packages, Dear ImGui, SDL, OpenGL ES, GoogleTest.

# --- Header-only packages -------------------------------------------------------------------------------------------
# Natively they are found in the compiler's own folders. em++ must not see the machine's /usr/include, so it gets
# a folder that holds links to just these packages.
add_library(driftbench_third_party INTERFACE)
set(staged "${PROJECT_BINARY_DIR}/third-party-include")
foreach(row "glm glm/vec3.hpp libglm-dev" "nlohmann nlohmann/json.hpp nlohmann-json3-dev" "fmt fmt/format.h libfmt-dev"
            "tl tl/expected.hpp libexpected-dev" "boost boost/math/distributions/students_t.hpp libboost-dev")
  string(REPLACE " " ";" row "${row}")
  list(GET row 0 name)
  list(GET row 1 header)
  list(GET row 2 package)
  find_path(DRIFTBENCH_${name}_INCLUDE "${header}" PATHS /usr/include /usr/local/include NO_CMAKE_FIND_ROOT_PATH)
  if(NOT DRIFTBENCH_${name}_INCLUDE)
    message(FATAL_ERROR "The header ${header} is missing: install the Debian package ${package}.")
  endif()
  mark_as_advanced(DRIFTBENCH_${name}_INCLUDE)
  if(EMSCRIPTEN)
    file(MAKE_DIRECTORY "${staged}")
    file(CREATE_LINK "${DRIFTBENCH_${name}_INCLUDE}/${name}" "${staged}/${name}" SYMBOLIC)
  elseif(NOT DRIFTBENCH_${name}_INCLUDE STREQUAL "/usr/include")
    target_include_directories(driftbench_third_party SYSTEM INTERFACE "${DRIFTBENCH_${name}_INCLUDE}")
  endif()
endforeach()
if(EMSCRIPTEN)
  target_include_directories(driftbench_third_party SYSTEM INTERFACE "${staged}")
endif()

# {fmt}: compiled once, because as a header-only package it takes most of the compile time of every file that formats
# text. The list of templates to compile follows its version; of any other version the headers alone are used.
file(STRINGS "${DRIFTBENCH_fmt_INCLUDE}/fmt/core.h" fmt_version REGEX "^#define FMT_VERSION ")
if(fmt_version MATCHES "FMT_VERSION 90100$")
  file(CONFIGURE OUTPUT "${PROJECT_BINARY_DIR}/generated/fmt_library.cpp" CONTENT [[
// Generated: the parts of {fmt} 9.1 that its headers declare and leave to a library, without locales: they would
// bring 85 kB of the C++ library into the app, and numbers are written in the C locale only.
#define FMT_STATIC_THOUSANDS_SEPARATOR ','
#include <fmt/format-inl.h>

FMT_BEGIN_NAMESPACE
namespace detail {
template auto dragonbox::to_decimal(float) noexcept -> dragonbox::decimal_fp<float>;
template auto dragonbox::to_decimal(double) noexcept -> dragonbox::decimal_fp<double>;
template auto thousands_sep_impl(locale_ref) -> thousands_sep_result<char>;
template auto decimal_point_impl(locale_ref) -> char;
template void buffer<char>::append(const char*, const char*);
template void vformat_to(buffer<char>&, string_view, basic_format_args<FMT_BUFFER_CONTEXT(char)>, locale_ref);
}  // namespace detail
FMT_END_NAMESPACE
]])
  add_library(driftbench_fmt STATIC "${PROJECT_BINARY_DIR}/generated/fmt_library.cpp")
  target_compile_options(driftbench_fmt PRIVATE -ffp-contract=off)
  if(EMSCRIPTEN)
    target_compile_options(driftbench_fmt PRIVATE -Os)
    target_include_directories(driftbench_fmt SYSTEM PRIVATE "${staged}")
  endif()
  target_link_libraries(driftbench_third_party INTERFACE driftbench_fmt)
else()
  target_compile_definitions(driftbench_third_party INTERFACE FMT_HEADER_ONLY=1)
endif()

# --- Dear ImGui, SDL, OpenGL ES: only for the layers below the core border ------------------------------------------
set(DRIFTBENCH_HAS_GL OFF)
set(DRIFTBENCH_HAS_IMGUI OFF)
if(DRIFTBENCH_CORE_ONLY)
  return()
endif()

# Asked anew at every configuration: the folder's name follows the versions in use.
# Not called `prefix`: SDL's package file unsets that name.
execute_process(COMMAND "${PROJECT_SOURCE_DIR}/web/setup/third_party.sh" --print-prefix
                OUTPUT_VARIABLE fetched OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)

add_library(driftbench_gl INTERFACE)
add_library(driftbench_sdl INTERFACE)
if(EMSCRIPTEN)
  if(NOT EXISTS "${fetched}/complete")
    message(WARNING "SDL and Dear ImGui are not built: run web/setup/third_party.sh for the app. Building the core only.")
    return()
  endif()
  set(DRIFTBENCH_HAS_GL ON)
  target_include_directories(driftbench_sdl SYSTEM INTERFACE "${fetched}/sdl2/include/SDL2" "${fetched}/sdl2/include")
  target_link_libraries(driftbench_sdl INTERFACE "${fetched}/sdl2/lib/libSDL2.a")
else()
  find_path(DRIFTBENCH_GLES_INCLUDE GLES3/gl3.h)
  find_library(DRIFTBENCH_GLES_LIBRARY GLESv2)
  find_package(SDL2 QUIET CONFIG)
  if(DRIFTBENCH_GLES_INCLUDE AND DRIFTBENCH_GLES_LIBRARY)
    set(DRIFTBENCH_HAS_GL ON)
    target_link_libraries(driftbench_gl INTERFACE "${DRIFTBENCH_GLES_LIBRARY}")
  endif()
  if(NOT SDL2_FOUND)
    message(STATUS "SDL is not installed: no desktop app, the core and the command-line tool only.")
    return()
  endif()
  target_link_libraries(driftbench_sdl INTERFACE SDL2::SDL2)
endif()

if(NOT EXISTS "${fetched}/imgui/imgui.cpp")
  message(STATUS "Dear ImGui is not fetched (web/setup/third_party.sh): no desktop app.")
  return()
endif()
set(DRIFTBENCH_HAS_IMGUI ON)
set(imgui "${fetched}/imgui")
add_library(imgui STATIC "${imgui}/imgui.cpp" "${imgui}/imgui_draw.cpp" "${imgui}/imgui_tables.cpp"
  "${imgui}/imgui_widgets.cpp" "${imgui}/backends/imgui_impl_sdl2.cpp" "${imgui}/backends/imgui_impl_opengl3.cpp")
target_include_directories(imgui SYSTEM PUBLIC "${imgui}" "${imgui}/backends")
target_compile_definitions(imgui PUBLIC IMGUI_ENABLE_TEST_ENGINE IMGUI_IMPL_OPENGL_ES3
  IMGUI_DISABLE_OBSOLETE_FUNCTIONS IMGUI_DISABLE_DEMO_WINDOWS IMGUI_DISABLE_DEBUG_TOOLS)
target_link_libraries(imgui PUBLIC driftbench_sdl driftbench_gl)
if(EMSCRIPTEN)
  target_compile_options(imgui PRIVATE -Os)
endif()
