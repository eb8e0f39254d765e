# Headers that nearly every file includes, compiled once for all (option DRIFTBENCH_PRECOMPILE): the builds by g++. clang++ and
# em++ do without, so that a file which forgets an include is found there; and clang's carry absolute paths, with which
# ccache would know no file of another clone.

option(DRIFTBENCH_PRECOMPILE "Compile headers of the standard library once for all files" OFF)

set(driftbench_common_headers <algorithm> <array> <cmath> <cstddef> <cstdint> <functional> <limits> <map> <memory>
  <optional> <set> <span> <string> <string_view> <tuple> <utility> <variant> <vector> <fmt/format.h> <tl/expected.hpp>)

# For ccache; and where it takes std::string from precompiled headers, g++ 12 sees writes past strings that fit in place,
# where there are none (the sanitizers look for true ones).
set(driftbench_precompiled_options
  $<$<CXX_COMPILER_ID:GNU>:-fpch-preprocess> $<$<CXX_COMPILER_ID:GNU>:-Wno-array-bounds> $<$<CXX_COMPILER_ID:GNU>:-Wno-stringop-overflow>)

# A target that holds them, compiled as users of the libraries LIBS are.
function(driftbench_precompiled target)
  cmake_parse_arguments(PARSE_ARGV 1 arg "" "" "HEADERS;LIBS")
  if(NOT DRIFTBENCH_PRECOMPILE)
    return()
  endif()
  file(WRITE "${PROJECT_BINARY_DIR}/generated/${target}.cpp" "// Carries the precompiled headers.\n")
  add_library(${target} OBJECT "${PROJECT_BINARY_DIR}/generated/${target}.cpp")
  target_link_libraries(${target} PRIVATE driftbench_flags driftbench_third_party ${arg_LIBS})
  target_precompile_headers(${target} PRIVATE ${driftbench_common_headers} ${arg_HEADERS})
  target_compile_options(${target} PRIVATE ${driftbench_precompiled_options})
endfunction()

# TARGET takes the headers of FROM.
function(driftbench_use_precompiled target from)
  if(DRIFTBENCH_PRECOMPILE)
    target_precompile_headers(${target} REUSE_FROM ${from})
    target_compile_options(${target} PRIVATE ${driftbench_precompiled_options})
  endif()
endfunction()

driftbench_precompiled(driftbench_precompiled_headers)
