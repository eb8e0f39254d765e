// Verification: honest records are equal, edited ones are named, any portion gives the same.
#include "classroom/verification.h"

#include "support/class_rig.h"

#include <gtest/gtest.h>

#include <map>

namespace driftbench::classroom {
namespace {

using Files = std::map<std::string, std::string>;

Roster collected(const Files& files) {
  Collector collector;
  for (const auto& [name, bytes] : files) {
    collector.add(bytes, name);
  }
  return collector.finish();
}

Verification::Load from(const Files& files) {
  return [&files](const std::string& file) -> base::Result<std::string> {
    const auto found = files.find(file);
    if (found == files.end()) {
      return base::fail(base::ErrorCode::kStorage, "found no such file");
    }
    return found->second;
  };
}

TEST(Verification, FindsAForgedTraceWhateverThePortion) {
  record::Attempt forged = support::short_attempt(2);
  ASSERT_FALSE(forged.trace.empty());
  forged.trace[2].command.arguments[0] += 300;
  const Files files{{"1", record::write_attempt(support::short_attempt(1))},
                    {"2", record::write_attempt(forged)}};
  Roster roster = collected(files);
  ASSERT_EQ(roster.entries.size(), 2U);
  ASSERT_EQ(roster.entries[1].standing, Standing::kUnchecked);
  Verification verification(verification_order(roster), from(files));
  EXPECT_EQ(verification.progress(), 0.0);
  int portions = 1;
  while (verification.advance(300)) {
    ++portions;
  }
  EXPECT_GT(portions, 4);
  EXPECT_EQ(verification.progress(), 1.0);
  apply_verdicts(roster, verification.verdicts());
  EXPECT_EQ(roster.entries[0].standing, Standing::kEqual);
  EXPECT_EQ(roster.entries[1].standing, Standing::kDiffers);
  EXPECT_FALSE(roster.entries[1].reasons.empty());
}

TEST(Verification, GoesOnFromKnownVerdictsAndNoticesAChangedFile) {
  Files files{{"1", record::write_attempt(support::short_attempt(1))},
              {"2", record::write_attempt(support::short_attempt(2))}};
  const Roster roster = collected(files);
  Verdicts known;
  known[roster.entries[0].file_sha256] = {true, {}};
  files.erase("1");
  files["2"] += " ";
  Verification verification(verification_order(roster), from(files), known);
  while (verification.advance(100'000)) {
  }
  EXPECT_TRUE(verification.verdicts().at(roster.entries[0].file_sha256).equal);
  const Verdict& changed = verification.verdicts().at(roster.entries[1].file_sha256);
  EXPECT_FALSE(changed.equal);
  EXPECT_EQ(changed.reasons.at(0), "the file has changed since it was collected");
}

TEST(Verification, TakesOutliersFirstThenPassesThenTheRest) {
  Roster roster;
  const auto put = [&roster](const std::string& id, double md, bool inside) {
    Entry entry;
    entry.attempt_id = id;
    entry.file = id;
    entry.standing = Standing::kUnchecked;
    entry.measures.entry_md_mm = md;
    entry.measures.entry_bl_mm = 0.0;
    entry.inside = inside;
    roster.entries.push_back(entry);
  };
  put("a", 0.1, false);
  put("b", 0.2, true);
  put("c", 0.0, true);
  put("d", 9.0, false);
  put("e", -0.1, false);
  roster.entries.push_back(roster.entries[0]);
  roster.entries.back().standing = Standing::kOtherEngine;
  std::string order;
  for (const FileToVerify& file : verification_order(roster)) {
    order += file.file;
  }
  EXPECT_EQ(order, "dbcea");
}

}  // namespace
}  // namespace driftbench::classroom
