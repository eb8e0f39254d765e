// What is wrong at one place of a file, and a list of such findings.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::base {

/// One finding: where, what was found, what was expected.
struct Problem {
  enum class Severity {
    kWarning,  ///< the file can be used all the same
    kError,    ///< the file is refused
  };

  int line = 0;          ///< from 1; 0 when the place is unknown
  int column = 0;        ///< from 1, in characters; 0 when unknown
  std::string path;      ///< like "blocks[1].boundary_offset_mm"; empty for the whole document
  std::string found;     ///< noun phrase
  std::string expected;  ///< noun phrase
  Severity severity = Severity::kError;

  /// "file:line:column: path: found X, expected Y".
  [[nodiscard]] std::string sentence(std::string_view file) const;
};

/// Findings of one file in the order in which they were met.
class ProblemList {
 public:
  /// Findings beyond this many are counted, not kept.
  static constexpr std::size_t kMaxKept = 200;

  void add(Problem problem);

  [[nodiscard]] const std::vector<Problem>& items() const { return items_; }

  [[nodiscard]] bool empty() const { return items_.empty(); }

  [[nodiscard]] bool has_errors() const { return error_count_ > 0; }

  [[nodiscard]] std::size_t error_count() const { return error_count_; }

  /// How many findings were met but not kept.
  [[nodiscard]] std::size_t dropped_count() const { return dropped_count_; }

  /// The first error, as a sentence; empty when there is none.
  [[nodiscard]] std::string first_error(std::string_view file) const;

 private:
  std::vector<Problem> items_;
  std::size_t error_count_ = 0;
  std::size_t dropped_count_ = 0;
};

}  // namespace driftbench::base
