// Every sentence and word of the Classroom's screens, by name; a language is one table of them.
#pragma once

#include <fmt/format.h>

#include <string>
#include <string_view>

namespace driftbench::classroom_ui {

/// Names of the texts; the table holds them in this order.
enum class Str : int {
#define DRIFTBENCH_STRING(name, english) name,
#include "classroom_ui/strings_en.inc"
#undef DRIFTBENCH_STRING
  kCount
};

/// The text in the current language; English is the only table so far.
[[nodiscard]] std::string_view tr(Str name);

/// The text with its {} filled in.
template <class... Args>
[[nodiscard]] std::string say(Str name, const Args&... args) {
  return fmt::format(fmt::runtime(tr(name)), args...);
}

}  // namespace driftbench::classroom_ui
