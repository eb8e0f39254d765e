// Files and folders of the command-line tool.
#pragma once

#include "base/result.h"
#include "lesson/lesson.h"
#include "session/operator_profile.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace driftbench::tools {

/// Largest file that is read unless a command says otherwise.
inline constexpr std::size_t kMaxFile_bytes = std::size_t{64} << 20U;

/// Exact bytes of a file.
///
/// Errors: kStorage when it cannot be read; kOutOfRange above `max_bytes`
[[nodiscard]] base::Result<std::string> read_file(const std::string& path,
                                                  std::size_t max_bytes = kMaxFile_bytes);

/// Errors: kStorage
base::Result<void> write_file(const std::string& path, std::string_view bytes);

/// Makes the folder (and those above it).
///
/// Errors: kStorage when it cannot be made; kMismatch when it is there and not empty
base::Result<void> make_empty_folder(const std::string& path);

/// A file of the assets: from `assets_folder` when given, else from an 'assets' folder beside or
/// above `near_file`, else the copy inside this program. `name` is like "kits/bench.kit.json".
struct Asset {
  std::string name;  ///< for messages: the path, or the name of the embedded copy
  std::string bytes;
};

/// Errors: kStorage when no such file is found
[[nodiscard]] base::Result<Asset> find_asset(const std::string& name, const std::string& near_file,
                                             const std::optional<std::string>& assets_folder);

/// Errors: kStorage when it cannot be read; kParse with the first error of the file
[[nodiscard]] base::Result<lesson::Lesson> load_lesson(const std::string& path);

struct LoadedOperator {
  session::OperatorProfile profile;
  std::string sha256;  ///< of the bytes of its file
};

/// The operator of `path` when given, else the novice of the assets.
///
/// Errors: as load_lesson()
[[nodiscard]] base::Result<LoadedOperator> load_operator(
    const std::optional<std::string>& path, const std::string& near_file,
    const std::optional<std::string>& assets_folder);

/// The kit that a lesson names.
///
/// Errors: kStorage when there is none of that id; kParse with the first error of its file
[[nodiscard]] base::Result<specimen::Kit> load_kit(const std::string& kit_id,
                                                   const std::string& near_file,
                                                   const std::optional<std::string>& assets_folder);

/// The piece of jaw that a block of a lesson names; nothing for a block of foam.
///
/// Errors: as load_kit()
[[nodiscard]] base::Result<std::optional<specimen::JawSite>> load_jaw(
    const lesson::LessonBlock& block, const std::string& near_file,
    const std::optional<std::string>& assets_folder);

}  // namespace driftbench::tools
