// Bad files with the sentence that each must give: tests/corpus/<kind>/expected.txt.
#pragma once

#include "support/read_file.h"

#include <sstream>
#include <string>
#include <vector>

namespace driftbench::support {

/// One bad file and the whole sentence about its first error.
struct CorpusCase {
  std::string file;
  std::string sentence;  ///< starts with the file name
};

/// Rows of the list: "name: rest of the sentence"; lines with # are comments.
inline std::vector<CorpusCase> corpus(const std::string& kind) {
  std::vector<CorpusCase> cases;
  std::istringstream list(read_file("tests/corpus/" + kind + "/expected.txt"));
  for (std::string line; std::getline(list, line);) {
    if (!line.empty() && line[0] != '#') {
      cases.push_back({line.substr(0, line.find(':')), line});
    }
  }
  return cases;
}

}  // namespace driftbench::support
