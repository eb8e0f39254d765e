// Lessons, sets, kits and pieces of jaw that were opened or came with a link: they stay in this
// browser.
#include "app/app.h"
#include "platform/host.h"
#include "ui/strings.h"

#include <algorithm>
#include <utility>

namespace driftbench::app {
namespace {

constexpr std::string_view kLessonEnding = ".lesson.json";
constexpr std::string_view kSetEnding = ".set.json";
constexpr std::string_view kSpecimenEnding = ".specimen.json";

std::string english(const lesson::LocalText& text) {
  return lesson::text_in(text, "en");
}

}  // namespace

bool App::is_library_file(std::string_view name) {
  return name.ends_with(kLessonEnding) || name.ends_with(kSetEnding) ||
         name.ends_with(kSpecimenEnding) || name.ends_with(".kit.json");
}

base::Result<std::string> App::add_file(const std::string& name, const std::string& text) {
  ui::OpenedFile file{name, name};
  if (name.ends_with(kLessonEnding)) {
    const auto added = library_.add_lesson(text, name);
    if (!added.has_value()) {
      return tl::make_unexpected(added.error());
    }
    const lesson::Lesson& lesson = *library_.lessons()[*added];
    if (is_whole_) {
      static_cast<void>(library_.load_cases());  // that it may be the first to name
    }
    file = {lesson.id + std::string(kLessonEnding), english(lesson.title)};
  } else if (name.ends_with(kSetEnding)) {
    const auto added = library_.add_set(text, name);
    if (!added.has_value()) {
      return tl::make_unexpected(added.error());
    }
    const lesson::LessonSet& set = *library_.sets()[*added];
    file = {set.id + std::string(kSetEnding), english(set.title)};
  } else {
    const auto added = name.ends_with(kSpecimenEnding) ? library_.add_case(text, name)
                                                       : library_.add_kit(text, name);
    if (!added.has_value()) {
      return tl::make_unexpected(added.error());
    }
  }
  opened_[file.name] = file;
  return file.name;
}

void App::take_kept(const platform::FileKept& file) {
  if (file.name.empty()) {
    open_lesson_of_address();
    return;
  }
  const auto added = add_file(file.name, file.text);
  if (!added.has_value()) {
    notify(added.error().message, true);
  } else if (file.is_new) {
    platform::keep_file(*added, file.text);
  }
  list_opened();
}

bool App::is_in_opened_set(std::string_view lesson_id, std::string_view other_than) const {
  return std::any_of(library_.sets().begin(), library_.sets().end(), [&](const auto& set) {
    return set->id != other_than && opened_.contains(set->id + std::string(kSetEnding)) &&
           std::any_of(set->lessons.begin(), set->lessons.end(),
                       [&](const auto& entry) { return entry.lesson_id == lesson_id; });
  });
}

// Lessons of an opened set go with the set.
void App::list_opened() {
  model_.opened.clear();
  for (const auto& [name, file] : opened_) {
    const bool is_lesson = name.ends_with(kLessonEnding);
    if (!is_lesson || !is_in_opened_set(name.substr(0, name.find('.')), {})) {
      model_.opened.push_back(file);
    }
  }
}

void App::forget_opened(const std::string& name) {
  std::string names = name;
  const std::string id = name.substr(0, name.find('.'));
  for (const auto& set : library_.sets()) {
    if (set->id == id && name.ends_with(kSetEnding)) {
      for (const lesson::SetEntry& entry : set->lessons) {
        const std::string file = lesson::lesson_file(entry);
        if (opened_.contains(file) && !is_in_opened_set(entry.lesson_id, id)) {
          names += "\n" + file;
        }
      }
    }
  }
  platform::forget_files(names);
}

}  // namespace driftbench::app
