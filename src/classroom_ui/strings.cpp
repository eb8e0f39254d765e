#include "classroom_ui/strings.h"

#include <array>
#include <cstddef>

namespace driftbench::classroom_ui {
namespace {

constexpr std::array<std::string_view, static_cast<std::size_t>(Str::kCount)> kEnglish{
#define DRIFTBENCH_STRING(name, english) std::string_view{english},
#include "classroom_ui/strings_en.inc"
#undef DRIFTBENCH_STRING
};

constexpr std::uint32_t kNames = ui::hash_of_names(
#define DRIFTBENCH_STRING(name, english) #name "\n"
#include "classroom_ui/strings_en.inc"
#undef DRIFTBENCH_STRING
);

}  // namespace

std::string_view tr(Str name) {
  const auto index = static_cast<std::size_t>(name);
  const std::string_view own = ui::own_text(ui::TextTable::kClassroom, kNames, index);
  return own.data() != nullptr ? own : kEnglish[index];
}

}  // namespace driftbench::classroom_ui
