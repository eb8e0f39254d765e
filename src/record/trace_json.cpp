#include "record/trace_json.h"

#include "base/hash64.h"
#include "lesson/hex.h"

#include <fmt/format.h>

#include <limits>

namespace driftbench::record {
namespace {

using base::JsonType;
using base::JsonValue;
using base::ProblemList;

constexpr std::int64_t kMaxEntries = 2'000'000;
constexpr std::size_t kFirstArgument = 2;  // after step and op
constexpr std::int32_t kLastOp = static_cast<std::int32_t>(Op::kPin);

void add_error(const JsonValue& place, const std::string& path, std::string expected,
               ProblemList& problems) {
  base::Problem problem;
  problem.line = place.line();
  problem.column = place.column();
  problem.path = path;
  problem.found = place.description();
  problem.expected = std::move(expected);
  problems.add(std::move(problem));
}

/// The integer when it is one inside the range; otherwise an error, and the lower end.
std::int64_t integer_in(const JsonValue& value, const std::string& path, base::IntRange range,
                        std::string_view what, ProblemList& problems) {
  if (value.type() == JsonType::kInteger && value.as_int64() >= range.min &&
      value.as_int64() <= range.max) {
    return value.as_int64();
  }
  add_error(value, path, fmt::format("{}, an integer from {} to {}", what, range.min, range.max),
            problems);
  return range.min;
}

TraceEntry read_entry(const JsonValue& item, const std::string& path, ProblemList& problems) {
  TraceEntry entry;
  if (!item.is_array() || item.items().size() < kFirstArgument) {
    add_error(item, path, "an array of step, op and arguments", problems);
    return entry;
  }
  const JsonValue::Items& numbers = item.items();
  const std::size_t errors_before = problems.error_count();
  entry.step = integer_in(numbers[0], path + "[0]", {0, kMaxStep}, "a step", problems);
  const std::int64_t op = integer_in(numbers[1], path + "[1]", {1, kLastOp}, "an op", problems);
  if (problems.error_count() != errors_before) {
    return entry;
  }
  entry.command.op = static_cast<Op>(op);
  const auto count = static_cast<std::size_t>(argument_count(entry.command.op));
  if (numbers.size() != kFirstArgument + count) {
    add_error(item, path,
              fmt::format("{} numbers: step, op {} and its {} arguments", kFirstArgument + count,
                          op, count),
              problems);
    return entry;
  }
  for (std::size_t i = 0; i < count; ++i) {
    constexpr base::IntRange kInt32{std::numeric_limits<std::int32_t>::min(),
                                    std::numeric_limits<std::int32_t>::max()};
    const std::size_t index = kFirstArgument + i;
    entry.command.arguments[i] = static_cast<std::int32_t>(integer_in(
        numbers[index], fmt::format("{}[{}]", path, index), kInt32, "an argument", problems));
  }
  return entry;
}

StateHash read_state_hash(const JsonValue& item, const std::string& path, ProblemList& problems) {
  StateHash state;
  if (!item.is_array() || item.items().size() != 2) {
    add_error(item, path, "an array of a step and a hash", problems);
    return state;
  }
  state.step = integer_in(item.items()[0], path + "[0]", {0, kMaxStep}, "a step", problems);
  const JsonValue& text = item.items()[1];
  const auto hash = text.is_string() ? lesson::parse_hash64(text.as_string()) : std::nullopt;
  if (!hash.has_value()) {
    add_error(text, path + "[1]", "16 lower-case hexadecimal digits", problems);
  }
  state.hash = hash.value_or(0);
  return state;
}

/// Adds one error at the first entry whose step lies before the one above it.
template <class Entry>
void check_order(base::ObjectReader& reader, std::string_view key,
                 const std::vector<Entry>& entries) {
  for (std::size_t i = 1; i < entries.size(); ++i) {
    if (entries[i].step < entries[i - 1].step) {
      const JsonValue& item = reader.find(key)->items()[i];
      base::Problem problem;
      problem.line = item.line();
      problem.column = item.column();
      problem.path = fmt::format("{}[{}]", reader.path_of(key), i);
      problem.found = fmt::format("step {} after step {}", entries[i].step, entries[i - 1].step);
      problem.expected = "steps that do not fall";
      reader.problems().add(std::move(problem));
      return;
    }
  }
}

}  // namespace

Trace read_trace(base::ObjectReader& reader, std::string_view key) {
  const std::size_t errors_before = reader.problems().error_count();
  Trace trace = reader.required_array(key, {0, kMaxEntries}, read_entry);
  if (reader.problems().error_count() == errors_before) {
    check_order(reader, key, trace);
  }
  return trace;
}

void write_trace(base::JsonWriter& writer, const Trace& trace) {
  writer.begin_array();
  for (const TraceEntry& entry : trace) {
    writer.begin_array(base::JsonLayout::kCompact);
    writer.value(entry.step).value(static_cast<std::int32_t>(entry.command.op));
    const int count = argument_count(entry.command.op);
    for (int i = 0; i < count; ++i) {
      writer.value(entry.command.arguments[static_cast<std::size_t>(i)]);
    }
    writer.end_array();
  }
  writer.end_array();
}

std::vector<StateHash> read_state_hashes(base::ObjectReader& reader, std::string_view key) {
  const std::size_t errors_before = reader.problems().error_count();
  std::vector<StateHash> hashes = reader.required_array(key, {0, kMaxEntries}, read_state_hash);
  if (reader.problems().error_count() == errors_before) {
    check_order(reader, key, hashes);
  }
  return hashes;
}

void write_state_hashes(base::JsonWriter& writer, const std::vector<StateHash>& hashes) {
  writer.begin_array();
  for (const StateHash& state : hashes) {
    writer.begin_array(base::JsonLayout::kCompact);
    writer.value(state.step).value(base::to_hex16(state.hash)).end_array();
  }
  writer.end_array();
}

}  // namespace driftbench::record
