// One recorded attempt: set-up, input, state hashes, own estimate and results.
#pragma once

#include "lesson/attempt_setup.h"
#include "lesson/lesson.h"
#include "record/trace.h"
#include "scoring/results.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::record {

/// Hash of the whole state after `step` steps.
struct StateHash {
  std::int64_t step = 0;
  std::uint64_t hash = 0;

  friend bool operator==(const StateHash&, const StateHash&) = default;
};

struct Attempt {
  std::string
      attempt_id;  ///< 32 hex digits, given by whoever records; derived from the seed in practise
  int engine = 0;  ///< session::kEngine of the recorder
  std::string operator_name;  ///< code name
  std::string cohort;
  std::string device;  ///< "mouse", "touch", "virtual" ...
  int period = 1;      ///< 1-based order within the operator
  lesson::AttemptSetup setup;
  Trace trace;
  std::int64_t end_step = 0;            ///< steps simulated in all
  std::vector<StateHash> state_hashes;  ///< every 1,000 steps and at the end
  std::optional<scoring::SelfEstimate> estimate;
  std::optional<scoring::Results> results;  ///< absent when broken off
};

/// Digest chain: trace -> estimate -> results, each SHA-256 over the previous digest and its own
/// canonical bytes, so that every inconsistent edit is caught and named.
struct DigestChain {
  std::string setup;
  std::string trace;
  std::string estimate;
  std::string results;

  friend bool operator==(const DigestChain&, const DigestChain&) = default;
};

[[nodiscard]] DigestChain digest_chain(const Attempt& attempt);

/// Which links of the chain in a file do not match its content.
struct ChainCheck {
  std::vector<std::string> broken;  ///< "trace", "estimate", "results", "setup"
};

/// Text of an attempt file (JSON, version 1, numbers shortest round trip).
[[nodiscard]] std::string write_attempt(const Attempt& attempt);

/// A read attempt with the digests that the file states.
struct AttemptFile {
  Attempt attempt;
  DigestChain stated;
  DigestChain of_text;  ///< of the file's own words; empty for an attempt that was not read
};

/// Reads an attempt file; problems as in read_lesson(). Does not judge the digests.
[[nodiscard]] lesson::ReadOutcome<AttemptFile> read_attempt(std::string_view text,
                                                            std::string_view file_name);

/// Compares stated and recomputed digests. A link holds when it is the digest of the file's own
/// words, or of what was understood of them: fields that a later version added, or that someone
/// else's are, break nothing.
[[nodiscard]] ChainCheck check_chain(const AttemptFile& file);

/// Header and rows of holes.csv (columns in contracts order).
[[nodiscard]] std::string holes_csv_header();
[[nodiscard]] std::string holes_csv_row(const Attempt& attempt);

}  // namespace driftbench::record
