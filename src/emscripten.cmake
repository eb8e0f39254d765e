# Toolchain file of the wasm preset: uses the Emscripten that is on the PATH, Debian's or a newer one.

if(NOT DEFINED ENV{DRIFTBENCH_EMSCRIPTEN_ROOT})
  execute_process(COMMAND em-config EMSCRIPTEN_ROOT OUTPUT_VARIABLE root
                  OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET RESULT_VARIABLE failed)
  if(failed)
    find_program(emcc emcc NO_CACHE)
    if(NOT emcc)
      message(FATAL_ERROR "No emcc on the PATH: install the Debian package emscripten, or activate an Emscripten SDK.")
    endif()
    file(REAL_PATH "${emcc}" emcc)
    get_filename_component(root "${emcc}" DIRECTORY)
  endif()
  set(ENV{DRIFTBENCH_EMSCRIPTEN_ROOT} "${root}")
endif()

find_program(DRIFTBENCH_NODE NAMES node nodejs REQUIRED)
set(CMAKE_CROSSCOMPILING_EMULATOR "${DRIFTBENCH_NODE}" CACHE STRING "Runs wasm programs")

include("$ENV{DRIFTBENCH_EMSCRIPTEN_ROOT}/cmake/Modules/Platform/Emscripten.cmake")

# Debian's Emscripten finds its JavaScript parser only through NODE_PATH.
if(EXISTS /usr/share/nodejs/acorn)
  set(ENV{NODE_PATH} /usr/share/nodejs)
  set(CMAKE_C_LINKER_LAUNCHER "${CMAKE_COMMAND};-E;env;NODE_PATH=/usr/share/nodejs")
  set(CMAKE_CXX_LINKER_LAUNCHER "${CMAKE_C_LINKER_LAUNCHER}")
endif()
