// The program of the Classroom's worker: repeats one attempt file after the other, in portions.
// Core only, no window; the page loads it when the first attempt is to be repeated.
#include "desk/checker.h"

#include <emscripten.h>

#include <memory>
#include <string>

namespace {

std::unique_ptr<driftbench::desk::Checker> g_checker;

}  // namespace

extern "C" {

void desk_check_begin(const char* name, const char* bytes, int size);
int desk_check_advance(int step_budget);
const char* desk_check_verdict();

EMSCRIPTEN_KEEPALIVE void desk_check_begin(const char* name, const char* bytes, int size) {
  g_checker = std::make_unique<driftbench::desk::Checker>(
      name, std::string(bytes, static_cast<std::size_t>(size)));
}

/// 1 when there is more to do.
EMSCRIPTEN_KEEPALIVE int desk_check_advance(int step_budget) {
  return g_checker->advance(step_budget) ? 1 : 0;
}

/// JSON; valid until the next call.
EMSCRIPTEN_KEEPALIVE const char* desk_check_verdict() {
  static std::string text;
  text = g_checker->verdict_json();
  g_checker.reset();
  return text.c_str();
}
}

int main() {
  return 0;
}
