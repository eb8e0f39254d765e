// What the dialogs of both pages ask of the core: JSON in, JSON or files out. The pages compute
// nothing themselves.
#pragma once

#include "classroom/entry.h"

#include <string>
#include <string_view>
#include <vector>

namespace driftbench::classroom {

/// Answers that are JSON have either what was asked for or `error`, a sentence.

/// A design as the page has it (the fields of an experiment file; `codes`: names by place).
/// Gives sentences, limits, needed and planned units, power, detectable difference, a table of what
/// other numbers of holes would need, the orders in words, and `file`: the text of the experiment.
[[nodiscard]] std::string answer_plan(std::string_view design_json);

/// An experiment file: its fields as answer_plan() takes them, or what is wrong with it.
[[nodiscard]] std::string answer_read_experiment(std::string_view text, std::string_view name);

/// The page to print; empty for a text that is no experiment.
[[nodiscard]] std::string experiment_sheet_of(std::string_view text);

/// Own attempts of a page, by themselves.
class OwnAttempts {
 public:
  /// Takes an attempt file. What cannot be read is counted.
  void add(std::string_view bytes, const std::string& name);

  void clear() { *this = {}; }

  /// {attempts: [{id, code, lesson_id, lesson_sha256, approach, engaged_s, has_hole}], unreadable}
  [[nodiscard]] std::string answer_list() const;

  /// {code, holds: [sentences], size} of the attempts with these ids, in this order.
  [[nodiscard]] std::string answer_turn_in(std::string_view ids_json) const;

  /// {learners, attempts, result, rows: [{approach, sentences}], svg} beside the class; attempts
  /// whose id is in `hidden` (a JSON array) are left out.
  [[nodiscard]] std::string answer_compare(std::string_view summary, std::string_view name,
                                           std::string_view hidden_json) const;

 private:
  std::vector<Entry> entries_;
  std::size_t unreadable_ = 0;
};

/// {html, json} of a participation record, or `error`.
[[nodiscard]] std::string answer_participation(std::string_view fields_json);

}  // namespace driftbench::classroom
