#include "base/json.h"
#include "base/json_writer.h"
#include "classroom/experiment.h"
#include "lesson/lesson_set.h"
#include "lesson/read_document.h"
#include "lesson/specimen_case.h"
#include "record/attempt.h"
#include "record/attempt_json.h"
#include "session/virtual_operator.h"
#include "tools/commands.h"
#include "tools/files.h"
#include "tools/output.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

namespace driftbench::tools {
namespace {

using base::Problem;

constexpr std::string_view kOperatorFormat = "driftbench-operator";

constexpr std::string_view kHelp =
    R"(driftbench check: reads files and says what is wrong with them, with line and column.

usage: driftbench check FILE... [--assets DIR] [--json]

Files may be lessons, sets, kits, specimens, operators, attempts and planned experiments; "format" inside the file says which. A lesson is also
held against its kit, a set against the lessons beside it, an attempt against its digests. Unknown fields are warnings; anything else is an error.
Sizes: lesson, set, kit and specimen at most 1 MiB, operator 64 KiB, attempt 32 MiB; nesting at most 32.

  --assets   folder with kits/ and specimens/ (default: an 'assets' folder beside or above the file, else the built-in one)

Exit code 0: no errors; 1: errors; 2: a file could not be read at all.

example: driftbench check lessons/find-the-centre.lesson.json assets/kits/bench.kit.json
)";

struct Checked {
  std::string file;
  bool is_readable = true;
  std::vector<Problem> problems;

