// What the logbook's dialog is told: lessons, sets, how they stand, and what is not shown yet.
#include "app/app.h"
#include "base/json_writer.h"
#include "platform/host.h"
#include "ui/language.h"
#include "ui/theme.h"

#include <string_view>

namespace driftbench::app {
namespace {

/// As classroom::kLessonResults says it.
std::string_view result_of(lesson::LessonState state) {
  switch (state) {
    case lesson::LessonState::kPassed:
    case lesson::LessonState::kDueAgain:
      return "met";
    case lesson::LessonState::kNotPassed:
      return "not-met";
    default:
      return "not-assessed";
  }
}

}  // namespace

void App::open_takeaway(const std::string& summary_name, const std::string& summary) {
  base::JsonWriter out(base::JsonLayout::kCompact);
  out.begin_object().field("theme", ui::code_of(model_.theme));
  out.field("code_name", launch_.code_name).field("lesson", logbook_lesson_);
  out.key("lessons").begin_array();
  for (const auto& lesson : library_.lessons()) {
    const auto place = course_.find(lesson->id, model_.place);
    const bool has_criterion = lesson->criterion.rule != lesson::PassRule::kNone;
    out.begin_object().field("id", lesson->id).field("revision", lesson->revision);
    out.field("title", ui::in_language(lesson->title));
    out.field("result", place.has_value() && has_criterion
                            ? result_of(lesson::lesson_state(course_.progress(*place)))
                            : "not-assessed");
    out.end_object();
  }
  out.end_array().key("sets").begin_array();
  for (const auto& set : library_.sets()) {
    out.begin_object().field("id", set->id).field("revision", set->revision);
    out.field("title", ui::in_language(set->title)).key("lessons").begin_array();
    for (const lesson::SetEntry& entry : set->lessons) {
      out.value(entry.lesson_id);
    }
    out.end_array().end_object();
  }
  out.end_array().key("hidden").begin_array();
  for (std::size_t i = 0; i < saved_.size(); ++i) {
    if (course_.seen(i).now != lesson::Shown::kEverything) {
      out.value(saved_[i].shown.id);
    }
  }
  out.end_array().key("summary");
  if (summary.empty()) {
    out.null();
  } else {
    out.begin_object().field("name", summary_name).field("text", summary).end_object();
  }
  out.end_object();
  platform::open_takeaway(out.take());
}

}  // namespace driftbench::app
