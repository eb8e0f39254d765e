#include "classroom/participation.h"

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "base/text.h"
#include "classroom/report_style.h"
#include "classroom/words.h"
#include "lesson/read_document.h"

#include <fmt/format.h>

#include <array>

namespace driftbench::classroom {
namespace {

constexpr std::size_t kLongest = 400;
constexpr std::int64_t kMostLessons = 200;
constexpr std::int64_t kMostObjectives = 30;
constexpr base::NumberRange kTime_s{0.0, 1e8};

constexpr std::array<base::EnumName<LessonResult>, 3> kResultWords{
    {{kLessonResults[0], LessonResult::kNotAssessed},
     {kLessonResults[1], LessonResult::kMet},
     {kLessonResults[2], LessonResult::kNotMet}}};

struct TextField {
  std::string_view key;
  std::string_view label;  ///< empty: not a line of the page
  std::string Participation::*member;
};

constexpr std::array kFields{
    TextField{"record_id", "Record", &Participation::record_id},
    TextField{"name", "Name", &Participation::name},
    TextField{"code_name", "Code name in the exercise", &Participation::code_name},
    TextField{"provider", "Provider", &Participation::provider},
    TextField{"title", "Course", &Participation::title},
    TextField{"dates", "Date or dates", &Participation::dates},
    TextField{"place", "Place or format", &Participation::place},
    TextField{"instructor", "Instructor", &Participation::instructor},
    TextField{"hours", "Hours", &Participation::hours},
    TextField{"set_id", "", &Participation::set_id},
    TextField{"set_revision", "", &Participation::set_revision},
};

constexpr std::string_view kStyle = R"(
.fields { margin: 16px 0 24px; }
.fields td { font-size: 20px; padding: 8px 24px 8px 0; }
.fields td:first-child { color: #3c3c44; }
.line { display: inline-block; width: 320px; border-bottom: 1px solid #1b1b1f; height: 1.2em; }
.hash { font-family: ui-monospace, "DejaVu Sans Mono", monospace; font-size: 13px; overflow-wrap: anywhere; }
.foot { margin-top: 48px; border-top: 3px solid #1b1b1f; padding-top: 12px; font-weight: 600; }
)";

ParticipationLesson read_lesson_row(const base::JsonValue& item, const std::string& path,
                                    base::ProblemList& problems) {
  constexpr base::IntRange kAttempts{0, 1'000'000};
  base::ObjectReader in(item, path, problems);
  ParticipationLesson row;
  row.id = in.required_string("id", kLongest);
  row.title = in.optional_string("title", kLongest).value_or("");
  row.sha256 = in.optional_string("sha256", kLongest).value_or("");
  row.revision = in.optional_string("revision", kLongest).value_or("");
  row.attempts = static_cast<std::size_t>(in.required_int("attempts", kAttempts));
  row.engaged_s = in.required_double("engaged_s", kTime_s, "s");
  row.result = in.required_enum("result", kResultWords);
  in.finish();
  return row;
}

std::string_view result_words(LessonResult result) {
  switch (result) {
    case LessonResult::kMet:
      return "criterion met";
    case LessonResult::kNotMet:
      return "criterion not met";
    case LessonResult::kNotAssessed:
      break;
  }
  return "not assessed";
}

std::string minutes(double seconds) {
  constexpr double kMinute_s = 60.0;
  return base::fixed(seconds / kMinute_s, 1);
}

std::string field_row(std::string_view label, const std::string& value) {
  return fmt::format("<tr><td>{}</td><td>{}</td></tr>\n", base::html_escaped(label),
                     value.empty() ? "<span class=\"line\"></span>" : base::html_escaped(value));
}

std::string lessons_table(const Participation& participation) {
  if (participation.lessons.empty()) {
    return {};
  }
  std::string text =
      "<h2>What was done</h2>\n<table>\n<tr><th>lesson</th><th class=\"number\">attempts</th>"
      "<th class=\"number\">minutes in attempts</th><th>result</th></tr>\n";
  for (const ParticipationLesson& row : participation.lessons) {
    const std::string version =
        row.revision.empty() ? std::string() : ", version " + base::html_escaped(row.revision);
    text += fmt::format(
        "<tr><td>{}{}<br><span class=\"hash\">{} {}</span></td><td class=\"number\">{}</td>"
        "<td class=\"number\">{}</td><td>{}</td></tr>\n",
        base::html_escaped(row.title.empty() ? row.id : row.title), version,
        base::html_escaped(row.id), base::html_escaped(row.sha256), row.attempts,
        minutes(row.engaged_s), result_words(row.result));
  }
  return text + "</table>\n";
}

}  // namespace

double Participation::engaged_min() const {
  constexpr double kMinute_s = 60.0;
  double sum_s = 0.0;
  for (const ParticipationLesson& row : lessons) {
    sum_s += row.engaged_s;
  }
  return sum_s / kMinute_s;
}

lesson::ReadOutcome<Participation> read_participation(std::string_view text,
                                                      std::string_view file_name) {
  return lesson::read_document<Participation>(
      text, file_name, {kParticipationFormat, lesson::kFileVersion, kMaxParticipationBytes},
      [](base::ObjectReader& in) {
        Participation participation;
        for (const TextField& field : kFields) {
          participation.*field.member = in.optional_string(field.key, kLongest).value_or("");
        }
        participation.objectives =
            in.optional_strings("objectives", {0, kMostObjectives}, kLongest);
        participation.lessons = in.required_array("lessons", {0, kMostLessons}, read_lesson_row);
        return participation;
      });
}

std::string participation_json(const Participation& participation) {
  base::JsonWriter out;
  out.begin_object().field("format", kParticipationFormat).field("version", lesson::kFileVersion);
  for (const TextField& field : kFields) {
    out.field(field.key, participation.*field.member);
  }
  out.key("objectives").begin_array();
  for (const std::string& objective : participation.objectives) {
    out.value(objective);
  }
  out.end_array().key("lessons").begin_array();
  for (const ParticipationLesson& row : participation.lessons) {
    out.begin_object().field("id", row.id).field("title", row.title).field("sha256", row.sha256);
    out.field("revision", row.revision).field("attempts", row.attempts);
    out.field("engaged_s", row.engaged_s);
    out.field("result", base::name_of(kResultWords, row.result)).end_object();
  }
  out.end_array().end_object();
  return out.take();
}

std::string participation_html(const Participation& participation) {
  std::string text = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'\">\n<title>Participation record</title>\n<style>{}{}</style>\n</head>\n"
      "<body>\n<h1>Participation record</h1>\n<table class=\"fields\">\n",
      kReportStyle, kStyle);
  for (const TextField& field : kFields) {
    if (!field.label.empty() && field.key != "record_id") {
      text += field_row(field.label, participation.*field.member);
    }
  }
  if (!participation.set_id.empty()) {
    const std::string& revision = participation.set_revision;
    text += field_row("Set of lessons",
                      participation.set_id + (revision.empty() ? "" : ", version " + revision));
  }
  text += field_row("Minutes in attempts", base::fixed(participation.engaged_min(), 1));
  text += field_row("Record", participation.record_id) + "</table>\n";
  if (!participation.objectives.empty()) {
    text += "<h2>Objectives</h2>\n<ul>\n";
    for (const std::string& objective : participation.objectives) {
      text += fmt::format("<li>{}</li>\n", base::html_escaped(objective));
    }
    text += "</ul>\n";
  }
  text += lessons_table(participation);
  return text +
         "<p class=\"caption\">Exercises on simulated blocks. Minutes in attempts are what the "
         "program counted; time for instruction and discussion is not in them. Hours are entered "
         "by "
         "the provider.</p>\n"
         "<p class=\"foot\">Not a certificate. Credit is decided by the provider.</p>\n"
         "</body>\n</html>\n";
}

}  // namespace driftbench::classroom
