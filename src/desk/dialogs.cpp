// What the Classroom's dialogs are told, and the plan that one of them gives back.
#include "classroom_ui/strings.h"
#include "desk/desk.h"
#include "desk/host.h"

#include "base/json_writer.h"
#include "classroom/words.h"
#include "ui/theme.h"

#include <algorithm>
#include <map>
#include <utility>

namespace driftbench::desk {
namespace {

/// One learner's attempts in one lesson.
struct Share {
  std::string sha256;
  std::size_t attempts = 0;
  std::size_t judged = 0;
  std::size_t inside = 0;
  double engaged_s = 0.0;
};

/// By code, then by lesson; rows of tables stand under "".
std::map<std::string, std::map<std::string, Share>> shares_of(const classroom::Roster& roster) {
  std::map<std::string, std::map<std::string, Share>> shares;
  for (const classroom::Entry& entry : roster.entries) {
    if (entry.standing == classroom::Standing::kDiffers) {
      continue;
    }
    Share& share = shares[entry.learner][entry.lesson_id];
    share.sha256 = entry.lesson_sha256;
    ++share.attempts;
    share.judged += entry.inside.has_value() ? 1U : 0U;
    share.inside += entry.inside.value_or(false) ? 1U : 0U;
    share.engaged_s +=
        entry.engaged_s > 0.0 ? entry.engaged_s : entry.measures.time_s.value_or(0.0);
  }
  return shares;
}

void write_learners(base::JsonWriter& out, const classroom::Roster& roster,
                    const std::optional<classroom::Names>& names) {
  out.key("learners").begin_array();
  for (const auto& [code, lessons] : shares_of(roster)) {
    const bool is_known = names.has_value() && names->count(code) > 0;
    out.begin_object().field("code", code);
    out.field("name", is_known ? names->at(code) : std::string());
    out.key("lessons").begin_array();
    for (const auto& [id, share] : lessons) {
      out.begin_object().field("id", id).field("sha256", share.sha256);
      out.field("attempts", share.attempts).field("judged", share.judged);
      out.field("inside", share.inside).field("engaged_s", share.engaged_s).end_object();
    }
    out.end_array().end_object();
  }
  out.end_array();
}

/// Attempts that can be replayed, as the screen calls their learners: in its order.
void write_attempts(base::JsonWriter& out, const classroom::Class& whole) {
  constexpr std::size_t kMostAttempts = 2000;
  out.key("attempts").begin_array();
  std::size_t count = 0;
  for (const classroom::Part& part : whole.parts) {
    for (const classroom::Entry* entry : part.entries) {
      const auto found = std::find(whole.learners.begin(), whole.learners.end(), entry->learner);
      if (!entry->is_record() || found == whole.learners.end() || ++count > kMostAttempts) {
        continue;
      }
      const auto learner = static_cast<std::size_t>(found - whole.learners.begin());
      const std::string period =
          entry->period.has_value() ? std::to_string(*entry->period) : std::string("\u2013");
      out.begin_object().field("file", entry->file);
      out.field("label", classroom::label_of(whole, learner) + " \u00b7 " +
                             std::string(classroom::approach_word(entry->approach)) + " \u00b7 " +
                             period);
      out.end_object();
    }
  }
  out.end_array();
}

}  // namespace

/// Nothing of a learner while names are hidden: others may look on.
std::string Desk::dialog_json() const {
  base::JsonWriter out(base::JsonLayout::kCompact);
  out.begin_object();
  out.field("theme", ui::code_of(model_.theme));
  const std::optional<classroom::Experiment>& planned =
      roster_.has_value() ? roster_->experiment : experiment_;
  out.field("experiment",
            planned.has_value() ? classroom::write_experiment(*planned) : std::string());
  if (roster_.has_value() && !disguise_.has_value()) {
    write_learners(out, *roster_, names_);
  } else {
    out.key("learners").begin_array().end_array();
  }
  if (whole_.has_value()) {
    write_attempts(out, *whole_);
  } else {
    out.key("attempts").begin_array().end_array();
  }
  out.end_object();
  return out.take();
}

void Desk::dialog(const char* name) {
  if (disguise_.has_value() && std::string_view(name) == "record") {
    notify(std::string(classroom_ui::tr(classroom_ui::Str::kRecordNamesHidden)), false);
    return;
  }
  open_dialog(name, dialog_json());
}

std::string Desk::take_experiment(std::string_view text) {
  auto read = classroom::read_experiment(text, "plan");
  if (!read.value.has_value()) {
    return read.first_error();
  }
  experiment_ = std::move(read.value);
  if (roster_.has_value()) {
    roster_->experiment = experiment_;
    compile();
  } else {
    notify(classroom_ui::say(classroom_ui::Str::kPlanTaken, experiment_->places.size()), false);
  }
  keep_awake();
  return {};
}

}  // namespace driftbench::desk
