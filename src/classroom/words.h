// Sentences of reports, and text made safe for the file it goes into.
#pragma once

#include "classroom/compile.h"

#include <string>
#include <string_view>
#include <vector>

namespace driftbench::classroom {

/// "free-hand", "pilot", "sleeve" for people.
[[nodiscard]] std::string_view approach_word(stats::Approach approach);

/// Where the holes were made, as a heading.
[[nodiscard]] std::string_view source_word(Source source);

/// What the sleeve changed, the interval first; or why nothing can be said.
[[nodiscard]] std::string result_sentence(const Part& part);

/// Whether practice and technique can be separated; empty without pairs.
[[nodiscard]] std::string order_sentence(const Part& part);

/// What the numbers of this class cannot say, a sentence each.
[[nodiscard]] std::vector<std::string> limits_of(const Class& whole, const Part& part);

/// Which approaches are left out as small groups; empty when nothing is hidden.
[[nodiscard]] std::string hidden_sentence(const Part& part);

/// Text for a cell of a table: a spreadsheet must not take it for a formula, so one that begins
/// with = + - @, a tab or a line end gets an apostrophe in front.
[[nodiscard]] std::string safe_cell(std::string_view text);

/// Text for a line of Markdown: no markup, no line ends.
[[nodiscard]] std::string safe_markdown(std::string_view text);

/// "3.14", or a dash for a value that does not exist.
[[nodiscard]] std::string shown(const base::Result<double>& value, int decimals);

/// Why an entry is left out or doubted: its first three reasons, and how many more there are.
[[nodiscard]] std::string reasons_text(const Entry& entry);

/// A length (or another figure) in the sentences of a report: two decimals.
[[nodiscard]] std::string mm(double value);

/// "1 learner", "2 learners".
[[nodiscard]] std::string counted(std::size_t count, std::string_view noun);

/// The code, and the name behind it when the instructor gave one.
[[nodiscard]] std::string label_of(const Class& whole, std::size_t learner);

}  // namespace driftbench::classroom
