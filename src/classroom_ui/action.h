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

struct ToggleTheme {};

struct ChangeLanguage {};  ///< to the next one

struct SaveOutput {
  std::size_t index = 0;  ///< into classroom::kOutputs
};

struct StopChecking {};

struct GoOnChecking {};

struct StartOver {};

struct GoToBench {};

struct DismissNotice {};

using Action = std::variant<PickFiles, PickFolder, OpenDemo, SetFilters, ToggleNames, ToggleTheme,
                            ChangeLanguage, SaveOutput, StopChecking, GoOnChecking, StartOver,
                            GoToBench, DismissNotice>;

using Actions = std::vector<Action>;

}  // namespace driftbench::classroom_ui
