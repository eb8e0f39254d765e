# Functions every folder uses: driftbench_layer, driftbench_program, driftbench_embed.

# The layers that src/layers.txt lets LAYER include.
function(driftbench_allowed layer result)
  file(STRINGS "${PROJECT_SOURCE_DIR}/src/layers.txt" rows REGEX "^${layer}:")
  if(NOT rows)
    message(FATAL_ERROR "src/layers.txt has no row for '${layer}'.")
  endif()
  string(REGEX REPLACE "^[a-z_]+: *" "" names "${rows}")
  string(REPLACE " " ";" names "${names}")
  set(${result} "${names}" PARENT_SCOPE)
endfunction()

# One folder of src/ as one library, driftbench_<name>.
#
#   driftbench_layer(drilling
#     HEADERS contact.h step.h            every .h of the folder
#     SOURCES contact.cpp step.cpp        none: a header-only (INTERFACE) library
#     DEPENDS base math                   layers, a subset of the row in src/layers.txt
#     LIBS imgui)                         other targets, rarely needed
function(driftbench_layer name)
  cmake_parse_arguments(PARSE_ARGV 1 arg "" "" "HEADERS;SOURCES;DEPENDS;LIBS")
  if(arg_UNPARSED_ARGUMENTS)
    message(FATAL_ERROR "driftbench_layer(${name}): unknown argument ${arg_UNPARSED_ARGUMENTS}")
  endif()
  driftbench_allowed(${name} allowed)
  foreach(dependency IN LISTS arg_DEPENDS)
    if(NOT dependency IN_LIST allowed)
      message(FATAL_ERROR "Layer '${name}' may not depend on '${dependency}' (src/layers.txt).")
    endif()
  endforeach()

  set(target driftbench_${name})
  if(arg_SOURCES)
    add_library(${target} STATIC ${arg_SOURCES})
    target_link_libraries(${target} PRIVATE driftbench_flags)
    driftbench_use_precompiled(${target} driftbench_precompiled_headers)
    # What is not computed a thousand times a second is kept small: it is downloaded. Never -Oz, which changes libm.
    if(EMSCRIPTEN AND name MATCHES "^(base|stats|lesson|record|session|classroom|render|ui|classroom_ui|platform|app|desk)$")
      target_compile_options(${target} PRIVATE -Os)
    endif()
    set(scope PUBLIC)
  else()
    add_library(${target} INTERFACE)
    set(scope INTERFACE)
  endif()
  # Headers must compile alone. One with a source of the same name is the first include there; the build target
  # all_verify_interface_header_sets compiles the others.
  set(alone "")
  foreach(header IN LISTS arg_HEADERS)
    string(REGEX REPLACE "\\.h$" ".cpp" source "${header}")
    if(NOT source IN_LIST arg_SOURCES)
      list(APPEND alone "${header}")
    endif()
  endforeach()
  target_sources(${target} ${scope} FILE_SET HEADERS BASE_DIRS "${PROJECT_SOURCE_DIR}/src" FILES ${arg_HEADERS})
  if(alone)
    target_sources(${target} ${scope} FILE_SET alone TYPE HEADERS BASE_DIRS "${PROJECT_SOURCE_DIR}/src" FILES ${alone})
    set_target_properties(${target} PROPERTIES VERIFY_INTERFACE_HEADER_SETS ON INTERFACE_HEADER_SETS_TO_VERIFY alone)
  endif()
  target_include_directories(${target} ${scope} "${PROJECT_SOURCE_DIR}/src")
  list(TRANSFORM arg_DEPENDS PREPEND driftbench_)
  target_link_libraries(${target} ${scope} driftbench_third_party ${arg_DEPENDS} ${arg_LIBS})
endfunction()

# A command-line program: bin/<name> natively, bin/<name>.js for node.
function(driftbench_program name)
  cmake_parse_arguments(PARSE_ARGV 1 arg "" "" "SOURCES;LIBS")
  add_executable(${name} ${arg_SOURCES})
  target_link_libraries(${name} PRIVATE driftbench_flags driftbench_third_party ${arg_LIBS})
  driftbench_use_precompiled(${name} driftbench_precompiled_headers)
  set_target_properties(${name} PROPERTIES RUNTIME_OUTPUT_DIRECTORY "${PROJECT_BINARY_DIR}/bin")
  if(EMSCRIPTEN)
    driftbench_link_for_node(${name})
  endif()
endfunction()

# Link options of wasm programs that node runs: real files, exit codes, no asynchronous start.
function(driftbench_link_for_node target)
  target_link_options(${target} PRIVATE -sENVIRONMENT=node -sNODERAWFS=1 -sWASM_ASYNC_COMPILATION=0
    -sEXIT_RUNTIME=1 -sALLOW_MEMORY_GROWTH=1 ${ARGN})
endfunction()

# Files inside the program: driftbench::embedded::<name>(), declared in "embedded/<name>.h".
#
#   driftbench_embed(driftbench_render shaders BASE "${PROJECT_SOURCE_DIR}/shaders" FILES volume.vert volume.frag)
#
# The key of a file is its path as written, relative to BASE (default: the project folder). SHADERS leaves
# comments and indents behind.
function(driftbench_embed target name)
  cmake_parse_arguments(PARSE_ARGV 2 arg "SHADERS" "BASE" "FILES")
  if(NOT arg_BASE)
    set(arg_BASE "${PROJECT_SOURCE_DIR}")
  endif()
  set(folder "${PROJECT_BINARY_DIR}/generated/${target}")
  set(inputs ${arg_FILES})
  list(TRANSFORM inputs PREPEND "${arg_BASE}/")
  string(REPLACE ";" "|" keys "${arg_FILES}")
  set(script "${PROJECT_SOURCE_DIR}/src/embed.cmake")
  add_custom_command(
    OUTPUT "${folder}/embedded/${name}.cpp" "${folder}/embedded/${name}.h"
    COMMAND ${CMAKE_COMMAND} "-DNAME=${name}" "-DBASE=${arg_BASE}" "-DKEYS=${keys}"
            "-DSHADERS=${arg_SHADERS}" "-DFOLDER=${folder}/embedded" -P "${script}"
    DEPENDS ${inputs} "${script}"
    COMMENT "Embedding ${name}" VERBATIM)
  target_sources(${target} PRIVATE "${folder}/embedded/${name}.cpp" "${folder}/embedded/${name}.h")
  target_include_directories(${target} SYSTEM PUBLIC "${folder}")
endfunction()
