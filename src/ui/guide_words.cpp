#include "ui/guide_words.h"

#include "base/text.h"
#include "ui/language.h"
#include "ui/words.h"

namespace driftbench::ui {
namespace {

constexpr double kTight_mm = 0.5;  // own assumption

std::string mm(double value) {
  return base::fixed(value, 1);
}

Str support_words(const std::optional<specimen::GuideSupport>& support) {
  if (!support.has_value()) {
    return Str::kSupportFour;
  }
  switch (support->on) {
    case specimen::SupportKind::kTeeth:
      return Str::kSupportTeeth;
    case specimen::SupportKind::kMucosa:
      return Str::kSupportMucosa;
    case specimen::SupportKind::kBone:
      break;
  }
  return Str::kSupportBone;
}

GuideLine support_line(const specimen::Guide& guide) {
  GuideLine line{Str::kRoomSupport, std::string(tr(support_words(guide.support))), false};
  if (guide.support.has_value() && guide.support->on != specimen::SupportKind::kTeeth) {
    line.words += ' ' + say(Str::kSupportPins, guide.support->pins);
  }
  return line;
}

GuideLine beside_line(Str name, const lesson::Beside& beside) {
  const bool is_inside = beside.distance_mm < 0.0;
  const bool is_tight = beside.distance_mm < kTight_mm;
  return {name,
          say(is_inside  ? Str::kBesideInto
              : is_tight ? Str::kBesideTight
                         : Str::kBesideClear,
              amount(beside.distance_mm, 1), beside.fdi),
          is_tight};
}

GuideLine mouth_line(const lesson::MouthRoom& mouth) {
  const double needed_mm = mouth.needed_between_incisors_mm();
  GuideLine line{Str::kRoomMouth, say(Str::kMouthNeeds, mm(mouth.needed_mm), mm(needed_mm)), false};
  if (mouth.opens_mm.has_value()) {
    const double spare_mm = *mouth.opens_mm - needed_mm;
    line.is_trouble = spare_mm < 0.0;
    line.words += ' ' + say(line.is_trouble ? Str::kMouthLacks : Str::kMouthSpare,
                            mm(*mouth.opens_mm), amount(spare_mm, 1));
  } else {
    line.words += ' ' + std::string(tr(Str::kMouthMeasure));
  }
  return line;
}

GuideLine length_line(const lesson::AttemptSetup& setup, const lesson::GuideRoom& room) {
  GuideLine line{Str::kRoomLengths, {}, false};
  for (const lesson::GuidedLength& length : room.lengths) {
    const std::string drill =
        mm(setup.kit.drills[static_cast<std::size_t>(length.drill_index)].diameter_mm);
    if (length.nearest_mm > 0.0 && length.too_deep_mm() == 0.0) {
      continue;
    }
    line.is_trouble = true;
    line.words += line.words.empty() ? "" : " ";
    line.words += length.nearest_mm > 0.0
                      ? say(Str::kLengthMissing, drill, depth_words(length.too_deep_mm()))
                      : say(Str::kLengthNone, drill);
  }
  if (line.words.empty()) {
    line.words = tr(Str::kLengthsThere);
  }
  return line;
}

}  // namespace

std::array<std::string, 3> sum_words(const lesson::AttemptSetup& setup,
                                     const lesson::GuidedLength& length) {
  const specimen::Drill& drill = setup.kit.drills[static_cast<std::size_t>(length.drill_index)];
  return {figure(drill.diameter_mm, 1), base::fixed(drill.speed_rpm, 0),
          say(Str::kSheetParts4, mm(length.implant_mm), mm(length.gap_mm), mm(length.sleeve_mm),
              mm(length.collar_mm))};
}

std::vector<GuideLine> guide_lines(const lesson::AttemptSetup& setup,
                                   const lesson::GuideRoom& room) {
  std::vector<GuideLine> lines{support_line(*setup.guide)};
  if (room.sleeve.has_value()) {
    lines.push_back(beside_line(Str::kRoomSleeve, *room.sleeve));
  }
  if (room.body.has_value()) {
    lines.push_back(beside_line(Str::kRoomBody, *room.body));
  }
  if (room.head.has_value()) {
    lines.push_back(beside_line(Str::kRoomHead, *room.head));
  }
  if (room.mouth.has_value()) {
    lines.push_back(mouth_line(*room.mouth));
  }
  lines.push_back(length_line(setup, room));
  return lines;
}

}  // namespace driftbench::ui
