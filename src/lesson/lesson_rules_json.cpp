#include "lesson/lesson_rules_json.h"

#include "lesson/fields.h"
#include "lesson/local_text.h"
#include "lesson/read_document.h"
#include "lesson/rule_words.h"
#include "lesson/sequence_order.h"
#include "stats/cusum.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace driftbench::lesson {
namespace {

constexpr std::int64_t kMaxRuns = 10;
constexpr base::IntRange kAttempts{1, 1000};
constexpr std::size_t kMaxWordBytes = 64;

constexpr std::array<NumberField<FeedbackPlan>, 2> kFeedbackFields{
    {{"band_share", &FeedbackPlan::band_share, {0.05, 1.0}, "of the tolerance"},
     {"delay_s", &FeedbackPlan::delay_s, {0.0, 60.0}, "s"}}};

constexpr std::array<NumberField<Criterion>, 3> kEvidenceFields{
    {{"p_bad", &Criterion::p_bad, {0.02, 0.98}, ""},
     {"p_ok", &Criterion::p_ok, {0.01, 0.97}, ""},
     {"limit", &Criterion::limit, {0.1, 20.0}, ""}}};

int optional_count(base::ObjectReader& reader, std::string_view key, base::IntRange range,
                   int fallback) {
  return static_cast<int>(reader.optional_int(key, range, {}, fallback));
}

/// An array of words of a table, each once; `fallback` when it is not there.
template <class Table, class E>
std::vector<E> read_words(base::ObjectReader& reader, std::string_view key, const Table& table,
                          std::vector<E> fallback, std::int64_t least) {
  if (reader.find(key) == nullptr) {
    return fallback;
  }
  std::vector<E> values;
  const auto most = static_cast<std::int64_t>(table.size());
  for (const std::string& word : reader.optional_strings(key, {least, most}, kMaxWordBytes)) {
    const auto* const row = std::find_if(table.begin(), table.end(),
                                         [&](const auto& entry) { return entry.name == word; });
    if (row == table.end()) {
      std::string words;
      for (const auto& entry : table) {
        words += (words.empty() ? "" : ", ") + std::string(entry.name);
      }
      reader.add_error(key, "the text " + base::json_quoted(word), "words of " + words);
    } else if (std::find(values.begin(), values.end(), row->value) != values.end()) {
      reader.add_error(key, "the word " + base::json_quoted(word) + " twice", "each word once");
    } else {
      values.push_back(row->value);
    }
  }
  return values;
}

template <class Table, class E>
void write_words(base::JsonWriter& writer, std::string_view key, const Table& table,
                 const std::vector<E>& values) {
  writer.key(key).begin_array(base::JsonLayout::kCompact);
  for (const E value : values) {
    writer.value(base::name_of(table, value));
  }
  writer.end_array();
}

void write_texts(base::JsonWriter& writer, std::string_view key,
                 const std::vector<std::string>& texts) {
  writer.key(key).begin_array(base::JsonLayout::kCompact);
  for (const std::string& text : texts) {
    writer.value(text);
  }
  writer.end_array();
}

/// Ids of blocks of the lesson, each once.
std::vector<std::string> read_block_ids(base::ObjectReader& reader, std::string_view key,
                                        const std::vector<LessonBlock>& blocks) {
  std::vector<std::string> ids = reader.optional_strings(key, {1, kMaxBlocks}, kMaxWordBytes);
  std::set<std::string> seen;
  for (const std::string& id : ids) {
    const bool is_known = std::any_of(blocks.begin(), blocks.end(),
                                      [&](const LessonBlock& block) { return block.id == id; });
    if (!is_known) {
      reader.add_error(key, "the id " + base::json_quoted(id), "ids of blocks of this lesson");
    } else if (!seen.insert(id).second) {
      reader.add_error(key, "the id " + base::json_quoted(id) + " twice", "each block once");
    }
  }
  return ids;
}

/// Blocks that are mixed stand side by side; two arms have equally many attempts.
void check_mix(base::ObjectReader& reader, const OrderPlan& order,
               const std::vector<LessonBlock>& blocks) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    if (is_mixed(order, blocks[i])) {
      places.push_back(i);
    }
  }
  if (places.empty()) {
    return;  // nothing is mixed, or ids that are wrong have been named
  }
  if (places.back() - places.front() + 1 != places.size()) {
    reader.add_error("mix", "blocks that stand apart", "blocks that stand side by side");
  }
  if (order.kind == OrderKind::kPermutedBlocks &&
      (places.size() != 2 || blocks[places[0]].attempts != blocks[places[1]].attempts)) {
    reader.add_error("kind", fmt::format("permuted blocks of {} blocks", places.size()),
                     "two blocks with equally many attempts");
  }
}

