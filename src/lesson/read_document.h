// The frame that all our JSON files share: size limit, format word, version, then the content.
#pragma once

#include "base/json.h"
#include "base/json_reader.h"
#include "base/sha256.h"
#include "lesson/lesson.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

namespace driftbench::lesson {

inline constexpr std::string_view kLessonFormat = "driftbench-lesson";
inline constexpr std::string_view kKitFormat = "driftbench-kit";
inline constexpr std::string_view kSpecimenFormat = "driftbench-specimen";
inline constexpr std::string_view kSetFormat = "driftbench-set";
inline constexpr std::int64_t kFileVersion = 1;
inline constexpr std::size_t kMaxLessonBytes = std::size_t{1} << 20U;
inline constexpr std::size_t kMaxKitBytes = std::size_t{1} << 20U;
inline constexpr std::size_t kMaxSpecimenBytes = std::size_t{1} << 20U;
inline constexpr std::size_t kMaxSetBytes = std::size_t{1} << 20U;
inline constexpr int kMaxNesting = 32;
inline constexpr std::size_t kMaxRevisionBytes = 64;
inline constexpr std::int64_t kMaxBlocks = 50;  ///< of a lesson

/// What a file must say about itself.
struct DocumentKind {
  std::string_view format;
  std::int64_t version = kFileVersion;
  std::size_t max_bytes = 0;
};

/// Reads a document of one kind. `read_content(ObjectReader&) -> T` reads the fields that follow
/// "format" and "version"; it is not called when those are wrong, so that a file of another kind
/// gives one sentence and not fifty. Unknown fields are warned of at the end.
template <class T, class ReadContent>
[[nodiscard]] ReadOutcome<T> read_document(std::string_view text, std::string_view file_name,
                                           const DocumentKind& kind, ReadContent read_content) {
  ReadOutcome<T> outcome;
  outcome.file_name = std::string(file_name);
  const auto document = base::read_json(text, {kind.max_bytes, kMaxNesting});
  if (!document) {
    outcome.problems.push_back(document.error());
    return outcome;
  }
  base::ProblemList problems;
  base::ObjectReader reader(*document, "", problems);
  reader.require_format(kind.format);
  if (!problems.has_errors()) {
    reader.require_version(kind.version);
  }
  if (!problems.has_errors()) {
    T content = read_content(reader);
    reader.finish();
    if (!problems.has_errors()) {
      outcome.value = std::move(content);
    }
  }
  outcome.problems = problems.items();
  return outcome;
}

/// The same for content that keeps the SHA-256 of the exact bytes it was read from.
template <class T, class ReadContent>
[[nodiscard]] ReadOutcome<T> read_hashed_document(std::string_view text, std::string_view file_name,
                                                  const DocumentKind& kind,
                                                  ReadContent read_content) {
  ReadOutcome<T> outcome = read_document<T>(text, file_name, kind, read_content);
  if (outcome.value.has_value()) {
    outcome.value->sha256 = base::sha256_hex(text);
  }
  return outcome;
}

}  // namespace driftbench::lesson
