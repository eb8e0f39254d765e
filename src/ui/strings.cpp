#include "ui/strings.h"

#include <array>
#include <cstddef>

namespace driftbench::ui {

namespace {

using Table = std::array<std::string_view, static_cast<std::size_t>(Str::kCount)>;

constexpr Table kEnglish{
#define DRIFTBENCH_STRING(name, english) std::string_view{english},
#include "ui/strings_en.inc"
#undef DRIFTBENCH_STRING
};

const Table* current_table = &kEnglish;

}  // namespace

std::string_view tr(Str name) {
  return (*current_table)[static_cast<std::size_t>(name)];
}

bool has_language(std::string_view code) {
  return code == "en";
}

void set_language(std::string_view code) {
  // English is the only table so far; another language adds a table and its code here.
  static_cast<void>(code);
  current_table = &kEnglish;
}

}  // namespace driftbench::ui