void read_order(base::ObjectReader& parent, Lesson& lesson) {
  std::optional<base::ObjectReader> reader = parent.optional_object("order");
  if (!reader.has_value()) {
    return;
  }
  OrderPlan& order = lesson.order;
  order.kind = reader->required_enum("kind", kOrderWords);
  order.mix = read_block_ids(*reader, "mix", lesson.blocks);
  const std::vector<double> sizes =
      reader->optional_doubles("run_sizes", {1, kMaxRuns}, {2.0, 100.0}, "attempts");
  if (!sizes.empty()) {
    order.run_sizes.clear();
  }
  for (const double size : sizes) {
    order.run_sizes.push_back(static_cast<int>(size));
    if (order.run_sizes.back() % 2 != 0 || order.run_sizes.back() != size) {
      reader->add_error("run_sizes", fmt::format("{}", size), "even whole numbers, 2 to 100");
    }
  }
  check_mix(*reader, order, lesson.blocks);
  reader->finish();
}

/// Numbers of a rule that make no sense together, and rules that nobody could meet.
void check_criterion(base::ObjectReader& reader, const Criterion& criterion) {
  if (criterion.rule == PassRule::kOfLast &&
      (criterion.good > criterion.last || criterion.last > criterion.cap)) {
    reader.add_error("rule",
                     fmt::format("{} of the last {}, at most {} attempts", criterion.good,
                                 criterion.last, criterion.cap),
                     "good <= last <= cap");
  }
  if (criterion.rule == PassRule::kLearningEvidence) {
    const auto scores = stats::learning_scores({criterion.p_bad, criterion.p_ok, criterion.limit});
    if (!scores) {
      reader.add_error("p_ok", fmt::format("{} beside p_bad {}", criterion.p_ok, criterion.p_bad),
                       "p_ok < p_bad");
    } else if (scores->pass * criterion.cap < criterion.limit) {
      reader.add_error(
          "limit",
          fmt::format("{}, which {} good attempts do not reach", criterion.limit, criterion.cap),
          "an evidence that can be reached");
    }
  }
}

void read_criterion(base::ObjectReader& parent, Lesson& lesson) {
  std::optional<base::ObjectReader> reader = parent.optional_object("criterion");
  if (!reader.has_value()) {
    return;
  }
  Criterion& criterion = lesson.criterion;
  criterion.rule = reader->required_enum("rule", kPassRuleWords);
  criterion.blocks = read_block_ids(*reader, "blocks", lesson.blocks);
  criterion.measures = read_words(*reader, "measures", kMeasureWords, criterion.measures, 1);
  criterion.never = read_words(*reader, "never", kCriticalEventWords, criterion.never, 0);
  criterion.good = optional_count(*reader, "good", kAttempts, criterion.good);
  criterion.last = optional_count(*reader, "last", kAttempts, criterion.last);
  read_fields<Criterion>(*reader, kEvidenceFields, Missing::kKeepsDefault, criterion);
  criterion.cap = optional_count(*reader, "cap", kAttempts, criterion.cap);
  base::ObjectReader standard = reader->required_object("standard");
  criterion.standard.method = standard.required_enum("method", kStandardWords);
  criterion.standard.source = read_local_text(standard, "source");
  standard.finish();
  check_criterion(*reader, criterion);
  reader->finish();
}

void read_device(base::ObjectReader& parent, DevicePolicy& device) {
  std::optional<base::ObjectReader> reader = parent.optional_object("device");
  if (!reader.has_value()) {
    return;
  }
  device.allow = read_words(*reader, "allow", kDeviceWords, device.allow, 1);
  device.check = reader->optional_enum("check", kDeviceCheckWords).value_or(device.check);
  device.one_per_lesson = reader->optional_bool("one_per_lesson", device.one_per_lesson);
  reader->finish();
}

