// Text in several languages as it stands in files.
#pragma once

#include "base/json_reader.h"
#include "base/json_writer.h"
#include "lesson/lesson.h"

#include <string_view>
#include <vector>

namespace driftbench::lesson {

/// Reads an object from language code ("en", "de", "pt-BR") to text; English must be there.
[[nodiscard]] LocalText read_local_text(base::ObjectReader& parent, std::string_view key);

/// Reads an array of such objects.
[[nodiscard]] std::vector<LocalText> read_local_texts(base::ObjectReader& parent,
                                                      std::string_view key);

void write_local_text(base::JsonWriter& writer, const LocalText& text);
void write_local_texts(base::JsonWriter& writer, const std::vector<LocalText>& texts);

}  // namespace driftbench::lesson
