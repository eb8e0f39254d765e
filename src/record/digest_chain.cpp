#include "base/sha256.h"
#include "record/attempt_json.h"
#include "record/results_json.h"

#include <initializer_list>

namespace driftbench::record {
namespace {

using base::JsonLayout;
using base::JsonWriter;

/// SHA-256 over the digest before and the bytes of this link.
std::string linked(const std::string& previous, const std::string& bytes) {
  return base::sha256_hex(previous + "\n" + bytes);
}

// Canonical bytes of a link: compact JSON in the field order of the file.

std::string setup_bytes(const Attempt& attempt) {
  JsonWriter writer(JsonLayout::kCompact);
  writer.begin_object();
  write_head_fields(writer, attempt);
  writer.end_object();
  return writer.take();
}

std::string trace_bytes(const Attempt& attempt) {
  JsonWriter writer(JsonLayout::kCompact);
  writer.begin_object();
  write_trace_fields(writer, attempt);
  writer.end_object();
  return writer.take();
}

std::string estimate_bytes(const Attempt& attempt) {
  JsonWriter writer(JsonLayout::kCompact);
  write_estimate(writer, attempt.estimate);
  return writer.take();
}

std::string results_bytes(const Attempt& attempt) {
  JsonWriter writer(JsonLayout::kCompact);
  write_results(writer, attempt.results);
  return writer.take();
}

/// The named fields that the file has, as a compact object.
std::string fields_of_text(base::ObjectReader& file, std::initializer_list<std::string_view> keys) {
  JsonWriter writer(JsonLayout::kCompact);
  writer.begin_object();
  for (const std::string_view key : keys) {
    if (const base::JsonValue* value = file.find(key)) {
      writer.key(key);
      base::write_json(writer, *value);
    }
  }
  writer.end_object();
  return writer.take();
}

std::string field_of_text(base::ObjectReader& file, std::string_view key) {
  JsonWriter writer(JsonLayout::kCompact);
  if (const base::JsonValue* value = file.find(key)) {
    base::write_json(writer, *value);
    return writer.take();
  }
  return {};
}

/// Each link over the digest that the file states before it, so that one edit breaks one link and
/// not all that follow.
DigestChain chain_over(const DigestChain& stated, const Attempt& attempt) {
  return {base::sha256_hex(setup_bytes(attempt)), linked(stated.setup, trace_bytes(attempt)),
          linked(stated.trace, estimate_bytes(attempt)),
          linked(stated.estimate, results_bytes(attempt))};
}

}  // namespace

DigestChain chain_of_text(base::ObjectReader& file, const DigestChain& stated) {
  return {base::sha256_hex(fields_of_text(
              file, {"attempt_id", "engine", "operator", "cohort", "device", "period", "setup"})),
          linked(stated.setup, fields_of_text(file, {"trace", "end_step", "state_hashes"})),
          linked(stated.trace, field_of_text(file, "estimate")),
          linked(stated.estimate, field_of_text(file, "results"))};
}

DigestChain digest_chain(const Attempt& attempt) {
  DigestChain chain;
  chain.setup = base::sha256_hex(setup_bytes(attempt));
  chain.trace = linked(chain.setup, trace_bytes(attempt));
  chain.estimate = linked(chain.trace, estimate_bytes(attempt));
  chain.results = linked(chain.estimate, results_bytes(attempt));
  return chain;
}

ChainCheck check_chain(const AttemptFile& file) {
  const DigestChain understood = chain_over(file.stated, file.attempt);
  ChainCheck check;
  const auto look = [&](const char* name, std::string DigestChain::*link) {
    const std::string& stated = file.stated.*link;
    if (stated != understood.*link && stated != file.of_text.*link) {
      check.broken.emplace_back(name);
    }
  };
  look("setup", &DigestChain::setup);
  look("trace", &DigestChain::trace);
  look("estimate", &DigestChain::estimate);
  look("results", &DigestChain::results);
  return check;
}

}  // namespace driftbench::record
