// What the person asked for. Panels emit these; app/ carries them out.
#pragma once

#include "lesson/guide_plan.h"
#include "lesson/specimen_case.h"
#include "record/trace.h"
#include "scoring/results.h"
#include "ui/course_model.h"

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace driftbench::ui {

struct OpenLesson {
  Place place;
};

struct OpenBriefing {
  std::optional<std::size_t> block_index;  ///< of the lesson; none: what comes next
};

struct SetSeatGap {
  double mm = 0.0;
};  ///< that the guide's error budget reckons with

struct SaveSiteSheet {};  ///< of the briefed block's guide, to print

struct StartAttempt {};  ///< of the briefed block, fresh specimen

struct Again {};  ///< same block, fresh specimen

struct GoOn {};  ///< to what the lesson asks for next

struct GoToShelf {};

struct Send {
  record::Command command;
};  ///< to the running session

struct SetPressLevel {
  double newton = 16.0;
};

struct GiveEstimate {
  scoring::SelfEstimate estimate;
};

struct SkipEstimate {};

struct ScrubTo {
  std::int64_t step = 0;
};

struct PlayReplay {
  bool play = false;
};

struct ToggleMute {};

struct NextTheme {};

struct ToggleLeftHand {};

struct ToggleSteps {};

struct Peck {
  bool is_short = false;
};  ///< step by step: press for a moment

struct ChangeLanguage {};  ///< to the next one

struct OpenFile {};  ///< let the person choose a file

struct OpenClassroom {};  ///< the page that compares a class

struct OpenLessonDesk {};  ///< the page on which lessons and sets are written

struct ForgetOpened {
  std::string name;
};  ///< of an opened file

struct OpenSaved {
  std::string id;
};

struct DeleteSaved {
  std::string id;
};

struct ExportAttempt {
  std::string id;
};  ///< empty: the current one

struct ResumeUnfinished {};

struct DiscardUnfinished {};

struct SetCompared {
  std::string id;
  bool shown = true;
};

struct DismissNotice {};

struct OpenStudy {
  std::size_t case_index = 0;
};

struct EditPlan {
  lesson::CasePlan plan;
  std::uint32_t gesture = 0;  ///< edits of one drag share it
};

struct EditGuide {
  lesson::GuidePlan guide;
};  ///< of the plan under study

struct ReckonGuide {};  ///< find out what the guide under study lets through

struct StepPlan {
  bool forward = false;  ///< redo, else undo
};

struct SavePlan {
  bool as_lesson = false;  ///< also a lesson that drills it
};

struct OpenLogbook {
  std::string lesson_id;  ///< empty: of the last attempt
};

struct WatchExample {
  std::size_t block_index = 0;  ///< of the lesson
};

struct OpenPrediction {};

struct JudgeGroup {
  std::size_t group = 0;
  bool is_bias = true;  ///< where each group is judged; else this group is named
};

struct RevealPrediction {};

struct DeleteAll {};

struct ExportAll {};

struct OpenTakeaway {};  ///< the dialog that turns in, compares with a class, makes a record

using Action =
    std::variant<OpenLesson, OpenBriefing, StartAttempt, Again, GoOn, GoToShelf, Send,
                 SetPressLevel, GiveEstimate, SkipEstimate, ScrubTo, PlayReplay, ToggleMute,
                 NextTheme, ChangeLanguage, OpenFile, OpenSaved, DeleteSaved, ExportAttempt,
                 ResumeUnfinished, DiscardUnfinished, SetCompared, DismissNotice, OpenLogbook,
                 DeleteAll, ExportAll, OpenTakeaway, OpenStudy, EditPlan, EditGuide, ReckonGuide,
                 StepPlan, SavePlan, OpenClassroom, OpenLessonDesk, SetSeatGap, SaveSiteSheet,
                 ForgetOpened, WatchExample, OpenPrediction, JudgeGroup, RevealPrediction,
                 ToggleLeftHand, ToggleSteps, Peck>;

using Actions = std::vector<Action>;

}  // namespace driftbench::ui
