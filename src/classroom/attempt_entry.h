// An attempt file as an entry of a class.
#pragma once

#include "base/result.h"
#include "classroom/entry.h"
#include "record/attempt.h"

#include <string>

namespace driftbench::classroom {

/// The attempt as its row in holes.csv tells it, and what only the file knows. Digests are checked,
/// nothing is repeated.
///
/// Errors: kParse when the record's words do not fit a table
[[nodiscard]] base::Result<Entry> entry_of(const record::AttemptFile& file,
                                           const std::string& name);

}  // namespace driftbench::classroom
