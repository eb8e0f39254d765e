#include "desk/host.h"

#include "base/json_writer.h"

#include <emscripten.h>

#include <string>

// EM_JS keeps JavaScript as text in the program; its macros are not written for -Wpedantic.
#pragma clang diagnostic push
#pragma clang diagnostic ignored "-Wpedantic"
#pragma clang diagnostic ignored "-Wmissing-declarations"
// clang-format off
EM_JS(void, class_pick, (int is_folder), { Module['host'].classroom.pick(is_folder !== 0); });
EM_JS(void, class_check, (const char* files), {
  Module['host'].classroom.check(JSON.parse(UTF8ToString(files)));
});
EM_JS(void, class_stop, (), { Module['host'].classroom.stop(); });
EM_JS(void, class_dialog, (const char* name, const char* json), {
  Module['host'].classroom.dialog(UTF8ToString(name), JSON.parse(UTF8ToString(json)));
});
EM_JS(void, class_forget, (), { Module['host'].classroom.forget(); });
// clang-format on
#pragma clang diagnostic pop

namespace driftbench::desk {

void pick_files() {
  class_pick(0);
}

void pick_folder() {
  class_pick(1);
}

void start_checking(const std::vector<classroom::FileToVerify>& files) {
  base::JsonWriter out(base::JsonLayout::kCompact);
  out.begin_array();
  for (const classroom::FileToVerify& file : files) {
    out.begin_object().field("file", file.file).field("sha256", file.sha256).end_object();
  }
  out.end_array();
  class_check(out.take().c_str());
}

void stop_checking() {
  class_stop();
}

void forget_files() {
  class_forget();
}

void open_dialog(const char* name, const std::string& json) {
  class_dialog(name, json.c_str());
}

}  // namespace driftbench::desk
