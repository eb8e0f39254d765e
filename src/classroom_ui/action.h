// What the person asked for. The panels emit these; desk/ carries them out.
#pragma once

#include "classroom/filters.h"

#include <cstddef>
#include <variant>
#include <vector>

namespace driftbench::classroom_ui {

struct PickFiles {};

struct PickFolder {};

struct OpenDemo {};

struct SetFilters {
  classroom::Filters filters;
};

struct ToggleNames {};

struct NextTheme {};

struct ChangeLanguage {};  ///< to the next one

struct SaveOutput {
  std::size_t index = 0;  ///< into classroom::kOutputs
};

struct PlanExperiment {};  ///< opens the dialog, with the plan of the class if there is one

struct PasteCode {};  ///< opens the dialog that takes a turn-in code

struct MeasureBlock {};  ///< opens the dialog that measures photographs of a real block

struct MakeRecord {};  ///< opens the dialog that makes one attendee's participation record

struct ReplayTogether {};  ///< opens the dialog that shows up to four attempts side by side

struct StopChecking {};

struct GoOnChecking {};

struct StartOver {};

struct GoToBench {};

struct DismissNotice {};

using Action =
    std::variant<PickFiles, PickFolder, OpenDemo, SetFilters, ToggleNames, NextTheme,
                 ChangeLanguage, SaveOutput, PlanExperiment, PasteCode, MeasureBlock, MakeRecord,
                 ReplayTogether, StopChecking, GoOnChecking, StartOver, GoToBench, DismissNotice>;

using Actions = std::vector<Action>;

}  // namespace driftbench::classroom_ui
