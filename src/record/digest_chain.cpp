#include "base/sha256.h"
#include "record/attempt_json.h"
#include "record/results_json.h"

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

}  // namespace

DigestChain digest_chain(const Attempt& attempt) {
  DigestChain chain;
  chain.setup = base::sha256_hex(setup_bytes(attempt));
  chain.trace = linked(chain.setup, trace_bytes(attempt));
  chain.estimate = linked(chain.trace, estimate_bytes(attempt));
  chain.results = linked(chain.estimate, results_bytes(attempt));
  return chain;
}

ChainCheck check_chain(const AttemptFile& file) {
  // Each link is recomputed over the digest that the file states before it, so that one edit breaks
  // one link and not all that follow.
  const Attempt& attempt = file.attempt;
  const DigestChain& stated = file.stated;
  ChainCheck check;
  if (stated.setup != base::sha256_hex(setup_bytes(attempt))) {
    check.broken.emplace_back("setup");
  }
  if (stated.trace != linked(stated.setup, trace_bytes(attempt))) {
    check.broken.emplace_back("trace");
  }
  if (stated.estimate != linked(stated.trace, estimate_bytes(attempt))) {
    check.broken.emplace_back("estimate");
  }
  if (stated.results != linked(stated.estimate, results_bytes(attempt))) {
    check.broken.emplace_back("results");
  }
  return check;
}

}  // namespace driftbench::record
