// Numbers to text by {fmt}, text to numbers by strtod on a text that was checked first.
#include "base/text.h"

#include "base/contract.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <cstdlib>

namespace driftbench::base {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::size_t skip_digits(std::string_view text, std::size_t at) {
  while (at < text.size() && is_digit(text[at])) {
    ++at;
  }
  return at;
}

// [sign] digits [. digits] [e [sign] digits], with a digit before or after the point.
bool is_decimal_number(std::string_view text) {
  std::size_t at = 0;
  if (at < text.size() && (text[at] == '-' || text[at] == '+')) {
    ++at;
  }
  const std::size_t whole_end = skip_digits(text, at);
  std::size_t digit_count = whole_end - at;
  at = whole_end;
  if (at < text.size() && text[at] == '.') {
    const std::size_t fraction_end = skip_digits(text, at + 1);
    digit_count += fraction_end - (at + 1);
    at = fraction_end;
  }
  if (digit_count == 0) {
    return false;
  }
  if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
    ++at;
    if (at < text.size() && (text[at] == '-' || text[at] == '+')) {
      ++at;
    }
    const std::size_t exponent_end = skip_digits(text, at);
    if (exponent_end == at) {
      return false;
    }
    at = exponent_end;
  }
  return at == text.size();
}

}  // namespace

std::string number(double value) {
  DRIFTBENCH_EXPECTS(std::isfinite(value));
  return fmt::format("{}", value == 0.0 ? 0.0 : value);
}

std::string fixed(double value, int decimals) {
  DRIFTBENCH_EXPECTS(std::isfinite(value));
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) {
    text.erase(0, 1);
  }
  return text;
}

std::optional<double> parse_number(std::string_view text) {
  if (!is_decimal_number(text)) {
    return std::nullopt;
  }
  // The program never sets a locale, so strtod reads with the "C" locale's point.
  const std::string terminated(text);
  const double value = std::strtod(terminated.c_str(), nullptr);
  if (!std::isfinite(value)) {
    return std::nullopt;
  }
  return value;
}

std::optional<std::int64_t> parse_integer(std::string_view text) {
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) {
    return std::nullopt;
  }
  return value;
}

std::string_view trim(std::string_view text) {
  constexpr std::string_view kSpaces = " \t\r\n";
  const std::size_t first = text.find_first_not_of(kSpaces);
  if (first == std::string_view::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(kSpaces) - first + 1);
}

std::string html_escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        // Control characters are not allowed in HTML or XML.
        out.push_back(static_cast<unsigned char>(c) < 0x20U ? ' ' : c);
    }
  }
  return out;
}

std::string join(const std::vector<std::string>& names, std::string_view separator) {
  std::string text;
  for (const std::string& name : names) {
    if (!text.empty()) {
      text += separator;
    }
    text += name;
  }
  return text;
}

}  // namespace driftbench::base