void write_criterion(base::JsonWriter& writer, const Criterion& criterion) {
  writer.key("criterion").begin_object();
  writer.field("rule", base::name_of(kPassRuleWords, criterion.rule));
  if (!criterion.blocks.empty()) {
    write_texts(writer, "blocks", criterion.blocks);
  }
  write_words(writer, "measures", kMeasureWords, criterion.measures);
  write_words(writer, "never", kCriticalEventWords, criterion.never);
  writer.field("good", criterion.good).field("last", criterion.last);
  write_fields<Criterion>(writer, kEvidenceFields, criterion);
  writer.field("cap", criterion.cap).key("standard").begin_object();
  writer.field("method", base::name_of(kStandardWords, criterion.standard.method)).key("source");
  write_local_text(writer, criterion.standard.source);
  writer.end_object().end_object();
}

}  // namespace

void read_lesson_rules(base::ObjectReader& reader, Lesson& lesson) {
  read_order(reader, lesson);
  read_criterion(reader, lesson);
  read_device(reader, lesson.device);
}

void write_lesson_rules(base::JsonWriter& writer, const Lesson& lesson) {
  if (lesson.order != OrderPlan{}) {
    writer.key("order").begin_object(base::JsonLayout::kCompact);
    writer.field("kind", base::name_of(kOrderWords, lesson.order.kind));
    if (!lesson.order.mix.empty()) {
      write_texts(writer, "mix", lesson.order.mix);
    }
    writer.key("run_sizes").begin_array(base::JsonLayout::kCompact);
    for (const int size : lesson.order.run_sizes) {
      writer.value(size);
    }
    writer.end_array().end_object();
  }
  if (lesson.criterion != Criterion{}) {
    write_criterion(writer, lesson.criterion);
  }
  if (lesson.device != DevicePolicy{}) {
    writer.key("device").begin_object(base::JsonLayout::kCompact);
    if (!lesson.device.allow.empty()) {
      write_words(writer, "allow", kDeviceWords, lesson.device.allow);
    }
    writer.field("check", base::name_of(kDeviceCheckWords, lesson.device.check));
    writer.field("one_per_lesson", lesson.device.one_per_lesson).end_object();
  }
}

void read_block_rules(base::ObjectReader& reader, LessonBlock& block) {
  constexpr base::IntRange kEvery{2, 100};
  block.estimate.kind = reader.required_enum("estimate", kEstimateWords);
  block.estimate.every = optional_count(reader, "estimate_every", kEvery, block.estimate.every);
  std::optional<base::ObjectReader> feedback = reader.optional_object("feedback");
  if (feedback.has_value()) {
    FeedbackPlan& plan = block.feedback;
    plan.kind = feedback->required_enum("when", kFeedbackWords);
    plan.full_first = optional_count(*feedback, "full_first", kAttempts, plan.full_first);
    plan.between = feedback->optional_enum("between", kBetweenWords).value_or(plan.between);
    read_fields<FeedbackPlan>(*feedback, kFeedbackFields, Missing::kKeepsDefault, plan);
    feedback->finish();
  }
}

void write_block_rules(base::JsonWriter& writer, const LessonBlock& block) {
  writer.field("estimate", base::name_of(kEstimateWords, block.estimate.kind));
  if (block.estimate.every != EstimatePlan{}.every ||
      block.estimate.kind == EstimateKind::kEveryNth) {
    writer.field("estimate_every", block.estimate.every);
  }
  if (block.feedback != FeedbackPlan{}) {
    writer.key("feedback").begin_object(base::JsonLayout::kCompact);
    writer.field("when", base::name_of(kFeedbackWords, block.feedback.kind));
    writer.field("full_first", block.feedback.full_first);
    writer.field("between", base::name_of(kBetweenWords, block.feedback.between));
    write_fields<FeedbackPlan>(writer, kFeedbackFields, block.feedback);
    writer.end_object();
  }
}

}  // namespace driftbench::lesson
