#include "ui/guided.h"

#include <cstddef>

namespace driftbench::ui {

std::int32_t drill_index_of(const lesson::AttemptSetup& setup, std::string_view id) {
  for (std::size_t i = 0; i < setup.kit.drills.size(); ++i) {
    if (setup.kit.drills[i].id == id) {
      return static_cast<std::int32_t>(i);
    }
  }
  return -1;
}

bool is_guided(const lesson::AttemptSetup& setup, std::int32_t drill_index) {
  if (!setup.guide.has_value() || drill_index < 0 ||
      static_cast<std::size_t>(drill_index) >= setup.kit.drills.size()) {
    return false;
  }
  if (setup.approach == specimen::Approach::kSleeve) {
    return true;
  }
  return setup.approach == specimen::Approach::kPilot && !setup.plan.drill_ids.empty() &&
         setup.kit.drills[static_cast<std::size_t>(drill_index)].id == setup.plan.drill_ids.front();
}

std::int32_t key_index_of(const lesson::AttemptSetup& setup, std::int32_t drill_index) {
  if (drill_index < 0 || static_cast<std::size_t>(drill_index) >= setup.kit.drills.size()) {
    return -1;
  }
  const std::string& id = setup.kit.drills[static_cast<std::size_t>(drill_index)].id;
  for (std::size_t i = 0; i < setup.kit.keys.size(); ++i) {
    if (setup.kit.keys[i].drill_id == id) {
      return static_cast<std::int32_t>(i);
    }
  }
  return -1;
}

const specimen::Sleeve* sleeve_of(const lesson::AttemptSetup& setup) {
  if (setup.guide.has_value()) {
    for (const specimen::Sleeve& sleeve : setup.kit.sleeves) {
      if (sleeve.id == setup.guide->sleeve_id) {
        return &sleeve;
      }
    }
  }
  return nullptr;
}

const specimen::Implant* implant_of(const lesson::AttemptSetup& setup) {
  for (const specimen::Implant& implant : setup.kit.implants) {
    if (implant.id == setup.plan.implant_id) {
      return &implant;
    }
  }
  return nullptr;
}

double last_drill_mm(const lesson::AttemptSetup& setup) {
  if (setup.plan.drill_ids.empty()) {
    return 0.0;
  }
  const std::int32_t index = drill_index_of(setup, setup.plan.drill_ids.back());
  return index < 0 ? 0.0 : setup.kit.drills[static_cast<std::size_t>(index)].diameter_mm;
}

}  // namespace driftbench::ui
