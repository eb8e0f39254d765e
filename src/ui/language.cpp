#include "ui/language.h"

#include "base/json.h"
#include "base/text.h"
#include "lesson/lesson.h"

#include <algorithm>
#include <map>
#include <optional>
#include <type_traits>
#include <utility>
#include <vector>

namespace driftbench::ui {

namespace {

using Book = std::map<std::string, std::string, std::less<>>;
using Values = std::vector<std::string>;

struct Pattern {
  std::string english;
  std::string own;
};

struct Table {
  std::uint32_t names_hash = 0;
  std::vector<std::string> texts;  ///< empty where there is none
};

struct Language {
  std::string code = "en";
  std::string decimal = ".";
  std::array<Table, 2> tables;
  Book whole;                     ///< phrases without fields
  std::vector<Pattern> patterns;  ///< those with fields, the most particular first
  Book found;                     ///< what patterns gave, so that a frame does not look again
};

Language& current() {
  static Language language;
  return language;
}

constexpr std::size_t kMostFound = 2000;
constexpr int kDeepest = 6;

void read_table(Table& table, const base::JsonValue* rows, const base::JsonValue* hash) {
  if (rows == nullptr || !rows->is_array() || hash == nullptr || !hash->is_number()) {
    return;
  }
  table.names_hash = static_cast<std::uint32_t>(hash->as_double());
  for (const base::JsonValue& row : rows->items()) {
    table.texts.push_back(row.is_string() ? row.as_string() : std::string());
  }
}

std::string text_at(const base::JsonValue& parent, std::string_view key) {
  const base::JsonValue* value = parent.find(key);
  return value != nullptr && value->is_string() ? value->as_string() : std::string();
}

void read_phrases(Language& language, const base::JsonValue* phrases) {
  if (phrases == nullptr || !phrases->is_object()) {
    return;
  }
  for (const auto& [english, own] : phrases->members()) {
    if (!own.is_string()) {
      continue;
    }
    if (english.find("{}") == std::string::npos) {
      language.whole[english] = own.as_string();
    } else {
      language.patterns.push_back({english, own.as_string()});
    }
  }
}

// What stands in the pattern's fields when it fits the whole text.
std::optional<Values> match(std::string_view pattern, std::string_view text) {
  Values values;
  std::size_t field = pattern.find("{}");
  if (!text.starts_with(pattern.substr(0, field))) {
    return std::nullopt;
  }
  text.remove_prefix(field);
  while (field != std::string_view::npos) {
    pattern.remove_prefix(field + 2);
    field = pattern.find("{}");
    const std::string_view next = pattern.substr(0, field);
    std::size_t end = text.find(next, 1);
    if (field == std::string_view::npos) {
      end = text.size() > next.size() && text.ends_with(next) ? text.size() - next.size()
                                                              : std::string_view::npos;
    }
    if (end == std::string_view::npos || end > text.size()) {
      return std::nullopt;
    }
    values.emplace_back(text.substr(0, end));
    text.remove_prefix(end + next.size());
  }
  return values;
}

std::string filled(std::string_view pattern, const Values& values) {
  std::string out;
  std::size_t next = 0;
  while (!pattern.empty()) {
    const std::size_t open = std::min(pattern.find('{'), pattern.size());
    out += pattern.substr(0, open);
    pattern.remove_prefix(open);
    const std::size_t close = pattern.find('}');
    if (close == std::string_view::npos) {
      out += pattern;
      break;
    }
    const std::string_view inside = pattern.substr(1, close - 1);
    const std::optional<std::int64_t> number = base::parse_integer(inside);
    const std::size_t at = inside.empty() ? next++ : static_cast<std::size_t>(number.value_or(-1));
    out += at < values.size() ? std::string_view(values[at]) : pattern.substr(0, close + 1);
    pattern.remove_prefix(close + 1);
  }
  return out;
}

std::string localized(std::string_view text, int depth);

// A pattern of few letters, "{} to {}", would fit many a text: of itself it holds for numbers only.
bool is_particular(std::string_view pattern, const Values& values) {
  constexpr std::size_t kLeastLetters = 12;
  return pattern.size() - 2 * values.size() >= kLeastLetters ||
         std::all_of(values.begin(), values.end(), [](const std::string& value) {
           return base::parse_number(value).has_value();
         });
}

// By the first pattern that fits; else sentence by sentence.
std::string by_pattern(std::string_view text, int depth) {
  for (const Pattern& pattern : current().patterns) {
    auto values = match(pattern.english, text);
    if (values.has_value() && (depth > 0 || is_particular(pattern.english, *values))) {
      for (std::string& value : *values) {
        value = localized(value, depth + 1);
      }
      return filled(pattern.own, *values);
    }
  }
  const std::size_t stop = text.find(". ");
  return stop == std::string_view::npos ? std::string(text)
                                        : localized(text.substr(0, stop + 1), depth) + " " +
                                              localized(text.substr(stop + 2), depth);
}

std::string localized(std::string_view text, int depth) {
  Language& language = current();
  if (language.code == "en" || text.empty()) {
    return std::string(text);
  }
  if (base::parse_number(text).has_value()) {
    std::string number(text);
    if (const std::size_t point = number.find('.'); point != std::string::npos) {
      number.replace(point, 1, language.decimal);
    }
    return number;
  }
  for (const Book* book : {&language.whole, &language.found}) {
    if (const auto known = book->find(text); known != book->end()) {
      return known->second;
    }
  }
  if (depth >= kDeepest) {
    return std::string(text);
  }
  std::string own = by_pattern(text, depth);
  if (language.found.size() >= kMostFound) {
    language.found.clear();
  }
  language.found.emplace(text, own);
  return own;
}

std::string value_text(const fmt::basic_format_arg<fmt::format_context>& value) {
  return fmt::visit_format_arg(
      [](const auto& content) -> std::string {
        using T = std::decay_t<decltype(content)>;
        if constexpr (std::is_convertible_v<T, std::string_view>) {
          return localized(std::string_view(content), 0);
        } else if constexpr (std::is_same_v<T, fmt::string_view>) {
          return localized({content.data(), content.size()}, 0);
        } else if constexpr (std::is_integral_v<T> && sizeof(T) <= sizeof(long long)) {
          return std::to_string(content);
        } else {
          return {};
        }
      },
      value);
}

}  // namespace

bool set_language(std::string_view json) {
  Language& language = current();
  language = Language{};
  if (json.empty()) {
    return true;
  }
  const auto file = base::read_json(json);
  if (!file.has_value() || text_at(*file, "format") != "driftbench-texts") {
    return false;
  }
  language.code = text_at(*file, "language");
  language.decimal = text_at(*file, "decimal");
  const base::JsonValue* hashes = file->find("names");
  if (hashes != nullptr) {
    read_table(language.tables[0], file->find("ui"), hashes->find("ui"));
    read_table(language.tables[1], file->find("classroom_ui"), hashes->find("classroom_ui"));
  }
  read_phrases(language, file->find("phrases"));
  return true;
}

const std::string& language() {
  return current().code;
}

bool has_language(std::string_view code) {
  return code == language() || std::any_of(kLanguages.begin(), kLanguages.end(),
                                           [code](const auto& one) { return one.code == code; });
}

LanguageName next_language() {
  for (std::size_t i = 0; i + 1 < kLanguages.size(); ++i) {
    if (kLanguages[i].code == language()) {
      return kLanguages[i + 1];
    }
  }
  return kLanguages[0];
}

std::string_view own_text(TextTable table, std::uint32_t names_hash, std::size_t index) {
  const Table& own = current().tables[static_cast<std::size_t>(table)];
  if (own.names_hash != names_hash || index >= own.texts.size() || own.texts[index].empty()) {
    return {};
  }
  return own.texts[index];
}

std::string in_language(std::string_view english) {
  return localized(english, 0);
}

std::string in_language(const lesson::LocalText& text) {
  const auto own = text.find(language());
  return own != text.end() ? own->second : localized(lesson::text_in(text, "en"), 0);
}

std::string figure(double value, int decimals) {
  return localized(base::fixed(value, decimals), 0);
}

std::string fill_in(std::string_view pattern, fmt::format_args values) {
  Values texts;
  for (int i = 0; values.get(i); ++i) {
    texts.push_back(value_text(values.get(i)));
  }
  return filled(pattern, texts);
}

}  // namespace driftbench::ui
