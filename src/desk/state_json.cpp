// The state as JSON, for tests and for people with a console.
#include "desk/desk.h"

#include "base/json_writer.h"
#include "classroom/summary_json.h"
#include "classroom/words.h"

namespace driftbench::desk {
namespace {

void write_task(base::JsonWriter& out, std::string_view name, const classroom_ui::Task& task) {
  out.key(name).begin_object();
  out.field("done", task.done).field("total", task.total).field("is_running", task.is_running);
  out.end_object();
}

void write_roster(base::JsonWriter& out, const classroom::Roster& roster) {
  const classroom::Counts counts = classroom::counts_of(roster);
  out.field("attempts", counts.attempts).field("other_lesson", counts.other_lesson);
  for (std::size_t i = 0; i < classroom::kStandingNames.size(); ++i) {
    out.field(classroom::kStandingNames[i], counts.by_standing[i]);
  }
  out.field("given_twice", roster.notes.count).key("refused").begin_array();
  for (const std::string& sentence : roster.refused.items) {
    out.value(sentence);
  }
  out.end_array().key("left_out").begin_array();
  for (const classroom::Entry& entry : roster.entries) {
    if (!entry.counts()) {
      out.value(entry.file + ": " + classroom::reasons_text(entry));
    }
  }
  out.end_array();
}

}  // namespace

std::string Desk::state_json() const {
  base::JsonWriter out(base::JsonLayout::kCompact);
  out.begin_object();
  out.field("screen", "classroom").field("page", screen_.page_name());
  out.field("is_demo", model_.is_demo).field("notice", model_.notice);
  out.field("are_names_hidden", disguise_.has_value());
  out.field("learners", whole_.has_value() ? whole_->learners.size() : 0);
  out.field("shown_attempts", whole_.has_value() ? whole_->roster.entries.size() : 0);
  if (whole_.has_value() && !whole_->parts.empty() && whole_->parts[0].experiment.has_value()) {
    out.field("experiment", whole_->parts[0].experiment->followed);
  }
  write_task(out, "reading", model_.reading);
  write_task(out, "checking", model_.checking);
  if (roster_.has_value()) {
    out.key("roster").begin_object();
    write_roster(out, *roster_);
    out.end_object();
  }
  out.key("meters").begin_object().field("frames", frames_).end_object();
  out.end_object();
  return out.take();
}

}  // namespace driftbench::desk
