// Every sentence and word of the Classroom's screens, by name; English is compiled in, a language
// is one table of them.
#pragma once

#include "ui/language.h"

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

/// The text in the current language.
[[nodiscard]] std::string_view tr(Str name);

/// The text with its {} filled in, as ui::say() does.
template <class... Args>
[[nodiscard]] std::string say(Str name, const Args&... args) {
  return ui::fill_in(tr(name), fmt::make_format_args(args...));
}

}  // namespace driftbench::classroom_ui
