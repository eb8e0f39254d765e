#include "desk/checker.h"

#include "base/json_writer.h"
#include "base/sha256.h"

#include <utility>

namespace driftbench::desk {

Checker::Checker(std::string name, std::string bytes)
    : sha256_(base::sha256_hex(bytes)),
      verification_({{std::move(name), sha256_}},
                    [kept = std::move(bytes)](const std::string&) -> base::Result<std::string> {
                      return kept;
                    }) {}

bool Checker::advance(std::int64_t step_budget) {
  return verification_.advance(step_budget);
}

std::string Checker::verdict_json() const {
  const auto found = verification_.verdicts().find(sha256_);
  const bool is_there = found != verification_.verdicts().end();
  base::JsonWriter out(base::JsonLayout::kCompact);
  out.begin_object().field("equal", is_there && found->second.equal).key("reasons").begin_array();
  if (is_there) {
    for (const std::string& reason : found->second.reasons) {
      out.value(reason);
    }
  }
  out.end_array().end_object();
  return out.take();
}

}  // namespace driftbench::desk
