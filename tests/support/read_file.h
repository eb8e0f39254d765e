// Reads whole files of the project in tests.
#pragma once

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

namespace driftbench::support {

/// The exact bytes of a file, given relative to the project folder.
inline std::string read_file(const std::string& path_in_project) {
  const std::string path = std::string(DRIFTBENCH_SOURCE_DIR) + "/" + path_in_project;
  std::ifstream file(path, std::ios::binary);
  if (!file) {
    throw std::runtime_error("cannot open " + path);
  }
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

}  // namespace driftbench::support
