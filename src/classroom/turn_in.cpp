#include "classroom/turn_in.h"

#include "base/sha256.h"
#include "base/text.h"
#include "base/utf8.h"
#include "classroom/byte_packing.h"
#include "classroom/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace driftbench::classroom {
namespace {

constexpr std::string_view kMark = "DRIFTBENCH-1.";
constexpr std::string_view kAnyMark = "DRIFTBENCH-";
constexpr std::size_t kSumDigits = 12;
constexpr std::size_t kMostText = 200;
constexpr std::size_t kMostEvents = 20;
constexpr std::uint64_t kMostPeriod = 1'000'000;
constexpr std::uint64_t kMostEngine = 1'000'000;
constexpr double kMostNumber = 1e6;
constexpr std::string_view kDigits =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

constexpr std::array<std::string Entry::*, 12> kTexts{
    {&Entry::attempt_id, &Entry::learner, &Entry::cohort, &Entry::implant_through_guide,
     &Entry::measured, &Entry::site, &Entry::specimen, &Entry::boundary_deg, &Entry::lesson_id,
     &Entry::lesson_sha256, &Entry::block_id, &Entry::device}};

constexpr std::array<double scoring::SelfEstimate::*, 5> kEstimates{
    {&scoring::SelfEstimate::entry_md_mm, &scoring::SelfEstimate::entry_bl_mm,
     &scoring::SelfEstimate::depth_error_mm, &scoring::SelfEstimate::tilt_md_deg,
     &scoring::SelfEstimate::tilt_bl_deg}};

std::string base64(std::string_view bytes) {
  std::string text;
  std::uint32_t held = 0;
  unsigned bits = 0;
  for (const char c : bytes) {
    held = held << 8U | static_cast<unsigned char>(c);
    bits += 8;
    while (bits >= 6) {
      bits -= 6;
      text.push_back(kDigits[held >> bits & 63U]);
    }
  }
  if (bits > 0) {
    text.push_back(kDigits[held << (6U - bits) & 63U]);
  }
  return text;
}

std::string from_base64(std::string_view text) {
  std::string bytes;
  std::uint32_t held = 0;
  unsigned bits = 0;
  for (const char c : text) {
    held = held << 6U | static_cast<std::uint32_t>(kDigits.find(c));
    bits += 6;
    if (bits >= 8) {
      bits -= 8;
      bytes.push_back(static_cast<char>(held >> bits & 0xFFU));
    }
  }
  return bytes;
}

/// Texts that are as in the attempt before cost one bit.
void pack(ByteWriter& out, const Entry& entry, const Entry& before) {
  std::uint64_t changed = 0;
  for (std::size_t i = 0; i < kTexts.size(); ++i) {
    changed |= entry.*kTexts[i] != before.*kTexts[i] ? std::uint64_t{1} << i : 0;
  }
  out.whole(changed);
  for (std::size_t i = 0; i < kTexts.size(); ++i) {
    if ((changed >> i & 1U) != 0) {
      out.text(base::utf8_prefix(entry.*kTexts[i], kMostText));
    }
  }
  out.whole(static_cast<std::uint64_t>(entry.approach));
  out.whole(static_cast<std::uint64_t>(entry.period.value_or(0)));
  out.whole(static_cast<std::uint64_t>(entry.engine.value_or(0)));
  out.whole(!entry.inside.has_value() ? 0U : *entry.inside ? 2U : 1U);
  std::uint64_t there = 0;
  for (std::size_t i = 0; i < kMeasureColumns.size(); ++i) {
    there |= (entry.measures.*kMeasureColumns[i].second).has_value() ? std::uint64_t{1} << i : 0;
  }
  out.whole(there);
  for (const auto& [name, member] : kMeasureColumns) {
    if ((entry.measures.*member).has_value()) {
      out.number(*(entry.measures.*member));
    }
  }
  constexpr double kMs = 1000.0;
  out.whole(static_cast<std::uint64_t>(std::llround(kMs * entry.engaged_s)));
  out.whole(entry.estimate.has_value() ? 1U + static_cast<unsigned>(entry.estimate->confidence)
                                       : 0U);
  if (entry.estimate.has_value()) {
    for (const auto member : kEstimates) {
      out.number((*entry.estimate).*member);
    }
  }
  const std::size_t events = std::min(entry.events.size(), kMostEvents);
  out.whole(events);
  for (std::size_t i = 0; i < events; ++i) {
    out.text(base::utf8_prefix(entry.events[i], kMostText));
  }
}

/// Nothing when a number is none that can be: the reader has failed, or the entry makes no sense.
bool unpack(ByteReader& in, Entry& entry) {
  const std::uint64_t changed = in.whole((std::uint64_t{1} << kTexts.size()) - 1);
  bool is_good = true;
  for (std::size_t i = 0; i < kTexts.size(); ++i) {
    if ((changed >> i & 1U) != 0) {
      entry.*kTexts[i] = in.text(kMostText);
      is_good = is_good && base::is_utf8(entry.*kTexts[i]);
    }
  }
  entry.approach = static_cast<stats::Approach>(in.whole(stats::kApproachNames.size() - 1));
  const std::uint64_t period = in.whole(kMostPeriod);
  entry.period = period == 0 ? std::nullopt : std::optional(static_cast<int>(period));
  const std::uint64_t engine = in.whole(kMostEngine);
  entry.engine = engine == 0 ? std::nullopt : std::optional(static_cast<int>(engine));
  const std::uint64_t inside = in.whole(2);
  entry.inside = inside == 0 ? std::nullopt : std::optional(inside == 2);
  const std::uint64_t there = in.whole((std::uint64_t{1} << kMeasureColumns.size()) - 1);
  entry.measures = {};
  const auto number = [&in, &is_good] {
    const double value = in.number();
    is_good = is_good && std::abs(value) <= kMostNumber;
    return value;
  };
  for (std::size_t i = 0; i < kMeasureColumns.size(); ++i) {
    if ((there >> i & 1U) != 0) {
      entry.measures.*kMeasureColumns[i].second = number();
    }
  }
  constexpr std::uint64_t kMost_ms = 86'400'000;
  entry.engaged_s = static_cast<double>(in.whole(kMost_ms)) / 1000.0;
  const std::uint64_t confidence = in.whole(3);
  entry.estimate.reset();
  if (confidence > 0) {
    entry.estimate = scoring::SelfEstimate{};
    entry.estimate->confidence = static_cast<int>(confidence) - 1;
    for (const auto member : kEstimates) {
      (*entry.estimate).*member = number();
    }
  }
  entry.events.assign(static_cast<std::size_t>(in.whole(kMostEvents)), {});
  for (std::string& event : entry.events) {
    event = in.text(kMostText);
    is_good = is_good && base::is_utf8(event);
  }
  return is_good && !in.failed() && !entry.learner.empty();
}

std::string check_sum(std::string_view payload) {
  return base::sha256_hex(payload).substr(0, kSumDigits);
}

/// The code's letters after the mark, without what a mail put between them.
std::string letters_after(std::string_view text) {
  std::string letters;
  for (const char c : text) {
    if (kDigits.find(c) != std::string_view::npos || c == '.') {
      letters.push_back(c);
    } else if (std::string_view(" \t\r\n>|").find(c) == std::string_view::npos) {
      break;
    }
  }
  return letters;
}

tl::unexpected<base::Error> refused(const std::string& name, std::string_view found,
                                    std::string_view expected,
                                    base::ErrorCode code = base::ErrorCode::kParse) {
  return base::fail(code, fmt::format("{}: found {}, expected {}", name, found, expected));
}

}  // namespace

