// Functions that the page of the Classroom calls. Texts are UTF-8 and end with a zero
// byte; `size` counts the bytes before it.
#include "desk/desk.h"

#include "base/contract.h"
#include "session/session.h"

#include <emscripten.h>

#include <string>
#include <string_view>
#include <utility>

namespace driftbench::desk {
namespace {

Desk* g_desk = nullptr;

Desk& running_desk() {
  DRIFTBENCH_EXPECTS(g_desk != nullptr);
  return *g_desk;
}

}  // namespace

void connect(Desk* desk) {
  g_desk = desk;
}

}  // namespace driftbench::desk

using namespace driftbench::desk;  // NOLINT: this file only forwards

extern "C" {

EMSCRIPTEN_KEEPALIVE void desk_begin_reading(int count) {
  running_desk().begin_reading(static_cast<std::size_t>(count));
}

EMSCRIPTEN_KEEPALIVE void desk_file(const char* name, const char* bytes, int size) {
  running_desk().take_file(name, std::string_view(bytes, static_cast<std::size_t>(size)));
}

EMSCRIPTEN_KEEPALIVE void desk_refuse(const char* sentence) {
  running_desk().refuse_file(sentence);
}

EMSCRIPTEN_KEEPALIVE void desk_end_reading() {
  running_desk().end_reading();
}

/// `reasons`: sentences, a line each.
EMSCRIPTEN_KEEPALIVE void desk_verdict(const char* sha256, int is_equal, const char* reasons) {
  driftbench::classroom::Verdict verdict;
  verdict.equal = is_equal != 0;
  std::string_view rest = reasons;
  while (!rest.empty()) {
    const std::string_view line = rest.substr(0, rest.find('\n'));
    verdict.reasons.emplace_back(line);
    rest.remove_prefix(line.size() < rest.size() ? line.size() + 1 : line.size());
  }
  running_desk().take_verdict(sha256, std::move(verdict));
}

/// Why the plan cannot be used; empty: it is. Valid until the next call.
EMSCRIPTEN_KEEPALIVE const char* desk_experiment(const char* text) {
  static std::string trouble;
  trouble = running_desk().take_experiment(text);
  return trouble.c_str();
}

/// 1 for the colours of a projector.
EMSCRIPTEN_KEEPALIVE int desk_is_light() {
  return running_desk().is_light() ? 1 : 0;
}

/// 1 for a table that needs nobody to say what its columns are.
EMSCRIPTEN_KEEPALIVE int desk_knows_table(const char* name, const char* bytes, int size) {
  return is_known_table(std::string_view(bytes, static_cast<std::size_t>(size)), name) ? 1 : 0;
}

/// Part of the key under which verdicts are kept.
EMSCRIPTEN_KEEPALIVE int desk_engine() {
  return driftbench::session::kEngine;
}
}
