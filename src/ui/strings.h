// Every sentence and word of the interface, by name; English is compiled in, a language is one
// table of them.
#pragma once

#include "ui/language.h"

#include <fmt/format.h>

#include <string>
#include <string_view>

namespace driftbench::ui {

/// Names of the texts; the tables hold them in this order.
enum class Str : int {
#define DRIFTBENCH_STRING(name, english) name,
#include "ui/strings_en.inc"
#undef DRIFTBENCH_STRING
  kCount
};

/// The text in the current language.
[[nodiscard]] std::string_view tr(Str name);

/// The text with its {} filled in: whole numbers and texts; what the core said and numbers with a
/// point are said in the language, too.
template <class... Args>
[[nodiscard]] std::string say(Str name, const Args&... args) {
  return fill_in(tr(name), fmt::make_format_args(args...));
}

}  // namespace driftbench::ui
