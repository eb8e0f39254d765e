#include "base/json_writer.h"
#include "classroom/compile.h"
#include "classroom/outputs.h"
#include "classroom/summary_json.h"
#include "classroom/turn_in.h"
#include "classroom/verification.h"
#include "classroom/words.h"
#include "tools/commands.h"
#include "tools/files.h"
#include "tools/output.h"
#include "tools/parallel.h"
#include "tools/progress.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <system_error>

namespace driftbench::tools {
namespace {

namespace fs = std::filesystem;

using base::Result;
using classroom::Class;
using classroom::Roster;

constexpr std::int64_t kMaxThreads = 64;

constexpr std::string_view kHelp =
    R"(driftbench class: collects the attempts and measured real blocks of a class, checks and compiles them.

usage: driftbench class PATH... --out DIR [--names FILE] [--threads N] [--json]

Every PATH is an attempt file, a holes.csv, a turn-in code (*.turn-in.txt), a planned experiment (*.experiment.json), or a
folder that is searched for them.
Every attempt is taken once, by its id, and repeated from its recorded input. Simulated and real holes are never
computed together. Lengths in mm, angles in degrees, times in s; md + distal, bl + lingual, depth + deeper.

  --out      folder for report.html, holes.csv, learners.csv, codebook.md, methods.md and class-summary.json; made
             when it is not there; must be empty or hold only these files
  --names    CSV with the columns code and name; then names stand in the report, and groups of fewer than five
             learners are shown too
  --threads  how many attempts are repeated at once; changes the time, never a byte

Exit code 0: all taken and equal; 1: something was left out, the report says what and why; 2: bad usage, or nothing
that could be compiled.

example: driftbench class turned-in block-a.csv --names names.csv --out report
)";

constexpr std::string_view kAttemptEnding = ".attempt.json";
constexpr std::string_view kTableEnding = ".csv";

/// Whether a file of a folder is taken.
bool belongs(const std::string& file) {
  return file.ends_with(kAttemptEnding) || file.ends_with(kTableEnding) ||
         file.ends_with(classroom::kExperimentEnding) || file.ends_with(classroom::kTurnInEnding);
}

/// A file to read, and the name under which reports know it: nothing of the machine's folders.
struct Found {
  std::string name;
  std::string path;
};

/// Files of a folder and those below it, in the order of their names. Links to folders are not
/// followed, and what is in `out` is not taken.
Result<void> add_folder(const fs::path& folder, const fs::path& out, std::vector<Found>& found) {
  std::error_code failed;
  std::vector<Found> here;
  for (fs::recursive_directory_iterator at(folder, failed), end; !failed && at != end;
       at.increment(failed)) {
    std::error_code ignored;
    if (at->is_directory(ignored) && fs::equivalent(at->path(), out, ignored)) {
      at.disable_recursion_pending();
      continue;
    }
    const std::string file = at->path().filename().string();
    if (at->is_regular_file(ignored) && belongs(file)) {
      here.push_back({at->path().lexically_relative(folder).generic_string(), at->path().string()});
    }
  }
  if (failed) {
    return base::fail(base::ErrorCode::kStorage,
                      fmt::format("{}: found that the folder cannot be read ({})", folder.string(),
                                  failed.message()));
  }
  std::sort(here.begin(), here.end(),
            [](const Found& a, const Found& b) { return a.name < b.name; });
  found.insert(found.end(), here.begin(), here.end());
  return {};
}

Result<std::vector<Found>> find_files(const std::vector<std::string>& paths,
                                      const std::string& out) {
  std::vector<Found> found;
  for (const std::string& path : paths) {
    std::error_code failed;
    if (fs::is_directory(path, failed)) {
      if (const Result<void> added = add_folder(path, out, found); !added) {
        return tl::unexpected<base::Error>(added.error());
      }
    } else if (fs::exists(path, failed)) {
      found.push_back({fs::path(path).filename().string(), path});
    } else {
      return base::fail(base::ErrorCode::kStorage,
                        fmt::format("{}: found no such file or folder, expected one", path));
    }
  }
  // Two folders may hold files of the same name.
  std::map<std::string, int> seen;
  for (Found& file : found) {
    if (const int before = seen[file.name]++; before > 0) {
      file.name = fmt::format("{} ({})", file.name, before + 1);
      if (file.path.ends_with(kTableEnding)) {
        file.name += kTableEnding;
      }
    }
  }
  return found;
}

using Paths = std::map<std::string, std::string>;  ///< by the name in reports

Roster collect(const std::vector<Found>& files, Paths& paths) {
  classroom::Collector collector;
  std::vector<std::string> unreadable;
  for (const Found& file : files) {
    const std::size_t limit =
        file.path.ends_with(kTableEnding) ? stats::kHolesLimits.max_bytes : kMaxFile_bytes;
    const Result<std::string> bytes = read_file(file.path, limit);
    if (!bytes) {
      unreadable.push_back(bytes.error().message);
      continue;
    }
    paths[file.name] = file.path;
    collector.add(*bytes, file.name);
  }
  Roster roster = collector.finish();
  for (std::string& sentence : unreadable) {
    roster.refused.add(std::move(sentence));
  }
  return roster;
}

void verify(Roster& roster, const Paths& paths, unsigned threads) {
  const std::vector<classroom::FileToVerify> files = classroom::verification_order(roster);
  std::vector<classroom::Verdicts> verdicts(files.size());
  Progress progress(files.size());
  run_jobs(
      files.size(), threads,
      [&](std::size_t i) {
        constexpr std::int64_t kPortion = 100'000;
        classroom::Verification one(
            {files[i]}, [&paths](const std::string& file) { return read_file(paths.at(file)); });
        while (one.advance(kPortion)) {
        }
        verdicts[i] = one.verdicts();
      },
      [&](std::size_t finished) { progress.show(finished); });
  progress.end();
  for (const classroom::Verdicts& some : verdicts) {
    classroom::apply_verdicts(roster, some);
  }
}

/// Makes the folder, or accepts one that holds an earlier report and nothing else.
Result<void> prepare_folder(const std::string& folder) {
  std::error_code failed;
  if (!fs::is_directory(folder, failed)) {
    return make_empty_folder(folder);
  }
  bool has_summary = false;
  bool has_other = false;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder, failed)) {
    const std::string name = entry.path().filename().string();
    has_summary = has_summary || name == classroom::kSummaryFile;
    has_other =
        has_other || std::none_of(classroom::kOutputs.begin(), classroom::kOutputs.end(),
                                  [&](const classroom::Output& own) { return own.name == name; });
  }
  // A folder with a holes.csv alone is somebody's data.
  return !failed && has_summary && !has_other ? Result<void>() : make_empty_folder(folder);
}

