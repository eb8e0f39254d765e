// The collected attempts of a class, each once, and sentences about what was not taken.
#pragma once

#include "classroom/entry.h"
#include "classroom/experiment.h"

#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::classroom {

/// Most holes of one class.
inline constexpr std::size_t kMaxEntries = 1'000'000;

/// Sentences kept about refused files and rows; more are only counted.
inline constexpr std::size_t kMaxSentences = 200;

/// Sentences, the first kMaxSentences of them.
struct Sentences {
  std::vector<std::string> items;
  std::size_t count = 0;

  void add(std::string sentence);
};

struct Roster {
  std::vector<Entry> entries;  ///< in the order in which they were given
  Sentences refused;           ///< files and rows that could not be taken, or contradict another
  Sentences notes;             ///< harmless: the same file twice
  std::string lesson_id;       ///< of the lesson that most attempts are of; empty: none
  std::string lesson_sha256;
  std::optional<Experiment> experiment;  ///< the plan that the class was to follow
};

/// Takes files one after the other and never replaces what it has.
class Collector {
 public:
  /// Takes a file by the ending of its name: `.csv` is a table of holes, `.experiment.json` a
  /// planned experiment, `.turn-in.txt` a code that was pasted, anything else must be an attempt.
  /// What cannot be read becomes a sentence.
  void add(std::string_view bytes, const std::string& name);

  /// Leaves each attempt once, compares tables with attempt files, and settles the lesson.
  [[nodiscard]] Roster finish();

 private:
  void add_attempt(std::string_view bytes, const std::string& name, const std::string& sha256);
  void add_table(std::string_view bytes, const std::string& name, const std::string& sha256);
  void add_experiment(std::string_view bytes, const std::string& name);
  void add_turn_in(std::string_view bytes, const std::string& name, const std::string& sha256);
  void take_record(Entry&& entry);
  void take_row(Entry&& entry);

  Roster roster_;
  std::vector<Entry> rows_;
  std::map<std::string, std::size_t> records_by_id_;
  std::map<std::string, std::size_t> rows_by_id_;
  std::set<std::string> files_seen_;  ///< SHA-256
};

}  // namespace driftbench::classroom
