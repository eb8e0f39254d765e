#include "base/json_writer.h"
#include "base/text.h"
#include "session/guide_budget.h"
#include "tools/commands.h"
#include "tools/files.h"
#include "tools/output.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace driftbench::tools {
namespace {

constexpr std::string_view kHelp =
    R"(driftbench budget: how far the guide of a lesson lets a hole go, and what lets it.

usage: driftbench budget LESSON [--block ID] [--operator FILE] [--gap-left MM] [--assets DIR] [--json]

  --block     block of the lesson (default: its first one with a guide)
  --operator  whose hand pulls in the sleeve (default: assets/operators/novice.json)
  --gap-left  largest gap that was left under one side of the guide, mm (default 0.2)
  --assets    folder with kits/, specimens/ and operators/

Sources: play of drill, key and sleeve; a seat that is not closed; making (scan, print, fit); the guide giving way on
its support. Lateral errors at the platform and at the floor of the hole in mm, angle in degrees: mean of 4,000 draws,
what 95 of 100 stay below, and the limit with every source at its worst in one direction (spreads: three standard
deviations).

example: driftbench budget lessons/find-the-centre.lesson.json --gap-left 0.5
)";

constexpr double kUsualGap_mm = 0.2;
constexpr std::array<std::string_view, session::kBudgetSources> kSourceWords{"play", "seat",
                                                                             "making", "support"};

base::Result<std::size_t> block_of(const lesson::Lesson& lesson,
                                   const std::optional<std::string>& id) {
  const auto found = std::find_if(
      lesson.blocks.begin(), lesson.blocks.end(), [&](const lesson::LessonBlock& block) {
        return block.guide.has_value() && (!id.has_value() || block.id == *id);
      });
  if (found == lesson.blocks.end()) {
    return base::fail(base::ErrorCode::kInvalidArgument,
                      id.has_value() ? fmt::format("found no block \"{}\" with a guide", *id)
                                     : "found no block with a guide in this lesson");
  }
  return static_cast<std::size_t>(found - lesson.blocks.begin());
}

base::Result<lesson::AttemptSetup> load_setup(const Arguments& arguments, const std::string& file) {
  const std::optional<std::string> assets = arguments.text("--assets");
  const base::Result<lesson::Lesson> lesson = load_lesson(file);
  if (!lesson) {
    return tl::unexpected<base::Error>(lesson.error());
  }
  const base::Result<std::size_t> block = block_of(*lesson, arguments.text("--block"));
  if (!block) {
    return tl::unexpected<base::Error>(block.error());
  }
  const base::Result<specimen::Kit> kit = load_kit(lesson->kit_id, file, assets);
  if (!kit) {
    return tl::unexpected<base::Error>(kit.error());
  }
  const auto jaw = load_jaw(lesson->blocks[*block], file, assets);
  if (!jaw) {
    return tl::unexpected<base::Error>(jaw.error());
  }
  return lesson::resolve(*lesson, *kit, *block, 0, lesson->seed,
                         jaw->has_value() ? &**jaw : nullptr);
}

void write_error(base::JsonWriter& writer, std::string_view name, const session::HoleError& error) {
  writer.key(name).begin_object(base::JsonLayout::kCompact);
  writer.field("entry_mm", error.entry_mm).field("apex_mm", error.apex_mm);
  writer.field("angle_deg", error.angle_deg).end_object();
}

std::string json_of(const session::GuideBudget& budget) {
  base::JsonWriter writer;
  writer.begin_object().key("sources").begin_array();
  for (const session::BudgetLine& line : budget.lines) {
    writer.begin_object();
    writer.field("source", kSourceWords[static_cast<std::size_t>(line.source)]);
    write_error(writer, "mean", line.mean);
    write_error(writer, "limit", line.limit);
    writer.field("apex_share", line.apex_share).end_object();
  }
  writer.end_array();
  write_error(writer, "mean", budget.mean);
  write_error(writer, "within_95", budget.within_95);
  write_error(writer, "limit", budget.limit);
  writer.end_object();
  return writer.take();
}

std::vector<std::string> row_of(std::string_view name, const session::HoleError& error,
                                const std::string& share) {
  return {std::string(name), base::fixed(error.entry_mm, 2), base::fixed(error.apex_mm, 2),
          base::fixed(error.angle_deg, 2), share};
}

std::string table_of(const session::GuideBudget& budget) {
  std::vector<std::vector<std::string>> rows{
      {"mean", "platform mm", "floor mm", "angle deg", "share %"}};
  for (const session::BudgetLine& line : budget.lines) {
    rows.push_back(row_of(kSourceWords[static_cast<std::size_t>(line.source)], line.mean,
                          base::fixed(100.0 * line.apex_share, 0)));
  }
  rows.push_back(row_of("together", budget.mean, ""));
  rows.push_back(row_of("95 of 100 below", budget.within_95, ""));
  rows.push_back(row_of("limit", budget.limit, ""));
  return table(rows);
}

int run(const Arguments& arguments) {
  if (arguments.plain().size() != 1) {
    return refuse("budget",
                  {base::ErrorCode::kInvalidArgument,
                   fmt::format("found {} lesson files, expected one", arguments.plain().size()),
                   {}});
  }
  const std::string& file = arguments.plain()[0];
  const base::Result<double> gap_mm = arguments.number("--gap-left", kUsualGap_mm);
  if (!gap_mm) {
    return refuse("budget", gap_mm.error());
  }
  if (!(*gap_mm >= 0.0)) {
    return refuse("budget", {base::ErrorCode::kOutOfRange,
                             fmt::format("--gap-left: found {} mm, expected 0 or more", *gap_mm),
                             {}});
  }
  const base::Result<lesson::AttemptSetup> setup = load_setup(arguments, file);
  if (!setup) {
    return refuse("budget", setup.error());
  }
  const base::Result<LoadedOperator> loaded =
      load_operator(arguments.text("--operator"), file, arguments.text("--assets"));
  if (!loaded) {
    return refuse("budget", loaded.error());
  }
  const session::GuideBudget budget = session::guide_budget(*setup, loaded->profile, *gap_mm);
  print(arguments.has("--json") ? json_of(budget) : table_of(budget));
  return kGood;
}

}  // namespace

Command budget_command() {
  return {"budget",
          "how far a guide lets a hole go, and what lets it",
          kHelp,
          {{"--block"}, {"--operator"}, {"--gap-left"}, {"--assets"}},
          run};
}

}  // namespace driftbench::tools
