#include "tools/files.h"

#include "embedded/assets.h"

#include "base/sha256.h"
#include "lesson/specimen_case.h"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>

namespace driftbench::tools {
namespace {

using base::ErrorCode;

namespace fs = std::filesystem;

/// Reads the file when it is there.
std::optional<Asset> asset_at(const fs::path& path) {
  std::error_code ignored;
  if (!fs::is_regular_file(path, ignored)) {
    return std::nullopt;
  }
  base::Result<std::string> bytes = read_file(path.string());
  return bytes ? std::optional(Asset{path.string(), std::move(*bytes)}) : std::nullopt;
}

std::optional<Asset> asset_above(const std::string& name, const std::string& near_file) {
  std::error_code failed;
  fs::path folder = fs::absolute(near_file, failed).parent_path();
  while (!failed && !folder.empty()) {
    if (std::optional<Asset> asset = asset_at(folder / "assets" / name)) {
      return asset;
    }
    if (folder == folder.parent_path()) {
      break;
    }
    folder = folder.parent_path();
  }
  return std::nullopt;
}

}  // namespace

base::Result<std::string> read_file(const std::string& path, std::size_t max_bytes) {
  std::error_code failed;
  const fs::file_status status = fs::status(path, failed);
  if (failed || !fs::exists(status)) {
    return base::fail(ErrorCode::kStorage,
                      fmt::format("{}: found no such file, expected one to read", path), path);
  }
  if (fs::is_directory(status)) {
    return base::fail(ErrorCode::kStorage, fmt::format("{}: found a folder, expected a file", path),
                      path);
  }
  const std::uintmax_t size = fs::file_size(path, failed);
  if (!failed && size > max_bytes) {
    return base::fail(ErrorCode::kOutOfRange,
                      fmt::format("{}: found {} bytes, expected at most {}", path, size, max_bytes),
                      path);
  }
  std::ifstream file(path, std::ios::binary);
  std::string bytes((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
  if (!file) {
    return base::fail(
        ErrorCode::kStorage,
        fmt::format("{}: found a file that cannot be read, expected to read it", path), path);
  }
  return bytes;
}

base::Result<void> write_file(const std::string& path, std::string_view bytes) {
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  file.close();
  if (!file) {
    return base::fail(ErrorCode::kStorage,
                      fmt::format("{}: found that it cannot be written, expected to write {} bytes",
                                  path, bytes.size()),
                      path);
  }
  return {};
}

base::Result<void> make_empty_folder(const std::string& path) {
  std::error_code failed;
  if (fs::exists(path, failed)) {
    if (!fs::is_directory(path, failed)) {
      return base::fail(ErrorCode::kMismatch,
                        fmt::format("{}: found a file, expected a folder", path), path);
    }
    const bool is_empty = fs::is_empty(path, failed);
    if (failed || !is_empty) {
      return base::fail(ErrorCode::kMismatch,
                        fmt::format("{}: found files in it, expected an empty folder", path), path);
    }
    return {};
  }
  fs::create_directories(path, failed);
  if (failed) {
    return base::fail(
        ErrorCode::kStorage,
        fmt::format("{}: found that the folder cannot be made ({})", path, failed.message()), path);
  }
  return {};
}

base::Result<Asset> find_asset(const std::string& name, const std::string& near_file,
                               const std::optional<std::string>& assets_folder) {
  if (assets_folder.has_value()) {
    const fs::path path = fs::path(*assets_folder) / name;
    if (std::optional<Asset> asset = asset_at(path)) {
      return std::move(*asset);
    }
    return base::fail(
        ErrorCode::kStorage,
        fmt::format("{}: found no such file, expected it in --assets", path.string()));
  }
  if (std::optional<Asset> asset = asset_above(name, near_file)) {
    return std::move(*asset);
  }
  const std::string key = "assets/" + name;
  const std::string_view bytes = embedded::assets(key);
  if (bytes.data() == nullptr) {
    return base::fail(ErrorCode::kStorage,
                      fmt::format("found no file {}, expected it near {}", key, near_file));
  }
  return Asset{key, std::string(bytes)};
}

base::Result<lesson::Lesson> load_lesson(const std::string& path) {
  const base::Result<std::string> text = read_file(path);
  if (!text) {
    return tl::unexpected<base::Error>(text.error());
  }
  lesson::ReadOutcome<lesson::Lesson> outcome = lesson::read_lesson(*text, path);
  if (!outcome.value.has_value()) {
    return base::fail(ErrorCode::kParse, outcome.first_error());
  }
  return std::move(*outcome.value);
}

base::Result<LoadedOperator> load_operator(const std::optional<std::string>& path,
                                           const std::string& near_file,
                                           const std::optional<std::string>& assets_folder) {
  base::Result<Asset> file = Asset{};
  if (path.has_value()) {
    const base::Result<std::string> bytes = read_file(*path);
    file = bytes ? base::Result<Asset>(Asset{*path, *bytes})
                 : base::Result<Asset>(tl::unexpected<base::Error>(bytes.error()));
  } else {
    file = find_asset("operators/novice.json", near_file, assets_folder);
  }
  if (!file) {
    return tl::unexpected<base::Error>(file.error());
  }
  lesson::ReadOutcome<session::OperatorProfile> outcome =
      session::read_operator(file->bytes, file->name);
  if (!outcome.value.has_value()) {
    return base::fail(ErrorCode::kParse, outcome.first_error());
  }
  return LoadedOperator{std::move(*outcome.value), base::sha256_hex(file->bytes)};
}

base::Result<specimen::Kit> load_kit(const std::string& kit_id, const std::string& near_file,
                                     const std::optional<std::string>& assets_folder) {
  const base::Result<Asset> asset =
      find_asset(fmt::format("kits/{}.kit.json", kit_id), near_file, assets_folder);
  if (!asset) {
    return tl::unexpected<base::Error>(asset.error());
  }
  lesson::ReadOutcome<specimen::Kit> outcome = lesson::read_kit(asset->bytes, asset->name);
  if (!outcome.value.has_value()) {
    return base::fail(ErrorCode::kParse, outcome.first_error(), asset->name);
  }
  return std::move(*outcome.value);
}

base::Result<std::optional<specimen::JawSite>> load_jaw(
    const lesson::LessonBlock& block, const std::string& near_file,
    const std::optional<std::string>& assets_folder) {
  if (block.case_id.empty()) {
    return std::nullopt;
  }
  const base::Result<Asset> asset = find_asset(
      fmt::format("specimens/{}.specimen.json", block.case_id), near_file, assets_folder);
  if (!asset) {
    return tl::unexpected<base::Error>(asset.error());
  }
  const auto outcome = lesson::read_specimen(asset->bytes, asset->name);
  if (!outcome.value.has_value()) {
    return base::fail(ErrorCode::kParse, outcome.first_error(), asset->name);
  }
  return std::optional<specimen::JawSite>(*outcome.value);
}

}  // namespace driftbench::tools
