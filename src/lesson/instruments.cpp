#include "lesson/instruments.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace driftbench::lesson {
namespace {

/// Index of the first item that answers yes; -1 when none does.
template <class T, class IsIt>
std::int32_t index_where(const std::vector<T>& items, IsIt is_it) {
  const auto found = std::find_if(items.begin(), items.end(), is_it);
  return found == items.end() ? -1 : static_cast<std::int32_t>(found - items.begin());
}

template <class T>
std::int32_t index_of_id(const std::vector<T>& items, std::string_view id) {
  return index_where(items, [id](const T& item) { return item.id == id; });
}

base::Result<void> missing(const AttemptSetup& setup, std::string_view what,
                           const std::string& id) {
  return base::fail(
      base::ErrorCode::kMismatch,
      fmt::format("found no {} \"{}\" in the kit \"{}\", expected it because the plan "
                  "or the guide names it",
                  what, id, setup.kit.id));
}

}  // namespace

std::int32_t drill_index_of(const AttemptSetup& setup, std::string_view id) {
  return index_of_id(setup.kit.drills, id);
}

std::vector<std::int32_t> missing_drills(const AttemptSetup& setup,
                                         std::span<const std::int32_t> used) {
  std::vector<std::int32_t> missing;
  for (const std::string& id : setup.plan.drill_ids) {
    const std::int32_t index = drill_index_of(setup, id);
    if (std::find(used.begin(), used.end(), index) == used.end()) {
      missing.push_back(index);
    }
  }
  return missing;
}

bool is_guided(const AttemptSetup& setup, std::int32_t drill_index) {
  const specimen::Drill* drill = item_at(setup.kit.drills, drill_index);
  if (drill == nullptr || !setup.guide.has_value()) {
    return false;
  }
  const std::vector<std::string>& planned = setup.plan.drill_ids;
  return setup.approach == specimen::Approach::kSleeve ||
         (setup.approach == specimen::Approach::kPilot && !planned.empty() &&
          planned.front() == drill->id);
}

std::int32_t key_index_of(const AttemptSetup& setup, std::int32_t drill_index) {
  const specimen::Drill* drill = item_at(setup.kit.drills, drill_index);
  return drill == nullptr ? -1 : index_where(setup.kit.keys, [drill](const specimen::Key& key) {
    return key.drill_id == drill->id;
  });
}

const specimen::Sleeve* sleeve_of(const AttemptSetup& setup) {
  const auto& sleeves = setup.kit.sleeves;
  return setup.guide ? item_at(sleeves, index_of_id(sleeves, setup.guide->sleeve_id)) : nullptr;
}

std::int32_t implant_index_of(const AttemptSetup& setup) {
  return index_of_id(setup.kit.implants, setup.plan.implant_id);
}

const specimen::Implant* implant_of(const AttemptSetup& setup) {
  return item_at(setup.kit.implants, implant_index_of(setup));
}

double last_drill_mm(const AttemptSetup& setup) {
  const std::vector<std::string>& planned = setup.plan.drill_ids;
  const specimen::Drill* drill =
      planned.empty() ? nullptr : item_at(setup.kit.drills, drill_index_of(setup, planned.back()));
  return drill == nullptr ? 0.0 : drill->diameter_mm;
}

base::Result<void> check_drilling_instruments(const AttemptSetup& setup) {
  for (const std::string& id : setup.plan.drill_ids) {
    if (drill_index_of(setup, id) < 0) {
      return missing(setup, "drill", id);
    }
  }
  if (setup.guide && sleeve_of(setup) == nullptr) {
    return missing(setup, "sleeve", setup.guide->sleeve_id);
  }
  return {};
}

base::Result<void> check_all_instruments(const AttemptSetup& setup) {
  if (base::Result<void> checked = check_drilling_instruments(setup); !checked) {
    return checked;
  }
  if (implant_of(setup) == nullptr) {
    return missing(setup, "implant", setup.plan.implant_id);
  }
  for (const std::string& id : setup.plan.drill_ids) {
    const std::int32_t index = drill_index_of(setup, id);
    const bool is_twist = item_at(setup.kit.drills, index)->kind == specimen::DrillKind::kTwist;
    if (is_twist && is_guided(setup, index) && key_index_of(setup, index) < 0) {
      return missing(setup, "key for the guided drill", id);
    }
  }
  return {};
}

}  // namespace driftbench::lesson