  [[nodiscard]] bool is_good() const {
    return std::none_of(problems.begin(), problems.end(), [](const Problem& problem) {
      return problem.severity == Problem::Severity::kError;
    });
  }
};

/// A problem at a top-level field of a document.
Problem problem_at(const base::JsonValue& document, std::string_view field, std::string found,
                   std::string expected) {
  Problem problem;
  const base::JsonValue* value = document.find(field);
  problem.line = value != nullptr ? value->line() : document.line();
  problem.column = value != nullptr ? value->column() : document.column();
  problem.path = field;
  problem.found = std::move(found);
  problem.expected = std::move(expected);
  return problem;
}

std::vector<Problem> check_lesson(const std::string& text, const std::string& file,
                                  const base::JsonValue& document,
                                  const std::optional<std::string>& assets) {
  lesson::ReadOutcome<lesson::Lesson> outcome = lesson::read_lesson(text, file);
  if (!outcome.value.has_value()) {
    return outcome.problems;
  }
  const base::Result<specimen::Kit> kit = load_kit(outcome.value->kit_id, file, assets);
  if (!kit) {
    outcome.problems.push_back(
        problem_at(document, "kit", kit.error().message, "a kit that can be read"));
    return outcome.problems;
  }
  for (std::size_t i = 0; i < outcome.value->blocks.size(); ++i) {
    const auto setup =
        load_jaw(outcome.value->blocks[i], file, assets).and_then([&](const auto& jaw) {
          return lesson::resolve(*outcome.value, *kit, i, 0, std::nullopt, jaw ? &*jaw : nullptr);
        });
    if (!setup) {
      outcome.problems.push_back(problem_at(
          document, "blocks",
          fmt::format("in block {} that it does not fit: {}", i + 1, setup.error().message),
          "instruments that the kit has, and a plan that the specimen has room for"));
    }
  }
  return outcome.problems;
}

/// A set and the lessons that lie beside it.
std::vector<Problem> check_set(const std::string& text, const std::string& file,
                               const base::JsonValue& document) {
  lesson::ReadOutcome<lesson::LessonSet> outcome = lesson::read_set(text, file);
  if (!outcome.value.has_value()) {
    return outcome.problems;
  }
  const std::filesystem::path folder = std::filesystem::path(file).parent_path();
  const auto note = [&](std::string found, std::string expected) {
    outcome.problems.push_back(
        problem_at(document, "lessons", std::move(found), std::move(expected)));
  };
  for (const lesson::SetEntry& entry : outcome.value->lessons) {
    const std::string name = lesson::lesson_file(entry);
    const base::Result<std::string> content = read_file((folder / name).string());
    if (!content) {
      note(content.error().message, "the lessons of the set beside it");
      continue;
    }
    const auto read = lesson::read_lesson(*content, name);
    if (!read.value.has_value()) {
      note("a lesson that is wrong: " + read.first_error(), "lessons without an error");
      continue;
    }
    for (const std::string& sentence : lesson::misfits(entry, *read.value)) {
      note("a lesson that does not fit: " + sentence, "lessons as the set names them");
    }
  }
  return outcome.problems;
}

std::vector<Problem> check_attempt(const std::string& text, const std::string& file,
                                   const base::JsonValue& document) {
  lesson::ReadOutcome<record::AttemptFile> outcome = record::read_attempt(text, file);
  if (outcome.value.has_value()) {
    for (const std::string& link : record::check_chain(*outcome.value).broken) {
      Problem problem = problem_at(document, "digests",
                                   fmt::format("a digest of the {} that does not match", link),
                                   "the digest of what the file holds");
      problem.path = "digests." + link;
      outcome.problems.push_back(std::move(problem));
    }
  }
  return outcome.problems;
}

std::vector<Problem> check_text(const std::string& text, const std::string& file,
                                const std::optional<std::string>& assets) {
  const auto document = base::read_json(text, {record::kMaxAttemptBytes, lesson::kMaxNesting});
  if (!document) {
    return {document.error()};
  }
  const base::JsonValue* field = document->find("format");
  const std::string format = field != nullptr && field->is_string() ? field->as_string() : "";
  if (format == lesson::kLessonFormat) {
    return check_lesson(text, file, *document, assets);
  }
  if (format == lesson::kSetFormat) {
    return check_set(text, file, *document);
  }
  if (format == lesson::kKitFormat) {
    return lesson::read_kit(text, file).problems;
  }
  if (format == lesson::kSpecimenFormat) {
    return lesson::read_specimen(text, file).problems;
  }
  if (format == kOperatorFormat) {
    return session::read_operator(text, file).problems;
  }
  if (format == record::kAttemptFormat) {
    return check_attempt(text, file, *document);
  }
  if (format == classroom::kExperimentFormat) {
    return classroom::read_experiment(text, file).problems;
  }
  return {problem_at(
      *document, "format", field != nullptr ? field->description() : "no such field",
      fmt::format("\"{}\", \"{}\", \"{}\", \"{}\", \"{}\", \"{}\" or \"{}\"", lesson::kLessonFormat,
                  lesson::kSetFormat, lesson::kKitFormat, lesson::kSpecimenFormat, kOperatorFormat,
                  record::kAttemptFormat, classroom::kExperimentFormat))};
}

Checked check_file(const std::string& file, const std::optional<std::string>& assets) {
  Checked checked;
  checked.file = file;
  const base::Result<std::string> text = read_file(file);
  if (!text) {
    Problem problem;
    problem.found = text.error().message;
    problem.expected = "a file that can be read";
    checked.is_readable = false;
    checked.problems.push_back(std::move(problem));
    return checked;
  }
  checked.problems = check_text(*text, file, assets);
  return checked;
}

std::string_view severity_word(const Problem& problem) {
  return problem.severity == Problem::Severity::kError ? "error" : "warning";
}

std::string as_json(const std::vector<Checked>& files) {
  base::JsonWriter writer;
  writer.begin_array();
  for (const Checked& checked : files) {
    writer.begin_object().field("file", checked.file).field("ok", checked.is_good());
    writer.key("problems").begin_array();
    for (const Problem& problem : checked.problems) {
      writer.begin_object().field("line", problem.line).field("column", problem.column);
      writer.field("path", problem.path).field("found", problem.found);
      writer.field("expected", problem.expected).field("severity", severity_word(problem));
      writer.end_object();
    }
    writer.end_array().end_object();
  }
  writer.end_array();
  return writer.take();
}

int run(const Arguments& arguments) {
  if (arguments.plain().empty()) {
    return refuse("check",
                  {base::ErrorCode::kInvalidArgument, "found no file, expected at least one", {}});
  }
  std::vector<Checked> files;
  int exit_code = kGood;
  for (const std::string& file : arguments.plain()) {
    files.push_back(check_file(file, arguments.text("--assets")));
    const Checked& checked = files.back();
    exit_code = std::max(exit_code, !checked.is_readable ? int{kBadInput}
                                    : checked.is_good()  ? int{kGood}
                                                         : int{kFoundWrong});
  }
  if (arguments.has("--json")) {
    print(as_json(files));
    return exit_code;
  }
  for (const Checked& checked : files) {
    for (const Problem& problem : checked.problems) {
      print(fmt::format("{}: {}\n", severity_word(problem), problem.sentence(checked.file)));
    }
    print(fmt::format("{}: {}\n", checked.file, checked.is_good() ? "good" : "wrong"));
  }
  return exit_code;
}

}  // namespace

Command check_command() {
  return {"check",
          "read files and say what is wrong, with line and column",
          kHelp,
          {{"--assets"}},
          run};
}

}  // namespace driftbench::tools
