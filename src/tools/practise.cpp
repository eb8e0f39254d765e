#include "base/hash64.h"
#include "base/json_writer.h"
#include "base/sha256.h"
#include "lesson/vocabulary.h"
#include "record/attempt.h"
#include "session/virtual_operator.h"
#include "tools/commands.h"
#include "tools/files.h"
#include "tools/output.h"
#include "tools/parallel.h"
#include "tools/progress.h"

#include <fmt/format.h>

#include <algorithm>

namespace driftbench::tools {
namespace {

using specimen::Approach;

constexpr std::int64_t kMaxCount = 99'999;
constexpr std::int64_t kDefaultCount = 10;
constexpr std::int64_t kMaxThreads = 64;

constexpr std::string_view kHelp =
    R"(driftbench practise: a virtual operator does the attempts of a lesson and records them.

usage: driftbench practise LESSON --out DIR [--operator FILE] [--count N] [--seed S] [--threads N]
                           [--assets DIR] [--json]

  --out       folder for <approach>-<00001>.attempt.json and holes.csv; made when it is not there, must be empty
  --operator  file of the operator (default: assets/operators/novice.json)
  --count     attempts per approach that the lesson names, 1 to 99999 (default 10)
  --seed      0 to 9007199254740991; overrides the lesson's
  --threads   how many run at once (default: what the machine has); changes the time, never a byte
  --assets    folder with kits/, specimens/ and operators/ (default: an 'assets' folder beside or above the lesson,
              else the built-in one)

The operator file stands for a group: each learner makes as many attempts as the lesson gives an approach, has an own
bias, and gets better with own tries; then the next learner begins (operator novice-0001, novice-0002 ...).

holes.csv: lengths in mm, angles in degrees, times in s. The same seed gives the same files, and a larger count
never changes earlier attempts; approaches take turns, so a learner's period counts both.

example: driftbench practise lessons/find-the-centre.lesson.json --count 20 --seed 7 --out run
)";

/// Everything that the attempts are made from.
struct Task {
  lesson::Lesson lesson;
  specimen::Kit kit;
  std::vector<std::optional<specimen::JawSite>> jaws;  ///< of each block of the lesson
  session::OperatorProfile profile;
  std::string operator_sha256;       ///< of the bytes of the operator file
  std::vector<Approach> approaches;  ///< in the order in which the lesson first names them
  std::uint64_t seed = 0;
  std::size_t count = 0;  ///< per approach
  unsigned threads = 1;
  std::string folder;
};

/// One attempt to do.
struct Job {
  Approach approach = Approach::kFreehand;
  std::size_t block_index = 0;
  std::uint64_t attempt_index = 0;  ///< within the approach
  session::Turn turn;
  int period = 1;  ///< of the learner
};

/// What an attempt leaves behind besides its file.
struct Outcome {
  std::string csv_row;
  std::string error;  ///< empty: none
};

std::vector<Approach> approaches_of(const lesson::Lesson& lesson) {
  std::vector<Approach> approaches;
  for (const lesson::LessonBlock& block : lesson.blocks) {
    if (std::find(approaches.begin(), approaches.end(), block.approach) == approaches.end()) {
      approaches.push_back(block.approach);
    }
  }
  return approaches;
}

/// Attempts by approach, then by index. An approach with several blocks goes round them in turn.
std::vector<Job> jobs_of(const Task& task) {
  std::vector<Job> jobs;
  for (std::size_t a = 0; a < task.approaches.size(); ++a) {
    std::vector<std::size_t> blocks;
    for (std::size_t b = 0; b < task.lesson.blocks.size(); ++b) {
      if (task.lesson.blocks[b].approach == task.approaches[a]) {
        blocks.push_back(b);
      }
    }
    std::size_t tries = 0;  // of one learner
    for (const std::size_t block : blocks) {
      tries += static_cast<std::size_t>(task.lesson.blocks[block].attempts);
    }
    for (std::size_t i = 0; i < task.count; ++i) {
      const session::Turn turn{i / tries, i % tries};
      const std::uint64_t period = turn.tries_before * task.approaches.size() + a + 1;
      jobs.push_back(
          {task.approaches[a], blocks[i % blocks.size()], i, turn, static_cast<int>(period)});
    }
  }
  return jobs;
}

/// The same operator, lesson and seed give the same id; anything else gives another.
std::string attempt_id_of(const Task& task, const lesson::AttemptSetup& setup) {
  constexpr std::size_t kIdDigits = 32;
  return base::sha256_hex(task.operator_sha256 + setup.lesson_sha256 + setup.block_id +
                          base::to_hex16(setup.seed))
      .substr(0, kIdDigits);
}

/// Also the name of its file, without the ending.
std::string name_of(const Job& job) {
  return fmt::format("{}-{:05}", base::name_of(lesson::kApproachWords, job.approach),
                     job.attempt_index + 1);
}

Outcome do_attempt(const Task& task, const Job& job) {
  const std::optional<specimen::JawSite>& jaw = task.jaws[job.block_index];
  const auto setup = lesson::resolve(task.lesson, task.kit, job.block_index, job.attempt_index,
                                     task.seed, jaw ? &*jaw : nullptr);
  if (!setup) {
    return {{}, setup.error().message};
  }
  base::Result<record::Attempt> practised =
      session::practise_attempt(*setup, task.profile, setup->seed, job.turn);
  if (!practised) {
    return {{}, fmt::format("{}: {}", name_of(job), practised.error().message)};
  }
  record::Attempt& attempt = *practised;
  attempt.attempt_id = attempt_id_of(task, *setup);
  attempt.operator_name = fmt::format("{}-{:04}", task.profile.id, job.turn.learner + 1);
  attempt.device = "virtual";
  attempt.period = job.period;
  const std::string name = fmt::format("{}/{}.attempt.json", task.folder, name_of(job));
  const base::Result<void> written = write_file(name, record::write_attempt(attempt));
  if (!written) {
    return {{}, written.error().message};
  }
  return {record::holes_csv_row(attempt), {}};
}

/// Reads the flags that are numbers into the task.
base::Result<void> read_numbers(const Arguments& arguments, Task& task) {
  const auto count = arguments.integer("--count", 1, kMaxCount, kDefaultCount);
  const auto seed = arguments.integer("--seed", 0, static_cast<std::int64_t>(lesson::kMaxSeed),
                                      static_cast<std::int64_t>(task.lesson.seed));
  const auto threads = arguments.integer("--threads", 1, kMaxThreads, usable_threads());
  for (const base::Result<std::int64_t>* number : {&count, &seed, &threads}) {
    if (!*number) {
      return tl::unexpected<base::Error>(number->error());
    }
  }
  task.count = static_cast<std::size_t>(*count);
  task.seed = static_cast<std::uint64_t>(*seed);
  task.threads = static_cast<unsigned>(*threads);
  return {};
}

base::Result<Task> read_task(const Arguments& arguments) {
  const std::optional<std::string> folder = arguments.text("--out");
  if (arguments.plain().size() != 1 || !folder.has_value()) {
    return base::fail(
        base::ErrorCode::kInvalidArgument,
        fmt::format("found {} lesson files and {}, expected one and --out DIR",
                    arguments.plain().size(), folder.has_value() ? "--out" : "no --out"));
  }
  const std::string& file = arguments.plain()[0];
  Task task;
  task.folder = *folder;
  base::Result<lesson::Lesson> lesson = load_lesson(file);
  if (!lesson) {
    return tl::unexpected<base::Error>(lesson.error());
  }
  task.lesson = std::move(*lesson);
  base::Result<specimen::Kit> kit = load_kit(task.lesson.kit_id, file, arguments.text("--assets"));
  if (!kit) {
    return tl::unexpected<base::Error>(kit.error());
  }
  task.kit = std::move(*kit);
  for (const lesson::LessonBlock& block : task.lesson.blocks) {
    base::Result<std::optional<specimen::JawSite>> jaw =
        load_jaw(block, file, arguments.text("--assets"));
    if (!jaw) {
      return tl::unexpected<base::Error>(jaw.error());
    }
    task.jaws.push_back(std::move(*jaw));
  }
  base::Result<LoadedOperator> loaded =
      load_operator(arguments.text("--operator"), file, arguments.text("--assets"));
  if (!loaded) {
    return tl::unexpected<base::Error>(loaded.error());
  }
  task.profile = std::move(loaded->profile);
  task.operator_sha256 = std::move(loaded->sha256);
  task.approaches = approaches_of(task.lesson);
  if (const base::Result<void> numbers = read_numbers(arguments, task); !numbers) {
    return tl::unexpected<base::Error>(numbers.error());
  }
  if (const base::Result<void> made = make_empty_folder(task.folder); !made) {
    return tl::unexpected<base::Error>(made.error());
  }
  return task;
}

void print_outcome(const Task& task, std::size_t attempts, const std::string& csv, bool is_json) {
  if (!is_json) {
    print(fmt::format("{} attempts with seed {}, measured in {}\n", attempts, task.seed, csv));
    return;
  }
  base::JsonWriter writer;
  writer.begin_object().field("attempts", attempts).field("seed", task.seed);
  writer.field("holes_csv", csv).end_object();
  print(writer.take());
}

int run(const Arguments& arguments) {
  const base::Result<Task> task = read_task(arguments);
  if (!task) {
    return refuse("practise", task.error());
  }
  const std::vector<Job> jobs = jobs_of(*task);
  std::vector<Outcome> outcomes(jobs.size());
  Progress progress(jobs.size());
  run_jobs(
      jobs.size(), task->threads, [&](std::size_t i) { outcomes[i] = do_attempt(*task, jobs[i]); },
      [&](std::size_t finished) { progress.show(finished); });
  progress.end();

  std::string table = record::holes_csv_header();
  for (const Outcome& outcome : outcomes) {
    if (!outcome.error.empty()) {
      return refuse("practise", {base::ErrorCode::kMismatch, outcome.error, {}});
    }
    table += outcome.csv_row;
  }
  const std::string csv = task->folder + "/holes.csv";
  if (const base::Result<void> written = write_file(csv, table); !written) {
    return refuse("practise", written.error());
  }
  print_outcome(*task, jobs.size(), csv, arguments.has("--json"));
  return kGood;
}

}  // namespace

Command practise_command() {
  return {"practise",
          "let a virtual operator do the attempts of a lesson",
          kHelp,
          {{"--out"}, {"--operator"}, {"--count"}, {"--seed"}, {"--threads"}, {"--assets"}},
          run};
}

}  // namespace driftbench::tools
