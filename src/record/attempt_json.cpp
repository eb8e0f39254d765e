#include "record/attempt_json.h"

#include "lesson/hex.h"
#include "lesson/read_document.h"
#include "lesson/setup_json.h"
#include "record/results_json.h"
#include "record/trace_json.h"

#include <fmt/format.h>

namespace driftbench::record {
namespace {

constexpr std::size_t kIdDigits = 32;
constexpr std::size_t kMaxNameBytes = 200;
constexpr std::int64_t kMaxEngine = 1'000'000;
constexpr std::int64_t kMaxPeriod = 1'000'000;

DigestChain read_digests(base::ObjectReader& parent) {
  base::ObjectReader reader = parent.required_object("digests");
  DigestChain chain;
  chain.setup = lesson::read_hex(reader, "setup", lesson::kSha256Digits);
  chain.trace = lesson::read_hex(reader, "trace", lesson::kSha256Digits);
  chain.estimate = lesson::read_hex(reader, "estimate", lesson::kSha256Digits);
  chain.results = lesson::read_hex(reader, "results", lesson::kSha256Digits);
  reader.finish();
  return chain;
}

void check_end(base::ObjectReader& reader, const Attempt& attempt) {
  if (!attempt.trace.empty() && attempt.end_step < attempt.trace.back().step) {
    reader.add_error(
        "end_step", fmt::format("step {}", attempt.end_step),
        fmt::format("at least {}, the step of the last command", attempt.trace.back().step));
  }
  if (!attempt.state_hashes.empty() && attempt.end_step < attempt.state_hashes.back().step) {
    reader.add_error("end_step", fmt::format("step {}", attempt.end_step),
                     fmt::format("at least {}, the step of the last state hash",
                                 attempt.state_hashes.back().step));
  }
}

AttemptFile read_attempt_fields(base::ObjectReader& reader) {
  AttemptFile file;
  Attempt& attempt = file.attempt;
  attempt.attempt_id = lesson::read_hex(reader, "attempt_id", kIdDigits);
  attempt.engine = static_cast<int>(reader.required_int("engine", {1, kMaxEngine}));
  attempt.operator_name = reader.optional_string("operator", kMaxNameBytes).value_or("");
  attempt.cohort = reader.optional_string("cohort", kMaxNameBytes).value_or("");
  attempt.device = reader.optional_string("device", kMaxNameBytes).value_or("");
  attempt.period = static_cast<int>(reader.required_int("period", {1, kMaxPeriod}));
  attempt.setup = lesson::read_setup(reader, "setup");
  attempt.trace = read_trace(reader, "trace");
  attempt.end_step = reader.required_int("end_step", {0, kMaxStep});
  attempt.state_hashes = read_state_hashes(reader, "state_hashes");
  attempt.estimate = read_estimate(reader, "estimate");
  attempt.results = read_results(reader, "results");
  file.stated = read_digests(reader);
  file.of_text = chain_of_text(reader, file.stated);
  check_end(reader, attempt);
  return file;
}

}  // namespace

void write_head_fields(base::JsonWriter& writer, const Attempt& attempt) {
  writer.field("attempt_id", attempt.attempt_id).field("engine", attempt.engine);
  writer.field("operator", attempt.operator_name).field("cohort", attempt.cohort);
  writer.field("device", attempt.device).field("period", attempt.period);
  writer.key("setup");
  lesson::write_setup(writer, attempt.setup);
}

void write_trace_fields(base::JsonWriter& writer, const Attempt& attempt) {
  writer.key("trace");
  write_trace(writer, attempt.trace);
  writer.field("end_step", attempt.end_step).key("state_hashes");
  write_state_hashes(writer, attempt.state_hashes);
}

std::string write_attempt(const Attempt& attempt) {
  const DigestChain chain = digest_chain(attempt);
  base::JsonWriter writer;
  writer.begin_object().field("format", kAttemptFormat).field("version", kAttemptVersion);
  write_head_fields(writer, attempt);
  write_trace_fields(writer, attempt);
  writer.key("estimate");
  write_estimate(writer, attempt.estimate);
  writer.key("results");
  write_results(writer, attempt.results);
  writer.key("digests").begin_object();
  writer.field("setup", chain.setup).field("trace", chain.trace);
  writer.field("estimate", chain.estimate).field("results", chain.results);
  writer.end_object().end_object();
  return writer.take();
}

lesson::ReadOutcome<AttemptFile> read_attempt(std::string_view text, std::string_view file_name) {
  return lesson::read_document<AttemptFile>(
      text, file_name, {kAttemptFormat, kAttemptVersion, kMaxAttemptBytes}, read_attempt_fields);
}

}  // namespace driftbench::record
