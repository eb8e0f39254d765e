#include "lesson/authoring.h"

#include "base/json_writer.h"
#include "base/sha256.h"
#include "lesson/kit_json.h"
#include "lesson/read_document.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace driftbench::lesson {
namespace {

using base::Problem;

/// Adds an error at element `index` of a top-level array.
void add_at(AuthoredText& about, std::string_view text, std::string_view array, std::size_t index,
            std::string found, std::string expected) {
  Problem problem;
  const auto document = base::read_json(text, {kMaxLessonBytes, kMaxNesting});
  const base::JsonValue* items = document.has_value() ? document->find(array) : nullptr;
  if (items != nullptr && items->is_array() && index < items->items().size()) {
    problem.line = items->items()[index].line();
    problem.column = items->items()[index].column();
  }
  problem.path = fmt::format("{}[{}]", array, index);
  problem.found = std::move(found);
  problem.expected = std::move(expected);
  about.problems.push_back(std::move(problem));
}

/// Keeps what was read under its id, and its text as we write it.
template <class T, class Map, class Write>
void keep(ReadOutcome<T>& read, Map& map, AuthoredText& about, Write write) {
  about.id = read.value->id;
  about.canonical = write(*read.value);
  about.sha256 = base::sha256_hex(about.canonical);
  map.insert_or_assign(about.id, std::move(*read.value));
}

std::string format_of(std::string_view text, AuthoredText& about) {
  const auto document = base::read_json(text, {kMaxLessonBytes, kMaxNesting});
  if (!document.has_value()) {
    about.problems.push_back(document.error());
    return {};
  }
  const base::JsonValue* field = document->find("format");
  return field != nullptr && field->is_string() ? field->as_string() : std::string();
}

}  // namespace

bool AuthoredText::is_good() const {
  return std::none_of(problems.begin(), problems.end(), [](const Problem& problem) {
    return problem.severity == Problem::Severity::kError;
  });
}

AuthoredText Authoring::take(std::string_view text, std::string_view file_name) {
  AuthoredText about;
  const std::string format = format_of(text, about);
  if (format == kLessonFormat) {
    about.kind = "lesson";
    auto read = read_lesson(text, file_name);
    about.problems = read.problems;
    if (read.value.has_value()) {
      hold_lesson(*read.value, text, about);
      keep(read, lessons_, about, write_lesson);
    }
  } else if (format == kSetFormat) {
    about.kind = "set";
    auto read = read_set(text, file_name);
    about.problems = read.problems;
    if (read.value.has_value()) {
      hold_set(*read.value, text, about);
      about.id = read.value->id;
      about.canonical = write_set(*read.value);
      about.sha256 = base::sha256_hex(about.canonical);
    }
  } else if (format == kKitFormat) {
    about.kind = "kit";
    auto read = read_kit(text, file_name);
    about.problems = read.problems;
    if (read.value.has_value()) {
      about.id = read.value->id;
      about.canonical = write_kit(*read.value);
      about.sha256 = base::sha256_hex(about.canonical);
      kits_.insert_or_assign(about.id, std::move(*read.value));
    }
  } else if (format == kSpecimenFormat) {
    about.kind = "specimen";
    auto read = read_specimen(text, file_name);
    about.problems = read.problems;
    if (read.value.has_value()) {
      keep(read, cases_, about, write_specimen);
    }
  } else if (about.problems.empty()) {
    Problem problem;
    problem.path = "format";
    problem.found = format.empty() ? "no word for the format" : "the format \"" + format + "\"";
    problem.expected = fmt::format("\"{}\", \"{}\", \"{}\" or \"{}\"", kLessonFormat, kSetFormat,
                                   kKitFormat, kSpecimenFormat);
    about.problems.push_back(std::move(problem));
  }
  return about;
}

void Authoring::hold_lesson(const Lesson& lesson, std::string_view text,
                            AuthoredText& about) const {
  const auto kit = kits_.find(lesson.kit_id);
  if (kit == kits_.end()) {
    Problem problem;
    problem.path = "kit";
    problem.found = "the kit \"" + lesson.kit_id + "\", which is not known here";
    problem.expected = "a kit of the app, or one that was opened";
    about.problems.push_back(std::move(problem));
    return;
  }
  for (std::size_t i = 0; i < lesson.blocks.size(); ++i) {
    const auto jaw = cases_.find(lesson.blocks[i].case_id);
    const auto setup = resolve(lesson, kit->second, i, 0, std::nullopt,
                               jaw != cases_.end() ? &jaw->second : nullptr);
    if (!setup.has_value()) {
      add_at(about, text, "blocks", i, "what does not fit: " + setup.error().message,
             "instruments that the kit has, and a plan that the specimen has room for");
    }
  }
}

void Authoring::hold_set(const LessonSet& set, std::string_view text, AuthoredText& about) const {
  for (std::size_t i = 0; i < set.lessons.size(); ++i) {
    const auto lesson = lessons_.find(set.lessons[i].lesson_id);
    if (lesson == lessons_.end()) {
      add_at(about, text, "lessons", i,
             "the lesson \"" + set.lessons[i].lesson_id + "\", which is not known here",
             "a lesson of the app, or one that was opened and is good");
      continue;
    }
    for (const std::string& sentence : misfits(set.lessons[i], lesson->second)) {
      add_at(about, text, "lessons", i, "what does not fit: " + sentence,
             "a lesson as the set names it");
    }
  }
}

std::string write_authored(const AuthoredText& about) {
  base::JsonWriter writer(base::JsonLayout::kCompact);
  writer.begin_object().field("kind", about.kind).field("id", about.id);
  writer.field("sha256", about.sha256).key("text");
  if (about.canonical.empty()) {
    writer.null();
  } else {
    writer.value(about.canonical);
  }
  writer.key("problems").begin_array();
  for (const Problem& problem : about.problems) {
    const bool is_error = problem.severity == Problem::Severity::kError;
    writer.begin_object().field("line", problem.line).field("column", problem.column);
    writer.field("path", problem.path).field("found", problem.found);
    writer.field("expected", problem.expected).field("is_error", is_error).end_object();
  }
  writer.end_array().end_object();
  return writer.take();
}

}  // namespace driftbench::lesson
