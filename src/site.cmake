# driftbench_site(target): the folder that is served and deployed, build/<preset>/site, from web/ and TARGET's
# .mjs and .wasm. Every page file that lies directly in web/ belongs to it.
function(driftbench_site target)
  set(site "${PROJECT_BINARY_DIR}/site")
  target_link_options(${target} PRIVATE -Os)  # the last pass over the program favours size; code keeps its own level
  file(GLOB pages CONFIGURE_DEPENDS RELATIVE "${PROJECT_SOURCE_DIR}/web" "${PROJECT_SOURCE_DIR}/web/*.html"
    "${PROJECT_SOURCE_DIR}/web/*.js" "${PROJECT_SOURCE_DIR}/web/*.css" "${PROJECT_SOURCE_DIR}/web/*.svg"
    "${PROJECT_SOURCE_DIR}/web/*.webmanifest")
  set(outputs "")
  foreach(page IN LISTS pages)
    add_custom_command(OUTPUT "${site}/${page}"
      COMMAND ${CMAKE_COMMAND} -E copy "${PROJECT_SOURCE_DIR}/web/${page}" "${site}/${page}"
      DEPENDS "${PROJECT_SOURCE_DIR}/web/${page}" COMMENT "Copying ${page}" VERBATIM)
    list(APPEND outputs "${site}/${page}")
  endforeach()
  set(program "$<TARGET_FILE_DIR:${target}>/$<TARGET_FILE_BASE_NAME:${target}>")
  add_custom_command(OUTPUT "${site}/${target}.mjs" "${site}/${target}.wasm"
    COMMAND ${CMAKE_COMMAND} -E copy "${program}.mjs" "${program}.wasm" "${site}/"
    DEPENDS ${target} COMMENT "Assembling the site" VERBATIM)
  add_custom_target(site ALL DEPENDS ${outputs} "${site}/${target}.mjs" "${site}/${target}.wasm")
endfunction()