base::Result<std::string> write_turn_in(std::span<const Entry> entries) {
  if (entries.empty() || entries.size() > kMaxTurnInAttempts) {
    return base::fail(
        base::ErrorCode::kInvalidArgument,
        fmt::format("found {} attempts, expected 1 to {}", entries.size(), kMaxTurnInAttempts));
  }
  ByteWriter out;
  out.whole(entries.size());
  Entry before;
  for (const Entry& entry : entries) {
    pack(out, entry, before);
    before = entry;
  }
  return fmt::format("Driftbench turn-in of {}: {}, numbers only, no movement.\n{}{}.{}\n",
                     entries.front().learner, counted(entries.size(), "attempt"), kMark,
                     base64(out.bytes()), check_sum(out.bytes()));
}

base::Result<std::vector<Entry>> read_turn_in(std::string_view text, const std::string& name) {
  if (text.size() > kMaxTurnInBytes) {
    return refused(name, fmt::format("{} bytes", text.size()),
                   fmt::format("at most {}", kMaxTurnInBytes), base::ErrorCode::kOutOfRange);
  }
  const std::size_t at = text.find(kMark);
  if (at == std::string_view::npos) {
    return text.find(kAnyMark) != std::string_view::npos
               ? refused(name, "a turn-in code of another version", "version 1",
                         base::ErrorCode::kUnsupported)
               : refused(name, "no turn-in code", fmt::format("a text with {}", kMark));
  }
  const std::string letters = letters_after(text.substr(at + kMark.size()));
  const std::size_t point = letters.find('.');
  if (point == std::string::npos || letters.size() < point + 1 + kSumDigits) {
    return refused(name, "a turn-in code that ends too early", "a whole one");
  }
  const std::string payload = from_base64(std::string_view(letters).substr(0, point));
  if (letters.substr(point + 1, kSumDigits) != check_sum(payload)) {
    return refused(name, "a turn-in code whose check sum does not fit", "a whole one, unchanged");
  }
  ByteReader in(payload);
  const auto count = static_cast<std::size_t>(in.whole(kMaxTurnInAttempts));
  std::vector<Entry> entries;
  Entry entry;
  for (std::size_t i = 0; i < count; ++i) {
    if (!unpack(in, entry)) {
      return refused(name, fmt::format("a turn-in code with nonsense at attempt {}", i + 1),
                     "numbers of attempts");
    }
    entry.file = name;
    entry.line = static_cast<int>(i) + 1;
    entry.source = Source::kSimulated;
    entry.standing = Standing::kTableRow;
    entries.push_back(entry);
  }
  if (!in.ok() || entries.empty()) {
    return refused(name, "a turn-in code of another length", "the attempts that it promises");
  }
  return entries;
}

}  // namespace driftbench::classroom
