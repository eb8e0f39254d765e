#include "app/launch.h"

#include "base/text.h"
#include "base/utf8.h"
#include "lesson/identifier.h"
#include "ui/strings.h"
#include "ui/theme.h"

#include <string_view>

namespace driftbench::app {
namespace {

constexpr std::size_t kLongestCodeName = 40;

void add_notice(Launch& launch, std::string sentence) {
  if (launch.notice.empty()) {
    launch.notice = std::move(sentence);
  }
}

// A value as it may be repeated to the person: short and well formed.
std::string shown(std::string_view value) {
  constexpr std::size_t kLongest = 40;
  return base::to_valid_utf8(value.substr(0, kLongest));
}

void read_seed(Launch& launch, std::string_view value) {
  const std::optional<std::int64_t> seed = base::parse_integer(value);
  if (seed.has_value() && *seed >= 0 && *seed <= kLargestSeed) {
    launch.seed = static_cast<std::uint64_t>(*seed);
    return;
  }
  add_notice(launch, ui::say(ui::Str::kBadSeed, shown(value), kLargestSeed));
}

void read_theme(Launch& launch, std::string_view value, bool is_from_address) {
  if (const std::optional<ui::Theme> theme = ui::theme_of(value)) {
    launch.theme = *theme;
  } else if (is_from_address) {
    add_notice(launch, ui::say(ui::Str::kBadTheme, shown(value)));
  }
}

void read_mute(Launch& launch, std::string_view value, bool is_from_address) {
  if (value == "1" || value == "0") {
    launch.muted = value == "1";
  } else if (is_from_address) {
    add_notice(launch, ui::say(ui::Str::kBadMute, shown(value)));
  }
}

void read_language(Launch& launch, std::string_view value) {
  // The page has already chosen one; here only what it could not find is named.
  if (!ui::has_language(value)) {
    add_notice(launch, ui::say(ui::Str::kBadLanguage, shown(value)));
  }
}

// A file is a class's summary, which the page fetches; another value is the word of a class.
void read_class(Launch& launch, std::string_view value) {
  if (value.ends_with(".json")) {
    return;
  }
  if (lesson::is_identifier(value)) {
    launch.class_code = std::string(value);
  } else {
    add_notice(launch, ui::say(ui::Str::kBadClass, shown(value)));
  }
}

void read_block(Launch& launch, std::string_view value) {
  const std::optional<std::int64_t> block = base::parse_integer(value);
  if (block.has_value() && *block >= 0) {
    launch.trial_block = static_cast<std::size_t>(*block);
  }
}

void read_lock(Launch& launch, std::string_view value) {
  if (value == "1" || value == "0") {
    launch.is_locked = value == "1";
  } else {
    add_notice(launch, ui::say(ui::Str::kBadLock, shown(value)));
  }
}

void read_argument(Launch& launch, std::string_view name, std::string_view value) {
  if (name == "lesson") {
    launch.lesson_id = shown(value);
  } else if (name == "set") {
    launch.set_id = shown(value);
  } else if (name == "lang") {
    read_language(launch, value);
  } else if (name == "class") {
    read_class(launch, value);
  } else if (name == "trial-block") {
    read_block(launch, value);
  } else if (name == "lock") {
    read_lock(launch, value);
  } else if (name == "seed") {
    read_seed(launch, value);
  } else if (name == "theme" || name == "kept-theme") {
    read_theme(launch, value, name == "theme");
  } else if (name == "mute" || name == "kept-mute") {
    read_mute(launch, value, name == "mute");
  } else if (name == "kept-codename") {
    if (base::is_utf8(value) && value.size() <= kLongestCodeName) {
      launch.code_name = std::string(value);
    }
  } else if (name == "kept-hand") {
    launch.left_handed = value == "left";
  } else if (name == "kept-steps") {
    launch.step_by_step = value == "1";
  } else if (name == "prefers-light") {
    launch.theme = ui::Theme::kLight;
  }
}

}  // namespace

Launch read_launch(std::span<const char* const> arguments) {
  Launch launch;
  // Later sources win: what the system prefers, what was kept, what the address says.
  for (const std::string_view source : {"--prefers-", "--kept-", "--"}) {
    for (const std::string_view argument : arguments) {
      const std::size_t equals = argument.find('=');
      if (!argument.starts_with(source) || equals == std::string_view::npos) {
        continue;
      }
      const std::string_view name = argument.substr(2, equals - 2);
      const bool is_plain = !name.starts_with("kept-") && !name.starts_with("prefers-");
      if ((source == "--") == is_plain) {
        read_argument(launch, name, argument.substr(equals + 1));
      }
    }
  }
  return launch;
}

}  // namespace driftbench::app
