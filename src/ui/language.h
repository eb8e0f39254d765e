// The language of the screen as data: its texts, its phrase book for what the core says, its
// decimal sign.
#pragma once

#include "lesson/lesson_rules.h"

#include <fmt/format.h>

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace driftbench::ui {

struct LanguageName {
  std::string_view code;
  std::string_view name;  ///< in the language itself
};

/// The languages a person can choose, in the order of the switch; web/language.js has the same.
inline constexpr std::array<LanguageName, 2> kLanguages{{{"en", "English"}, {"de", "Deutsch"}}};

/// The tables of texts a language file carries.
enum class TextTable { kUi, kClassroom };

/// Takes a language as the page fetched it (made by src/languages.mjs); empty text: English.
/// Returns false, and stays in English, when that is not such a file.
bool set_language(std::string_view json);

/// Code of the language in use.
[[nodiscard]] const std::string& language();

/// One that can be chosen, or the one in use.
[[nodiscard]] bool has_language(std::string_view code);

/// The one after that in use.
[[nodiscard]] LanguageName next_language();

/// The language's text at this place of a table; data() is null where English stands: in English,
/// where a text is missing, and when the file was made for other names.
[[nodiscard]] std::string_view own_text(TextTable table, std::uint32_t names_hash,
                                        std::size_t index);

/// What the core, a shipped file or the page said in English, in the language in use; a number gets
/// the decimal sign. The text itself where the phrase book does not know it.
[[nodiscard]] std::string in_language(std::string_view english);

/// A text of a file: its own words in the language in use, else the English ones as above.
[[nodiscard]] std::string in_language(const lesson::LocalText& text);

/// A number for people: fixed decimals, the language's decimal sign. Contract: finite.
[[nodiscard]] std::string figure(double value, int decimals);

/// The text with its fields, {} in order or {0}, {1} ..., filled in; values as in_language() says
/// them. A field without a value stays as it is.
[[nodiscard]] std::string fill_in(std::string_view pattern, fmt::format_args values);

/// Of the names of a table, each followed by a line end (FNV-1a); src/languages.mjs does the same.
constexpr std::uint32_t hash_of_names(std::string_view names) {
  std::uint32_t hash = 2166136261U;
  for (const char c : names) {
    hash = (hash ^ static_cast<unsigned char>(c)) * 16777619U;
  }
  return hash;
}

}  // namespace driftbench::ui
