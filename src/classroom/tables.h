// The tables of a class and what their columns mean: holes.csv, learners.csv, codebook.md.
#pragma once

#include "classroom/compile.h"

#include <span>
#include <string>
#include <string_view>

namespace driftbench::classroom {

/// A column as the codebook tells it.
struct Column {
  std::string_view name;
  std::string_view meaning;
  std::string_view unit;  ///< "mm", "" for words
  std::string_view sign;  ///< what + means; "" where there is none
};

[[nodiscard]] std::span<const Column> holes_columns();
[[nodiscard]] std::span<const Column> learners_columns();

/// Every hole that counts, by learner in random order, then period. Cells as in the contract.
[[nodiscard]] std::string holes_csv(const Class& whole);

/// One row a learner, source and approach; an empty value has its reason in `reasons`.
[[nodiscard]] std::string learners_csv(const Class& whole);

/// Every column of both tables: meaning, unit, sign.
[[nodiscard]] std::string codebook_md();

}  // namespace driftbench::classroom
