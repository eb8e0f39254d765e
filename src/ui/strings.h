// Every sentence and word of the interface, by name; a language is one table of them.
#pragma once

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

/// Whether there is a table for the language with this code.
[[nodiscard]] bool has_language(std::string_view code);

/// Chooses the language by its code; English where there is no table for it.
void set_language(std::string_view code);

/// The text with its {} filled in.
template <class... Args>
[[nodiscard]] std::string say(Str name, const Args&... args) {
  return fmt::format(fmt::runtime(tr(name)), args...);
}

}  // namespace driftbench::ui
