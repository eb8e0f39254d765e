// What a guide rests on and whether it fits, in words: for the briefing and the printed sheet.
#pragma once

#include "lesson/guide_room.h"
#include "ui/strings.h"

#include <array>
#include <string>
#include <vector>

namespace driftbench::ui {

/// One finding about a guide.
struct GuideLine {
  Str name;
  std::string words;
  bool is_trouble = false;
};

/// Diameter, speed, and the sum that gives a guided drill's length: "7.0 + 3.5 + 4.5 + 1.5".
[[nodiscard]] std::array<std::string, 3> sum_words(const lesson::AttemptSetup& setup,
                                                   const lesson::GuidedLength& length);

/// Support with its check, room beside the neighbours, mouth, lengths of the kit.
[[nodiscard]] std::vector<GuideLine> guide_lines(const lesson::AttemptSetup& setup,
                                                 const lesson::GuideRoom& room);

}  // namespace driftbench::ui
