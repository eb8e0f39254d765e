# Writes FOLDER/NAME.h and NAME.cpp that hold the bytes of BASE/KEY for every KEY; run at build time. With SHADERS the
# comments, indents and spaces around marks stay behind: the text is downloaded. Lines keep their numbers.

string(REPLACE "|" ";" keys "${KEYS}")
set(arrays "")
set(rows "")
set(index 0)
foreach(key IN LISTS keys)
  set(source "${BASE}/${key}")
  if(SHADERS)
    file(READ "${source}" text)
    string(REGEX REPLACE "[ \t]*//[^\n]*" "" text "${text}")
    string(REGEX REPLACE "\n[ \t]+" "\n" text "${text}")
    string(REGEX REPLACE " *([=*/<>,?:(){};]) *" "\\1" text "${text}")
    set(source "${FOLDER}/${NAME}.text")
    file(WRITE "${source}" "${text}")
  endif()
  file(SIZE "${source}" size)
  file(READ "${source}" hex HEX)
  # Octal escapes would need arithmetic; hexadecimal ones need the literal cut, so each line is its own literal.
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "\\\\x\\1" bytes "${hex}")
  string(REGEX REPLACE "((\\\\x[0-9a-f][0-9a-f])(\\\\x[0-9a-f][0-9a-f])(\\\\x[0-9a-f][0-9a-f])(\\\\x[0-9a-f][0-9a-f])(\\\\x[0-9a-f][0-9a-f])(\\\\x[0-9a-f][0-9a-f])(\\\\x[0-9a-f][0-9a-f])(\\\\x[0-9a-f][0-9a-f]))" "\\1\"\n\"" bytes "${bytes}")
  string(APPEND arrays "constexpr char bytes_${index}[] =\n\"${bytes}\";\n")
  string(APPEND rows "    File{\"${key}\", std::string_view{bytes_${index}, ${size}}},\n")
  math(EXPR index "${index} + 1")
endforeach()

file(WRITE "${FOLDER}/${NAME}.h.new" "// Generated: the files embedded as '${NAME}'.
#pragma once

#include <span>
#include <string_view>

#ifndef DRIFTBENCH_EMBEDDED_FILE
#define DRIFTBENCH_EMBEDDED_FILE
namespace driftbench::embedded {

/// One embedded file; `bytes` lives as long as the program and is followed by a zero byte.
struct File {
  std::string_view path;   ///< relative path, the key
  std::string_view bytes;  ///< the exact contents; of shaders without comments and indents
};

}  // namespace driftbench::embedded
#endif

namespace driftbench::embedded {

/// All files of '${NAME}', in the order of the build file.
std::span<const File> ${NAME}();

/// The contents of one file, or a view whose data() is null when there is none of that path.
std::string_view ${NAME}(std::string_view path);

}  // namespace driftbench::embedded
")

file(WRITE "${FOLDER}/${NAME}.cpp.new" "// Generated: the files embedded as '${NAME}'.
#include \"embedded/${NAME}.h\"

namespace driftbench::embedded {
namespace {

${arrays}
constexpr File files[] = {
${rows}};

}  // namespace

std::span<const File> ${NAME}() { return files; }

std::string_view ${NAME}(std::string_view path) {
  for (const File& file : files) {
    if (file.path == path) {
      return file.bytes;
    }
  }
  return {};
}

}  // namespace driftbench::embedded
")

foreach(kind h cpp)
  file(COPY_FILE "${FOLDER}/${NAME}.${kind}.new" "${FOLDER}/${NAME}.${kind}")
  file(REMOVE "${FOLDER}/${NAME}.${kind}.new")
endforeach()
