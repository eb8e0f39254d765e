# The app's typeface, subset at build time into DRIFTBENCH_FONT_DIR: Open Sans for text, and for the arrows,
# shapes and check marks that it lacks, DejaVu Sans (Debian packages fonts-open-sans and fonts-dejavu-core).

set(DRIFTBENCH_FONT_DIR "${PROJECT_BINARY_DIR}/generated/fonts")
set(DRIFTBENCH_FONT_FILES text_regular.ttf text_semibold.ttf symbols.ttf)
find_program(DRIFTBENCH_PYFTSUBSET pyftsubset)
foreach(row "open-sans OpenSans-Regular.ttf OPEN_SANS" "dejavu DejaVuSans.ttf DEJAVU")
  string(REPLACE " " ";" row "${row}")
  list(GET row 0 folder)
  list(GET row 1 file)
  list(GET row 2 name)
  find_path(DRIFTBENCH_${name} "${file}" PATHS "/usr/share/fonts/truetype/${folder}" NO_CMAKE_FIND_ROOT_PATH)
  mark_as_advanced(DRIFTBENCH_${name})
endforeach()
mark_as_advanced(DRIFTBENCH_PYFTSUBSET)

set(DRIFTBENCH_HAS_FONTS OFF)
if(DRIFTBENCH_PYFTSUBSET AND DRIFTBENCH_OPEN_SANS AND DRIFTBENCH_DEJAVU)
  set(DRIFTBENCH_HAS_FONTS ON)
endif()

function(driftbench_subset source target unicodes)
  add_custom_command(OUTPUT "${DRIFTBENCH_FONT_DIR}/${target}"
    COMMAND ${CMAKE_COMMAND} -E make_directory "${DRIFTBENCH_FONT_DIR}"
    COMMAND ${CMAKE_COMMAND} -E env SOURCE_DATE_EPOCH=0 "${DRIFTBENCH_PYFTSUBSET}" "${source}"
            "--unicodes=${unicodes}" --no-hinting "--layout-features=" --drop-tables+=GSUB,GPOS,GDEF,kern,DSIG,gasp,FFTM
            --name-IDs=1,2,13,14 --no-recalc-timestamp "--output-file=${DRIFTBENCH_FONT_DIR}/${target}"
    DEPENDS "${source}" COMMENT "Making the font ${target}" VERBATIM)
endfunction()

# Embeds DRIFTBENCH_FONT_FILES into TARGET: driftbench::embedded::fonts("text_regular.ttf"), "embedded/fonts.h".
function(driftbench_embed_fonts target)
  if(NOT DRIFTBENCH_HAS_FONTS)
    message(FATAL_ERROR "The fonts are missing: install the Debian packages fonttools, fonts-open-sans, fonts-dejavu-core.")
  endif()
  # Latin, Latin-1, Latin Extended-A, the Greek letters of formulas, dashes, quotes, dots, primes, fraction slash,
  # super- and subscripts, euro, delta, sum, minus, root, infinity, almost equal, not equal, less and greater or equal.
  string(CONCAT text "U+0020-007E,U+00A0-017F,U+0394,U+03A3,U+03B1,U+03B2,U+03BC,U+03C0,U+03C1,U+03C3,U+2010-2015,"
    "U+2018-201E,U+2020-2022,U+2026,U+2030,U+2032,U+2033,U+2039,U+203A,U+2044,U+2070-2079,U+20AC,U+2206,U+2211,"
    "U+2212,U+221A,U+221E,U+2248,U+2260,U+2264,U+2265")
  # Subscripts, arrows (also rotating ones), diameter sign, plain shapes, check marks and crosses, warning sign.
  string(CONCAT symbols "U+2080-2089,U+2190-2199,U+21A9,U+21AA,U+21BA,U+21BB,U+21E7,U+2300,U+25A0,U+25A1,U+25B2,U+25B3,"
    "U+25B6,U+25B7,U+25BC,U+25BD,U+25C0,U+25C1,U+25C6,U+25C7,U+25CB,U+25CE,U+25CF,U+26A0,U+2713-2718")
  driftbench_subset("${DRIFTBENCH_OPEN_SANS}/OpenSans-Regular.ttf" text_regular.ttf "${text}")
  driftbench_subset("${DRIFTBENCH_OPEN_SANS}/OpenSans-Semibold.ttf" text_semibold.ttf "${text}")
  driftbench_subset("${DRIFTBENCH_DEJAVU}/DejaVuSans.ttf" symbols.ttf "${symbols}")
  driftbench_embed(${target} fonts BASE "${DRIFTBENCH_FONT_DIR}" FILES ${DRIFTBENCH_FONT_FILES})
endfunction()
