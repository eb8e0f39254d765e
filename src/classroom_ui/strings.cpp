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

}  // namespace

std::string_view tr(Str name) {
  return kEnglish[static_cast<std::size_t>(name)];
}

}  // namespace driftbench::classroom_ui
