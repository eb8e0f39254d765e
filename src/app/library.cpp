#include "app/library.h"

#include "embedded/cases.h"
#include "embedded/library.h"

#include "ui/strings.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>
#include <utility>

namespace driftbench::app {
namespace {

/// Gives what was read from a shipped file the SHA-256 of the whole file, as it stands in the
/// folder: it is embedded without its other languages.
template <class T>
void keep_whole_sum(T& read, std::string_view folder, std::string_view kind) {
  constexpr std::size_t kDigits = 64;
  const std::string_view sums = embedded::library("sums");
  const std::size_t at = sums.find(fmt::format(" {}/{}.{}.json\n", folder, read.id, kind));
  if (at != std::string_view::npos && at >= kDigits) {
    read.sha256 = sums.substr(at - kDigits, kDigits);
  }
}

/// Takes files of a kind; returns what was wrong with the first that was refused.
template <class Add>
std::string load(std::span<const embedded::File> files, std::string_view kind, Add add) {
  const std::string ending = fmt::format(".{}.json", kind);
  std::string trouble;
  for (const embedded::File& file : files) {
    if (file.path.ends_with(ending)) {
      if (const auto added = add(file); !added.has_value() && trouble.empty()) {
        trouble = added.error().message;
      }
    }
  }
  return trouble;
}

}  // namespace

std::string first_problem(const std::vector<base::Problem>& problems, std::string_view file_name) {
  const auto error = std::find_if(problems.begin(), problems.end(), [](const base::Problem& item) {
    return item.severity == base::Problem::Severity::kError;
  });
  if (error != problems.end()) {
    return error->sentence(file_name);
  }
  return problems.empty() ? std::string() : problems.front().sentence(file_name);
}

std::string Library::load_own() {
  std::string trouble = load(embedded::library(), "kit", [this](const embedded::File& file) {
    return add_kit(file.bytes, file.path);
  });
  std::string lessons = load(embedded::library(), "lesson", [this](const embedded::File& file) {
    return add_lesson(file.bytes, file.path);
  });
  for (const auto& lesson : lessons_) {
    keep_whole_sum(*lesson, "lessons", "lesson");
  }
  std::string sets = load(embedded::library(), "set", [this](const embedded::File& file) {
    return add_set(file.bytes, file.path);
  });
  for (std::string* more : {&lessons, &sets}) {
    trouble = trouble.empty() ? std::move(*more) : trouble;
  }
  return trouble;
}

std::string Library::load_cases() {
  const auto is_named = [this](const embedded::File& file) {
    return std::any_of(lessons_.begin(), lessons_.end(), [&](const auto& lesson) {
      return std::any_of(
          lesson->blocks.begin(), lesson->blocks.end(), [&](const lesson::LessonBlock& block) {
            return find_case(block.case_id) == nullptr &&
                   file.path.ends_with(fmt::format("/{}.specimen.json", block.case_id));
          });
    });
  };
  std::string trouble = load(embedded::cases(), "specimen", [&](const embedded::File& file) {
    return is_named(file) ? add_case(file.bytes, file.path) : base::Result<void>();
  });
  for (lesson::SpecimenCase& own : cases_) {
    keep_whole_sum(own, "assets/specimens", "specimen");
  }
  return trouble;
}

base::Result<std::size_t> Library::add_lesson(std::string_view text, std::string_view file_name) {
  lesson::ReadOutcome<lesson::Lesson> read = lesson::read_lesson(text, file_name);
  if (!read.value.has_value()) {
    return base::fail(base::ErrorCode::kParse, first_problem(read.problems, file_name));
  }
  if (find_kit(read.value->kit_id) == nullptr) {
    return base::fail(base::ErrorCode::kMismatch,
                      ui::say(ui::Str::kUnknownKit, file_name, read.value->kit_id));
  }
  auto lesson = std::make_unique<lesson::Lesson>(std::move(*read.value));
  if (const auto place = find_lesson(lesson->id); place.has_value()) {
    *lessons_[*place] = std::move(*lesson);
    return *place;
  }
  lessons_.push_back(std::move(lesson));
  return lessons_.size() - 1;
}

base::Result<std::size_t> Library::add_set(std::string_view text, std::string_view file_name) {
  lesson::ReadOutcome<lesson::LessonSet> read = lesson::read_set(text, file_name);
  if (!read.value.has_value()) {
    return base::fail(base::ErrorCode::kParse, first_problem(read.problems, file_name));
  }
  for (const lesson::SetEntry& entry : read.value->lessons) {
    const auto place = find_lesson(entry.lesson_id);
    if (!place.has_value()) {
      return base::fail(base::ErrorCode::kMismatch,
                        ui::say(ui::Str::kSetLacks, file_name, entry.lesson_id));
    }
    if (const auto misfit = lesson::misfits(entry, *lessons_[*place]); !misfit.empty()) {
      return base::fail(base::ErrorCode::kMismatch, std::string(file_name) + ": " + misfit.front());
    }
  }
  auto set = std::make_unique<lesson::LessonSet>(std::move(*read.value));
  const auto same = std::find_if(sets_.begin(), sets_.end(),
                                 [&set](const auto& known) { return known->id == set->id; });
  if (same != sets_.end()) {
    **same = std::move(*set);
    return static_cast<std::size_t>(same - sets_.begin());
  }
  sets_.push_back(std::move(set));
  return sets_.size() - 1;
}

base::Result<void> Library::add_kit(std::string_view text, std::string_view file_name) {
  lesson::ReadOutcome<specimen::Kit> read = lesson::read_kit(text, file_name);
  if (!read.value.has_value()) {
    return base::fail(base::ErrorCode::kParse, first_problem(read.problems, file_name));
  }
  const auto same = std::find_if(kits_.begin(), kits_.end(), [&read](const specimen::Kit& kit) {
    return kit.id == read.value->id;
  });
  if (same != kits_.end()) {
    *same = std::move(*read.value);
  } else {
    kits_.push_back(std::move(*read.value));
  }
  return {};
}

base::Result<void> Library::add_case(std::string_view text, std::string_view file_name) {
  lesson::ReadOutcome<lesson::SpecimenCase> read = lesson::read_specimen(text, file_name);
  if (!read.value.has_value()) {
    return base::fail(base::ErrorCode::kParse, first_problem(read.problems, file_name));
  }
  const lesson::SpecimenCase* same = find_case(read.value->id);
  if (same != nullptr) {
    cases_[static_cast<std::size_t>(same - cases_.data())] = std::move(*read.value);
  } else {
    cases_.push_back(std::move(*read.value));
  }
  return {};
}

std::optional<std::size_t> Library::find_lesson(std::string_view id) const {
  for (std::size_t i = 0; i < lessons_.size(); ++i) {
    if (lessons_[i]->id == id) {
      return i;
    }
  }
  return std::nullopt;
}

const specimen::Kit* Library::find_kit(std::string_view id) const {
  const auto found = std::find_if(kits_.begin(), kits_.end(),
                                  [id](const specimen::Kit& kit) { return kit.id == id; });
  return found == kits_.end() ? nullptr : &*found;
}

const lesson::SpecimenCase* Library::find_case(std::string_view id) const {
  const auto found =
      std::find_if(cases_.begin(), cases_.end(),
                   [id](const lesson::SpecimenCase& specimen) { return specimen.id == id; });
  return found == cases_.end() ? nullptr : &*found;
}

}  // namespace driftbench::app
