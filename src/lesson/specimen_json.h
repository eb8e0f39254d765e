// Block, plan rules, guide, visibility and tolerance as JSON objects, shared by lessons and
// attempts.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "lesson/attempt_setup.h"

#include <optional>
#include <string_view>

namespace driftbench::lesson {

/// Each reader takes the nested object at `key` of `parent` and finishes it; each writer writes the
/// object that its reader reads.
[[nodiscard]] specimen::BlockSpec read_block(base::ObjectReader& parent, std::string_view key);
void write_block(base::JsonWriter& writer, const specimen::BlockSpec& block);

/// Depth, implant and drill sequence: the part of a plan that authors write.
void read_plan_rules(base::ObjectReader& reader, specimen::Plan& plan);
void write_plan_rules(base::JsonWriter& writer, const specimen::Plan& plan);

[[nodiscard]] std::optional<specimen::Guide> read_guide(base::ObjectReader& parent,
                                                        std::string_view key);
void write_guide(base::JsonWriter& writer, const specimen::Guide& guide);

[[nodiscard]] Visibility read_visibility(base::ObjectReader& parent, std::string_view key);
void write_visibility(base::JsonWriter& writer, const Visibility& show);

[[nodiscard]] scoring::Tolerance read_tolerance(base::ObjectReader& parent, std::string_view key);
void write_tolerance(base::JsonWriter& writer, const scoring::Tolerance& tolerance);

}  // namespace driftbench::lesson
