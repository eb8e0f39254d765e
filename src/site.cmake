# The folder that is served and deployed, build/<preset>/site: every page file that lies in web/ or in a folder of a page
# there, and the programs that the pages load.

# driftbench_page_program(target main.cpp [LATER list] LIBS ...): an ES module that a page starts, put into the site.
# With LATER it comes in two parts: TARGET.wasm starts, and TARGET_later.wasm, which follows, holds the functions of the
# source files that the list names (src/split.mjs).
function(driftbench_page_program target source)
  cmake_parse_arguments(PARSE_ARGV 2 arg "" "LATER" "LIBS")
  add_executable(${target} ${source})
  target_link_libraries(${target} PRIVATE driftbench_flags ${arg_LIBS})
  set_target_properties(${target} PROPERTIES SUFFIX ".mjs")
  # The last pass over the program favours size (-Os); code keeps its own level.
  target_link_options(${target} PRIVATE -Os
    -sMODULARIZE=1 -sEXPORT_ES6=1 -sEXPORT_NAME=createApp -sENVIRONMENT=web,worker
    -sFILESYSTEM=0 -sDYNAMIC_EXECUTION=0 -sMIN_WEBGL_VERSION=2 -sMAX_WEBGL_VERSION=2
    -sALLOW_MEMORY_GROWTH=1 -sINITIAL_MEMORY=67108864 -sMAXIMUM_MEMORY=268435456
    -sEXPORTED_RUNTIME_METHODS=UTF8ToString,stringToUTF8,lengthBytesUTF8 -sEXPORTED_FUNCTIONS=_main,_malloc,_free)
  set(site "${PROJECT_BINARY_DIR}/site")
  set(program "$<TARGET_FILE_DIR:${target}>/$<TARGET_FILE_BASE_NAME:${target}>")
  find_program(DRIFTBENCH_TERSER terser REQUIRED)
  add_custom_command(OUTPUT "${site}/${target}.mjs"
    COMMAND ${CMAKE_COMMAND} -E env NODE_PATH=/usr/share/nodejs "${DRIFTBENCH_TERSER}" "${program}.mjs" --module -c passes=3 -m
            --ecma 2020 -o "${site}/${target}.mjs"
    DEPENDS ${target} COMMENT "Shortening ${target}.mjs" VERBATIM)
  if(arg_LATER)
    find_program(DRIFTBENCH_NODE NAMES node nodejs REQUIRED)
    find_program(DRIFTBENCH_WASM_SPLIT wasm-split HINTS "${EMSCRIPTEN_ROOT_PATH}/../bin" REQUIRED)
    find_program(DRIFTBENCH_NM NAMES llvm-nm llvm-nm-14 HINTS "${EMSCRIPTEN_ROOT_PATH}/../bin" REQUIRED)
    target_link_options(${target} PRIVATE --profiling-funcs -Wl,--no-demangle)  # the split takes the names out again
    set(parts "${site}/${target}.wasm" "${site}/${target}_later.wasm")
    add_custom_command(OUTPUT ${parts}
      COMMAND "${DRIFTBENCH_NODE}" "${PROJECT_SOURCE_DIR}/src/split.mjs" "${program}.wasm" "${arg_LATER}"
              "${PROJECT_BINARY_DIR}/src" "${DRIFTBENCH_WASM_SPLIT}" "${DRIFTBENCH_NM}" ${parts}
      DEPENDS ${target} "${arg_LATER}" "${PROJECT_SOURCE_DIR}/src/split.mjs" COMMENT "Splitting ${target}.wasm" VERBATIM)
  else()
    set(parts "${site}/${target}.wasm")
    add_custom_command(OUTPUT ${parts} COMMAND ${CMAKE_COMMAND} -E copy "${program}.wasm" "${site}/"
      DEPENDS ${target} COMMENT "Copying ${target}.wasm into the site" VERBATIM)
  endif()
  add_custom_target(site_${target} DEPENDS "${site}/${target}.mjs" ${parts})
  driftbench_site_pages()
  add_dependencies(site site_${target})
endfunction()

# The target `site`, once: it copies the pages, and shortens their JavaScript.
function(driftbench_site_pages)
  if(TARGET site)
    return()
  endif()
  set(site "${PROJECT_BINARY_DIR}/site")
  file(GLOB pages CONFIGURE_DEPENDS RELATIVE "${PROJECT_SOURCE_DIR}/web" "${PROJECT_SOURCE_DIR}/web/*.html"
    "${PROJECT_SOURCE_DIR}/web/*.js" "${PROJECT_SOURCE_DIR}/web/*.css" "${PROJECT_SOURCE_DIR}/web/*.svg"
    "${PROJECT_SOURCE_DIR}/web/*.webmanifest" "${PROJECT_SOURCE_DIR}/web/*/*.js" "${PROJECT_SOURCE_DIR}/web/*/*.css")
  set(outputs "")
  find_program(DRIFTBENCH_TERSER terser REQUIRED)
  foreach(page IN LISTS pages)
    set(copy ${CMAKE_COMMAND} -E copy "${PROJECT_SOURCE_DIR}/web/${page}" "${site}/${page}")
    if(page MATCHES "\\.js$")  # all are ES modules
      set(copy ${CMAKE_COMMAND} -E env NODE_PATH=/usr/share/nodejs "${DRIFTBENCH_TERSER}"
        "${PROJECT_SOURCE_DIR}/web/${page}" --module -c passes=3 -m --ecma 2020 -o "${site}/${page}")
    endif()
    get_filename_component(folder "${site}/${page}" DIRECTORY)
    file(MAKE_DIRECTORY "${folder}")
    add_custom_command(OUTPUT "${site}/${page}" COMMAND ${copy}
      DEPENDS "${PROJECT_SOURCE_DIR}/web/${page}" COMMENT "Putting ${page} into the site" VERBATIM)
    list(APPEND outputs "${site}/${page}")
  endforeach()
  # Other languages, for each program (src/languages.mjs); `long` is for tests of the layout.
  file(GLOB languages CONFIGURE_DEPENDS RELATIVE "${PROJECT_SOURCE_DIR}/assets/languages" "${PROJECT_SOURCE_DIR}/assets/languages/*.json")
  file(GLOB said CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/assets/languages/*.json" "${PROJECT_SOURCE_DIR}/lessons/*.json"
    "${PROJECT_SOURCE_DIR}/assets/specimens/*.json" "${PROJECT_SOURCE_DIR}/src/*/strings_en.inc")
  find_program(DRIFTBENCH_NODE NAMES node nodejs REQUIRED)
  foreach(language IN LISTS languages ITEMS long.json)
    string(REPLACE ".json" "" code "${language}")
    set(texts "${site}/app.${code}.json" "${site}/desk.${code}.json")
    add_custom_command(OUTPUT ${texts}
      COMMAND "${DRIFTBENCH_NODE}" "${PROJECT_SOURCE_DIR}/src/languages.mjs" texts "${PROJECT_SOURCE_DIR}" "${code}" "${site}"
      DEPENDS ${said} "${PROJECT_SOURCE_DIR}/src/languages.mjs" COMMENT "Putting the texts of '${code}' together" VERBATIM)
    list(APPEND outputs ${texts})
  endforeach()
  # Last of all, over the files of all programs: what works without a network.
  add_custom_target(site ALL COMMAND "${DRIFTBENCH_NODE}" "${PROJECT_SOURCE_DIR}/src/offline.mjs" "${site}"
    DEPENDS ${outputs} COMMENT "Listing the site's files for use without a network" VERBATIM)
endfunction()
