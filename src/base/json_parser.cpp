// Builds JSON values from nlohmann-json's event parser; places come from an iterator that counts.
#include "base/json.h"
#include "base/json_messages.h"
#include "base/utf8.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <iterator>
#include <limits>
#include <set>
#include <utility>

namespace driftbench::base {
namespace {

constexpr std::size_t kMaxShown_bytes = 40;

// Iterator over the text that tells how far the parser has read.
class CountingIterator {
 public:
  using iterator_category = std::input_iterator_tag;
  using value_type = char;
  using difference_type = std::ptrdiff_t;
  using pointer = const char*;
  using reference = const char&;

  CountingIterator(const char* at, const char** read_to) : at_(at), read_to_(read_to) {}

  reference operator*() const { return *at_; }

  CountingIterator& operator++() {
    *read_to_ = ++at_;
    return *this;
  }

  CountingIterator operator++(int) {
    const CountingIterator before = *this;
    ++*this;
    return before;
  }

  friend bool operator==(const CountingIterator& a, const CountingIterator& b) {
    return a.at_ == b.at_;
  }

 private:
  const char* at_;
  const char** read_to_;
};

bool is_space(char c) {
  return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

// Length of the number at the start of the text by the grammar of RFC 8259, section 6.
std::size_t number_length(std::string_view text) {
  std::size_t at = 0;
  const auto next_is = [&](std::string_view choices) {
    return at < text.size() && choices.find(text[at]) != std::string_view::npos;
  };
  const auto skip_digits = [&] {
    while (next_is("0123456789")) {
      ++at;
    }
  };
  if (next_is("-")) {
    ++at;
  }
  if (next_is("0")) {
    ++at;  // nothing follows a leading zero
  } else {
    skip_digits();
  }
  if (next_is(".")) {
    ++at;
    skip_digits();
  }
  if (next_is("eE")) {
    ++at;
    if (next_is("+-")) {
      ++at;
    }
    skip_digits();
  }
  return at;
}

// Lines and characters up to growing offsets, counted once over the text.
class PlaceCounter {
 public:
  explicit PlaceCounter(std::string_view text) : text_(text) {}

  TextPosition place_of(std::size_t offset) {
    for (; counted_to_ < offset; ++counted_to_) {
      const auto byte = static_cast<unsigned char>(text_[counted_to_]);
      if (byte == '\n') {
        ++place_.line;
        place_.column = 1;
      } else if (byte < 0x80 || byte > 0xbf) {  // a UTF-8 character counts at its first byte
        ++place_.column;
      }
    }
    return place_;
  }

 private:
  std::string_view text_;
  std::size_t counted_to_ = 0;
  TextPosition place_;
};

Problem problem_at(TextPosition place, std::string found, std::string expected) {
  return {place.line,       place.column,        {},
          std::move(found), std::move(expected), Problem::Severity::kError};
}

}  // namespace

// Receives the parser's events and builds the tree.
class JsonBuilder {
 public:
  JsonBuilder(std::string_view text, const JsonLimits& limits)
      : text_(text), limits_(limits), places_(text), read_to_(text.data()) {}

  // Events of the parser; false stops it.
  bool null() { return scalar(std::monostate()); }

  bool boolean(bool flag) { return scalar(flag); }

  bool number_integer(std::int64_t number) { return scalar(number); }

  bool number_unsigned(std::uint64_t number) {
    constexpr auto kLargest = static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max());
    if (number <= kLargest) {
      return scalar(static_cast<std::int64_t>(number));
    }
    return scalar(static_cast<double>(number));
  }

  bool number_float(double number, const std::string& /*digits*/) { return scalar(number); }

  bool string(std::string& text) { return scalar(std::move(text)); }

  bool binary(std::vector<std::uint8_t>& /*bytes*/) { return false; }  // never sent for text

  bool start_object(std::size_t /*count*/) { return open(JsonValue::Members()); }

  bool end_object() { return close(); }

  bool start_array(std::size_t /*count*/) { return open(JsonValue::Items()); }

  bool end_array() { return close(); }

  bool key(std::string& name) {
    key_place_ = places_.place_of(token_start(last_event_ == Event::kValue));
    handled_to_ = read_count();
    last_event_ = Event::kKey;
    if (!names_.back().insert(name).second) {
      problem_ = problem_at(
          key_place_,
          fmt::format("the field \"{}\" a second time", utf8_prefix(name, kMaxShown_bytes)),
          "every field once");
      return false;
    }
    key_ = std::move(name);
    return true;
  }

  bool parse_error(std::size_t /*position*/, const std::string& /*last_token*/,
                   const nlohmann::json::exception& error) {
    const std::string_view message = error.what();
    const JsonExpectation expectation = expectation_from(message);
    // Between the last event and the wrong token stands a separator, unless it is what is missing.
    const bool is_after_separator =
        (last_event_ == Event::kKey && expectation == JsonExpectation::kValue) ||
        (last_event_ == Event::kValue &&
         (expectation == JsonExpectation::kValue || expectation == JsonExpectation::kFieldName));
    const std::size_t start = token_start(is_after_separator);
    JsonMistake mistake = describe_mistake(text_.substr(start), expectation, message);
    problem_ =
        problem_at(places_.place_of(start), std::move(mistake.found), std::move(mistake.expected));
    return false;
  }

  const char** read_to() { return &read_to_; }