void print_outcome(const Class& whole, const classroom::Counts& counts, const std::string& folder,
                   bool is_json) {
  std::vector<std::string> problems = whole.roster.refused.items;
  for (const classroom::Entry& entry : whole.roster.entries) {
    if (!entry.reasons.empty() && problems.size() < classroom::kMaxSentences) {
      problems.push_back(fmt::format("{}: {}", entry.file, classroom::reasons_text(entry)));
    }
  }
  for (const std::string& problem : problems) {
    print_message(problem);
  }
  if (!is_json) {
    for (const std::string& note : whole.roster.notes.items) {
      print_message(note);
    }
    print(fmt::format(
        "{} learners, {} attempts: {} equal, {} different, {} of another engine, {} from tables; "
        "{} of another lesson, {} refused; report in {}\n",
        whole.learners.size(), counts.attempts, counts.of(classroom::Standing::kEqual),
        counts.of(classroom::Standing::kDiffers), counts.of(classroom::Standing::kOtherEngine),
        counts.of(classroom::Standing::kTableRow), counts.other_lesson, whole.roster.refused.count,
        folder));
    return;
  }
  base::JsonWriter writer;
  writer.begin_object().field("out", folder).field("learners", whole.learners.size());
  writer.field("attempts", counts.attempts).field("equal", counts.of(classroom::Standing::kEqual));
  writer.field("differs", counts.of(classroom::Standing::kDiffers));
  writer.field("other_engine", counts.of(classroom::Standing::kOtherEngine));
  writer.field("table_rows", counts.of(classroom::Standing::kTableRow));
  writer.field("other_lesson", counts.other_lesson).field("refused", whole.roster.refused.count);
  writer.field("given_twice", whole.roster.notes.count).key("problems").begin_array();
  for (const std::string& problem : problems) {
    writer.value(problem);
  }
  writer.end_array().end_object();
  print(writer.take());
}

Result<std::optional<classroom::Names>> load_names(const Arguments& arguments) {
  const std::optional<std::string> file = arguments.text("--names");
  if (!file.has_value()) {
    return std::optional<classroom::Names>();
  }
  const Result<std::string> text = read_file(*file);
  if (!text) {
    return tl::unexpected<base::Error>(text.error());
  }
  Result<classroom::Names> names = classroom::read_names(*text, *file);
  if (!names) {
    return tl::unexpected<base::Error>(names.error());
  }
  return std::optional(std::move(*names));
}

int run(const Arguments& arguments) {
  const std::optional<std::string> folder = arguments.text("--out");
  if (arguments.plain().empty() || !folder.has_value()) {
    return refuse("class", {base::ErrorCode::kInvalidArgument,
                            fmt::format("found {} and {}, expected files or folders and --out DIR",
                                        arguments.plain().empty() ? "no files" : "files",
                                        folder.has_value() ? "--out" : "no --out"),
                            {}});
  }
  const auto threads = arguments.integer("--threads", 1, kMaxThreads, usable_threads());
  if (!threads) {
    return refuse("class", threads.error());
  }
  Result<std::optional<classroom::Names>> names = load_names(arguments);
  if (!names) {
    return refuse("class", names.error());
  }
  const Result<std::vector<Found>> files = find_files(arguments.plain(), *folder);
  if (!files) {
    return refuse("class", files.error());
  }
  Paths paths;
  Roster roster = collect(*files, paths);
  if (roster.entries.empty()) {
    for (const std::string& sentence : roster.refused.items) {
      print_message(sentence);
    }
    return refuse(
        "class", {base::ErrorCode::kInvalidArgument,
                  fmt::format("found no attempt in {} files, expected one at least", files->size()),
                  {}});
  }
  if (const Result<void> made = prepare_folder(*folder); !made) {
    return refuse("class", made.error());
  }
  verify(roster, paths, static_cast<unsigned>(*threads));
  const Class whole = classroom::compile(std::move(roster), std::move(*names));
  for (const classroom::Output& output : classroom::kOutputs) {
    const std::string file = fmt::format("{}/{}", *folder, output.name);
    if (const Result<void> written = write_file(file, output.content(whole)); !written) {
      return refuse("class", written.error());
    }
  }
  const classroom::Counts counts = classroom::counts_of(whole.roster);
  print_outcome(whole, counts, *folder, arguments.has("--json"));
  const bool is_clean = whole.roster.refused.count == 0 && counts.other_lesson == 0 &&
                        counts.of(classroom::Standing::kDiffers) == 0;
  return is_clean ? kGood : kFoundWrong;
}

}  // namespace

Command class_command() {
  return {"class",
          "collect, check and compile the attempts of a class",
          kHelp,
          {{"--out"}, {"--names"}, {"--threads"}},
          run};
}

}  // namespace driftbench::tools
