// Stored attempts as the shelf lists them: a short summary beside each full record.
#pragma once

#include "lesson/past_attempt.h"
#include "record/attempt.h"
#include "ui/model.h"

#include <string>
#include <string_view>
#include <vector>

namespace driftbench::app {

/// A stored attempt with what progress is counted by.
struct SavedEntry {
  ui::SavedAttempt shown;
  lesson::PastAttempt past;  ///< for the sequencing engine
  std::string device;
};

/// `past` as record::past_attempt() gives it.
[[nodiscard]] SavedEntry summary_of(const record::Attempt& attempt, lesson::PastAttempt past,
                                    lesson::LocalText block_title, std::string when);

/// One JSON object; of the title the English words.
[[nodiscard]] std::string write_summary(const SavedEntry& entry);

/// The summaries of a JSON array, oldest first; those that cannot be read are left out.
[[nodiscard]] std::vector<SavedEntry> read_summaries(std::string_view json);

}  // namespace driftbench::app
