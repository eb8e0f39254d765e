// Where the learner stands: sets and lessons held against the stored attempts by the sequencing
// engine. Nothing is remembered besides the attempts, so a reload goes on exactly where it was.
#pragma once

#include "app/launch.h"
#include "app/library.h"
#include "app/saved.h"
#include "lesson/standing.h"
#include "ui/course_model.h"

#include <optional>
#include <string_view>
#include <vector>

namespace driftbench::app {

class Course {
 public:
  /// Works out everything anew. A seed from the address takes the place of the set's and of the
  /// lesson's.
  ///
  /// Unit: now_days in days since 1970
  void refresh(const Library& library, const std::vector<SavedEntry>& saved, const Launch& launch,
               double now_days);

  [[nodiscard]] const std::vector<ui::ShelfSet>& shelf() const { return shelf_; }

  /// The first place of a lesson on the shelf; `preferred` when it is there, too.
  [[nodiscard]] std::optional<ui::Place> find(std::string_view lesson_id,
                                              ui::Place preferred) const;

  /// The attempt to make: of this block, or what comes next; nothing when there is none.
  [[nodiscard]] std::optional<lesson::LessonTask> task(ui::Place place,
                                                       std::optional<std::size_t> block) const;

  [[nodiscard]] const lesson::Lesson& lesson(ui::Place place) const;
  [[nodiscard]] std::uint64_t seed(ui::Place place) const;
  [[nodiscard]] std::string_view class_code(ui::Place place) const;
  [[nodiscard]] const lesson::EntryProgress& progress(ui::Place place) const;

  /// What is shown of the stored attempt at this position.
  [[nodiscard]] lesson::Seen seen(std::size_t saved_index) const;

  /// Positions of the stored attempts of the same block and round before that one.
  [[nodiscard]] std::vector<std::size_t> same_block_before(std::size_t saved_index) const;

 private:
  struct Row {
    const lesson::LessonSet* set = nullptr;
    std::vector<const lesson::Lesson*> lessons;
    std::vector<lesson::EntryProgress> progress;
    std::vector<std::uint64_t> seeds;
  };

  void add_set(const Library& library, const lesson::LessonSet& set, const Launch& launch,
               double now_days);
  void add_rest(const Library& library, const Launch& launch);
  void show(const Row& row, double now_days);
  [[nodiscard]] std::size_t retention_attempts(ui::Place place) const;

  std::vector<lesson::PastAttempt> history_;
  std::vector<Row> rows_;
  std::vector<ui::ShelfSet> shelf_;
  bool is_trial_ = false;  ///< an author tries blocks out: any may be taken
};

}  // namespace driftbench::app
