// Repeats the attempts of a class in portions, the ones that matter most first.
#pragma once

#include "base/result.h"
#include "classroom/roster.h"
#include "session/replay.h"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace driftbench::classroom {

struct Verdict {
  bool equal = false;
  std::vector<std::string> reasons;  ///< each one sentence
};

/// By the SHA-256 of the attempt file: a cache that outlives a session.
using Verdicts = std::map<std::string, Verdict>;

/// An attempt file to repeat.
struct FileToVerify {
  std::string file;
  std::string sha256;
};

/// What is still unchecked: holes far from their approach's median first (more than three times
/// the median distance, own assumption), then attempts inside the tolerance, which decide a pass,
/// then the rest; within each the farthest first.
[[nodiscard]] std::vector<FileToVerify> verification_order(const Roster& roster);

/// Verifies files one after the other. Stop at any time: the verdicts so far are whole, and another
/// Verification given them goes on where this one stopped.
class Verification {
 public:
  /// Bytes of a file, as it was collected.
  using Load = std::function<base::Result<std::string>(const std::string& file)>;

  Verification(std::vector<FileToVerify> files, Load load, Verdicts known = {});

  /// Runs at most about `step_budget` steps of 1 ms of drilling. True while there is more to do.
  bool advance(std::int64_t step_budget);

  [[nodiscard]] double progress() const;  ///< 0..1, by files

  [[nodiscard]] const Verdicts& verdicts() const { return verdicts_; }

 private:
  void start_next();
  void settle(Verdict verdict);

  std::vector<FileToVerify> files_;
  Load load_;
  Verdicts verdicts_;
  std::size_t next_ = 0;
  std::optional<session::Replay> replay_;
};

/// Writes verdicts into the standing and the reasons of the entries.
void apply_verdicts(Roster& roster, const Verdicts& verdicts);

}  // namespace driftbench::classroom