  [[nodiscard]] const Problem& problem() const { return problem_; }

  JsonValue take() { return std::move(root_); }

 private:
  enum class Event { kNone, kOpen, kKey, kValue };

  [[nodiscard]] std::size_t read_count() const {
    return static_cast<std::size_t>(read_to_ - text_.data());
  }

  // First character of the token that follows the last event, behind one separator where asked.
  [[nodiscard]] std::size_t token_start(bool is_after_separator) const {
    std::size_t start = handled_to_;
    while (start < text_.size() && is_space(text_[start])) {
      ++start;
    }
    if (is_after_separator && start < text_.size()) {
      ++start;
      while (start < text_.size() && is_space(text_[start])) {
        ++start;
      }
    }
    return start;
  }

  [[nodiscard]] JsonExpectation expectation_from(std::string_view message) const {
    const auto is_reading = [message](std::string_view construct) {
      return message.find(construct) != std::string_view::npos;
    };
    message = message.substr(0, message.find(" - "));
    if (is_reading("while parsing object key")) {
      return JsonExpectation::kFieldName;
    }
    if (is_reading("while parsing object separator")) {
      return JsonExpectation::kColon;
    }
    if (is_reading("while parsing object")) {
      return JsonExpectation::kObjectContinuation;
    }
    if (is_reading("while parsing array")) {
      return JsonExpectation::kArrayContinuation;
    }
    const bool is_complete = open_.empty() && last_event_ == Event::kValue;
    return is_complete ? JsonExpectation::kEnd : JsonExpectation::kValue;
  }

  // Puts a value where it belongs and gives its address, which lasts while it is open.
  JsonValue* place(JsonValue::Content content) {
    const std::size_t start =
        token_start(last_event_ == Event::kKey || last_event_ == Event::kValue);
    const TextPosition start_place = places_.place_of(start);
    handled_to_ = read_count();
    // The parser reads one character beyond a number before it reports it.
    if (std::holds_alternative<std::int64_t>(content) || std::holds_alternative<double>(content)) {
      handled_to_ = start + number_length(text_.substr(start));
    }
    if (open_.empty()) {
      root_ = JsonValue(std::move(content), start_place);
      return &root_;
    }
    JsonValue::Content& parent = open_.back()->content_;
    if (auto* members = std::get_if<JsonValue::Members>(&parent)) {
      members->emplace_back(std::move(key_),
                            JsonValue(std::move(content), start_place, key_place_));
      return &members->back().second;
    }
    auto& items = std::get<JsonValue::Items>(parent);
    items.emplace_back(std::move(content), start_place);
    return &items.back();
  }

  bool scalar(JsonValue::Content content) {
    place(std::move(content));
    last_event_ = Event::kValue;
    return true;
  }

  bool open(JsonValue::Content content) {
    JsonValue* value = place(std::move(content));
    last_event_ = Event::kOpen;
    if (open_.size() >= static_cast<std::size_t>(limits_.max_depth)) {
      problem_ =
          problem_at({value->line(), value->column()},
                     fmt::format("more than {} containers inside one another", limits_.max_depth),
                     fmt::format("at most {}", limits_.max_depth));
      return false;
    }
    open_.push_back(value);
    names_.emplace_back();
    return true;
  }

  bool close() {
    handled_to_ = read_count();
    last_event_ = Event::kValue;
    open_.pop_back();
    names_.pop_back();
    return true;
  }

  std::string_view text_;
  JsonLimits limits_;
  PlaceCounter places_;
  const char* read_to_;         // moved by the iterators
  std::size_t handled_to_ = 0;  // end of the token of the last event
  Event last_event_ = Event::kNone;
  JsonValue root_;
  std::vector<JsonValue*> open_;              // containers not closed yet, outermost first
  std::vector<std::set<std::string>> names_;  // names seen in each of them
  std::string key_;
  TextPosition key_place_;
  Problem problem_;
};

tl::expected<JsonValue, Problem> read_json(std::string_view text, const JsonLimits& limits) {
  text = without_byte_order_mark(text);
  if (text.size() > limits.max_bytes) {
    return tl::unexpected<Problem>(problem_at({}, fmt::format("{} bytes", text.size()),
                                              fmt::format("at most {}", limits.max_bytes)));
  }
  // The parser would take a zero byte for the end of the text.
  const std::size_t zero = text.find('\0');
  if (zero != std::string_view::npos) {
    return tl::unexpected<Problem>(
        problem_at(PlaceCounter(text).place_of(zero), "the byte 0x00", "UTF-8 text"));
  }
  if (text.empty()) {
    text = std::string_view("", 0);  // an address to count from
  }
  JsonBuilder builder(text, limits);
  const CountingIterator first(text.data(), builder.read_to());
  const CountingIterator last(text.data() + text.size(), builder.read_to());
  if (!nlohmann::json::sax_parse(first, last, &builder)) {
    return tl::unexpected<Problem>(builder.problem());
  }
  return builder.take();
}

Result<JsonValue> parse_json(std::string_view text, std::string_view file_name,
                             const JsonLimits& limits) {
  tl::expected<JsonValue, Problem> value = read_json(text, limits);
  if (!value) {
    const Problem& problem = value.error();
    return fail(ErrorCode::kParse, problem.sentence(file_name),
                fmt::format("{}:{}:{}", file_name, problem.line, problem.column));
  }
  return std::move(*value);
}

}  // namespace driftbench::base
