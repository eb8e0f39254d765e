// The program of the Lesson desk's worker: reads what an author writes as the app will read it, and
// writes it in our layout. Core only, no window; it brings the lessons, kits, pieces of jaw,
// templates and schemas that it knows.
#include "embedded/authoring.h"

#include "base/json_writer.h"
#include "base/sha256.h"
#include "lesson/authoring.h"

#include <emscripten.h>

#include <string>
#include <string_view>

namespace {

using driftbench::lesson::Authoring;

// Kits and pieces of jaw first, then the lessons that name them.
Authoring with_shipped_files() {
  Authoring authoring;
  for (const std::string_view ending : {".kit.json", ".specimen.json", ".lesson.json"}) {
    for (const driftbench::embedded::File& file : driftbench::embedded::authoring()) {
      if (file.path.ends_with(ending) && !file.path.starts_with("lessons/templates/")) {
        authoring.take(file.bytes, file.path);
      }
    }
  }
  return authoring;
}

const Authoring& shipped() {
  static const Authoring authoring = with_shipped_files();
  return authoring;
}

Authoring g_desk;

}  // namespace

extern "C" {

const char* author_files();
void author_clear();
const char* author_take(const char* name, const char* bytes, int size);

/// JSON: path, text and SHA-256 of every file that comes along; valid until the next call.
EMSCRIPTEN_KEEPALIVE const char* author_files() {
  static std::string text;
  driftbench::base::JsonWriter writer(driftbench::base::JsonLayout::kCompact);
  writer.begin_array();
  for (const driftbench::embedded::File& file : driftbench::embedded::authoring()) {
    writer.begin_object().field("path", file.path).field("text", file.bytes);
    writer.field("sha256", driftbench::base::sha256_hex(file.bytes)).end_object();
  }
  writer.end_array();
  text = writer.take();
  return text.c_str();
}

/// Only what came along is known again.
EMSCRIPTEN_KEEPALIVE void author_clear() {
  g_desk = shipped();
}

/// JSON as write_authored() gives it; valid until the next call.
EMSCRIPTEN_KEEPALIVE const char* author_take(const char* name, const char* bytes, int size) {
  static std::string text;
  const std::string_view given(bytes, static_cast<std::size_t>(size));
  text = driftbench::lesson::write_authored(g_desk.take(given, name));
  return text.c_str();
}
}

int main() {
  return 0;
}
