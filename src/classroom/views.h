// What is shown of a class, in the order in which it is read; the report and the screens follow it.
#pragma once

#include "classroom/compile.h"
#include "classroom/picture.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace driftbench::classroom {

/// One chart with its heading, its caption, and a sentence where there is nothing to draw.
struct View {
  std::string_view heading;
  std::string_view caption;
  std::vector<Picture> (*draw)(const Class&, const Part&);
  std::string_view nothing;
  bool rests_on_groups = true;  ///< small groups that are hidden explain an empty picture
};

enum class ViewId {
  kGrid,
  kBiasMap,
  kSmallTargets,
  kPooledTarget,
  kPairs,
  kCurves,
  kEstimates,
  kHoleSizes,
  kCount
};

[[nodiscard]] const View& view(ViewId id);

/// Why the view is empty.
[[nodiscard]] std::string nothing_sentence(const View& view, const Part& part);

/// A critical event in the words of people.
struct EventRow {
  std::string learner;
  std::string approach;
  std::string attempt;  ///< period, or a dash
  std::string what;
};

/// Events of the groups that are shown, by learner.
[[nodiscard]] std::vector<EventRow> critical_events(const Class& whole, const Part& part);

}  // namespace driftbench::classroom
