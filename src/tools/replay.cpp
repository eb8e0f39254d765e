#include "session/replay.h"

#include "base/hash64.h"
#include "base/json_writer.h"
#include "record/attempt.h"
#include "tools/commands.h"
#include "tools/files.h"
#include "tools/output.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace driftbench::tools {
namespace {

constexpr std::string_view kHelp =
    R"(driftbench replay: repeats recorded attempts step by step and compares everything.

usage: driftbench replay FILE... [--trace] [--json]

Compares the digest chain, the 64-bit state hashes (every 1,000 steps of 1 ms, and at the end) and every result,
bit for bit.

A record of another engine cannot be repeated: "equal" is then null, with the reason "recorded by engine 1; this is
engine 2", and only its digests are checked. Its results stay readable.

  --trace   also prints the hash at every 1,000th step and between which steps the course parts: hashes stand
            1,000 steps apart, so it is known no closer (with --json this goes to stderr)

Exit code 0: all equal; 1: a difference, or a record of another engine; 2: a file could not be read.

example: driftbench replay run/freehand-00001.attempt.json --trace
)";

struct Replayed {
  std::string file;
  bool is_readable = true;
  std::optional<int> engine;
  session::ReplayReport report;
};

/// Steps between two looks at the hashes.
constexpr std::int64_t kPortion = 1000;

using PrintLine = void (*)(std::string_view);

void print_line(std::string_view text) {
  print(fmt::format("{}\n", text));
}

/// Lines "step hash" of the replay beside the record's.
void print_hashes(const record::Attempt& recorded, const session::Replay& replay,
                  const session::ReplayReport& report, PrintLine line) {
  const auto& replayed = replay.session().state_hashes();
  line("    step  recorded          replayed");
  for (std::size_t i = 0; i < std::max(replayed.size(), recorded.state_hashes.size()); ++i) {
    const record::StateHash* a =
        i < recorded.state_hashes.size() ? &recorded.state_hashes[i] : nullptr;
    const record::StateHash* b = i < replayed.size() ? &replayed[i] : nullptr;
    line(fmt::format("{:>8}  {:<16}  {:<16}{}", (b != nullptr ? b : a)->step,
                     a != nullptr ? base::to_hex16(a->hash) : "-",
                     b != nullptr ? base::to_hex16(b->hash) : "-",
                     a != nullptr && b != nullptr && *a == *b ? "" : "  differs"));
  }
  if (report.first_difference_step > 0) {
    line(fmt::format("first difference: after step {}, not after step {}", report.last_equal_step,
                     report.first_difference_step));
  } else if (report.first_difference_step == 0) {
    line("first difference: at the start");
  }
}

Replayed replay_file(const std::string& file, bool with_trace, PrintLine trace_line) {
  Replayed replayed;
  replayed.file = file;
  const base::Result<std::string> text = read_file(file);
  if (!text) {
    replayed.is_readable = false;
    replayed.report.reasons.push_back(text.error().message);
    return replayed;
  }
  const auto outcome = record::read_attempt(*text, file);
  if (!outcome.value.has_value()) {
    replayed.is_readable = false;
    replayed.report.reasons.push_back(outcome.first_error());
    return replayed;
  }
  replayed.engine = outcome.value->attempt.engine;
  base::Result<session::Replay> replay = session::Replay::start(*outcome.value);
  if (!replay) {
    replayed.report.reasons.push_back(replay.error().message);
    return replayed;
  }
  while (replay->advance(kPortion)) {
  }
  replayed.report = replay->report();
  if (with_trace) {
    trace_line(file);
    print_hashes(outcome.value->attempt, *replay, replayed.report, trace_line);
  }
  return replayed;
}

/// Whether it is equal; nothing when it could not be repeated at all and no digest is wrong.
std::optional<bool> equal_of(const Replayed& replayed) {
  const bool is_unknown = !replayed.report.is_comparable && replayed.report.reasons.size() == 1;
  return is_unknown ? std::nullopt : std::optional(replayed.report.equal);
}

std::string as_json(const std::vector<Replayed>& files) {
  base::JsonWriter writer;
  writer.begin_array();
  for (const Replayed& replayed : files) {
    const std::int64_t step = replayed.report.first_difference_step;
    writer.begin_object().field("file", replayed.file).field("equal", equal_of(replayed));
    writer.field("engine", replayed.engine);
    writer.field("first_difference_step", step >= 0 ? std::optional(step) : std::nullopt);
    writer.key("reasons").begin_array();
    for (const std::string& reason : replayed.report.reasons) {
      writer.value(reason);
    }
    writer.end_array().end_object();
  }
  writer.end_array();
  return writer.take();
}

int run(const Arguments& arguments) {
  if (arguments.plain().empty()) {
    return refuse("replay",
                  {base::ErrorCode::kInvalidArgument, "found no file, expected at least one", {}});
  }
  const bool is_json = arguments.has("--json");
  std::vector<Replayed> files;
  int exit_code = kGood;
  for (const std::string& file : arguments.plain()) {
    files.push_back(
        replay_file(file, arguments.has("--trace"), is_json ? print_message : print_line));
    exit_code = std::max(exit_code, !files.back().is_readable   ? int{kBadInput}
                                    : files.back().report.equal ? int{kGood}
                                                                : int{kFoundWrong});
  }
  if (is_json) {
    print(as_json(files));
    return exit_code;
  }
  for (const Replayed& replayed : files) {
    const std::optional<bool> equal = equal_of(replayed);
    print_line(fmt::format("{}: {}", replayed.file,
                           !equal   ? "not compared"
                           : *equal ? "equal"
                                    : "not equal"));
    for (const std::string& reason : replayed.report.reasons) {
      print_line("  " + reason);
    }
  }
  return exit_code;
}

}  // namespace

Command replay_command() {
  return {"replay",
          "repeat recorded attempts and compare everything",
          kHelp,
          {{"--trace", false}},
          run};
}

}  // namespace driftbench::tools
